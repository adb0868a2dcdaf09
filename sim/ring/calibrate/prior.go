package calibrate

import "annuloscope/sim/ring"

// Entry is the provenance of one constant: which tissue it stands for and why it has its prior value.
type Entry struct {
	Name   string
	Unit   string
	Prior  float64
	Tissue string
	Reason string
}

// Entries lists every constant. Each tissue appears once.
func Entries() []Entry {
	return []Entry{
		{"AnnulusTension", "N", 30, "annulus cord, posterior, stretched", "chosen: collagen cord about 1 mm² at some tens of MPa; stretch stays below 3 % in every repair"},
		{"AnnulusCompression", "N", 1, "annulus cord, posterior, gathered", "prior: a cord gathers easily; fitted"},
		{"AnnulusBending", "N·mm²", 60, "annulus cord and the leaflet and wall roots on it, posterior", "chosen: from half to twice this the ring stays clear of in-plane buckling in the random study"},
		{"FibrousAxial", "N", 1000, "inter-trigone fibrous body", "chosen: nearly rigid (anatomy.md S17: least altered in regurgitation)"},
		{"FibrousBending", "N·mm²", 3000, "inter-trigone fibrous body", "chosen: nearly rigid"},
		{"FibrousFoundation", "N/mm²", 0.5, "aortic root holding the fibrous body", "chosen: nearly fixed"},
		{"FoundationSeptal", "N/mm²", 0.003, "base of the posterior ventricle, septal-lateral and vertical", "prior; fitted"},
		{"FoundationCommissural", "N/mm²", 0.04, "septum, lateral wall and trigone tails, sideways", "prior: sideways hold well above the septal-lateral one (S13, S44); fitted"},
		{"VeinTension", "N", 5, "wall of the vein, stretched", "chosen: 25 mm round × 0.5 mm × some 0.4 MPa"},
		{"VeinCompression", "N", 0.5, "wall of the vein, gathered", "chosen: mostly muscle (S49), gathers easily"},
		{"VeinBending", "N·mm²", 5, "wall of the vein", "chosen: small"},
		{"Groove", "N/mm²", 0.003, "fat of the groove, across the vein", "chosen: fat of some 3 kPa (from memory), as wide as deep"},
		{"GrooveTangent", "N/mm²", 0.02, "tributary veins and epicardium, along the vein", "chosen: tributaries every 20 to 30 mm (S55) as tethers of about 0.5 N/mm"},
		{"WallMembrane", "N/mm", 0.5, "atrial wall between vein and annulus, stretched", "prior: 1.3 mm (S51) at 0.4 MPa, chosen; the printed moduli of S52 cannot be used; fitted if the data tell"},
		{"WallShear", "N/mm", 0.5 / 3, "the same, sheared", "one third: isotropic, incompressible"},
		{"WallTransverse", "N/mm", 0.05, "the same, square to its surface, with the fat against it", "chosen: one tenth"},
		{"BandStiffness", "N/mm", 50, "the band", "chosen: stiff against every tissue; 2 N stretch it by 0.05 mm"},
		{"AnchorLength", "mm", 12, "one anchor of the band", "chosen"},
	}
}

// Prior returns the constants before the fit.
func Prior() ring.Constants {
	var c ring.Constants
	for _, e := range Entries() {
		*field(&c, e.Name) = e.Prior
	}
	return c
}

// field is the constant of that name; it panics if there is none.
func field(c *ring.Constants, name string) *float64 {
	switch name {
	case "AnnulusTension":
		return &c.AnnulusTension
	case "AnnulusCompression":
		return &c.AnnulusCompression
	case "AnnulusBending":
		return &c.AnnulusBending
	case "FibrousAxial":
		return &c.FibrousAxial
	case "FibrousBending":
		return &c.FibrousBending
	case "FibrousFoundation":
		return &c.FibrousFoundation
	case "FoundationSeptal":
		return &c.FoundationSeptal
	case "FoundationCommissural":
		return &c.FoundationCommissural
	case "VeinTension":
		return &c.VeinTension
	case "VeinCompression":
		return &c.VeinCompression
	case "VeinBending":
		return &c.VeinBending
	case "Groove":
		return &c.Groove
	case "GrooveTangent":
		return &c.GrooveTangent
	case "WallMembrane":
		return &c.WallMembrane
	case "WallShear":
		return &c.WallShear
	case "WallTransverse":
		return &c.WallTransverse
	case "BandStiffness":
		return &c.BandStiffness
	case "AnchorLength":
		return &c.AnchorLength
	}
	panic("calibrate: no constant " + name)
}

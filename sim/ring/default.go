package ring

// Written by `annuloscope calibrate fit -o sim/ring/default.go`; do not edit. Fitted to the sinus cinch of anatomy.md S45
// and the downsizing forces of S46 in the directions these identify; everything else keeps its prior.
// Educational only: not for diagnosis or treatment planning. Follow licensed practice and local guidance.
//
//	sinus cinch 2.1 N: septal-lateral fall, %    published  24.2 ± 5.3   fitted 23.5 (S45)
//	sinus cinch 2.1 N: area fall, %              published  21.3 ± 5.6   fitted 25.4 (S45)
//	sutures 0.12 N in all: downsizing, %         published     2 ± 0.5   fitted 0.451 (S46)
//	sutures 3.5 N in all: downsizing, %          published    32 ± 11.9  fitted 21 (S46)
//
// Singular values of the fit (standard deviations of data per e-fold of constants; fitted from 1 up):
//	1.47     along +0.78 FoundationSeptal +0.47 FoundationCommissural +0.41 AnnulusCompression +0.01 WallMembrane
//	0.378    along -0.53 FoundationSeptal +0.79 FoundationCommissural +0.10 AnnulusCompression -0.28 WallMembrane
//	0.0772   along +0.04 FoundationSeptal +0.37 FoundationCommissural -0.51 AnnulusCompression +0.78 WallMembrane
//	0.0145   along +0.33 FoundationSeptal +0.11 FoundationCommissural -0.75 AnnulusCompression -0.56 WallMembrane

// Default returns the calibrated constants.
func Default() Constants {
	return Constants{
		AnnulusTension:        30,          // N: annulus cord, posterior, stretched; chosen: collagen cord about 1 mm² at some tens of MPa; stretch stays below 3 % in every repair (not fitted)
		AnnulusCompression:    0.8771601,   // N: annulus cord, posterior, gathered; prior: a cord gathers easily; fitted (prior 1)
		AnnulusBending:        60,          // N·mm²: annulus cord and the leaflet and wall roots on it, posterior; chosen: from half to twice this the ring stays clear of in-plane buckling in the random study (not fitted)
		FibrousAxial:          1000,        // N: inter-trigone fibrous body; chosen: nearly rigid (anatomy.md S17: least altered in regurgitation) (not fitted)
		FibrousBending:        3000,        // N·mm²: inter-trigone fibrous body; chosen: nearly rigid (not fitted)
		FibrousFoundation:     0.5,         // N/mm²: aortic root holding the fibrous body; chosen: nearly fixed (not fitted)
		FoundationSeptal:      0.002231924, // N/mm²: base of the posterior ventricle, septal-lateral and vertical; prior; fitted (prior 0.003)
		FoundationCommissural: 0.03490273,  // N/mm²: septum, lateral wall and trigone tails, sideways; prior: sideways hold well above the septal-lateral one (S13, S44); fitted (prior 0.04)
		VeinTension:           5,           // N: wall of the vein, stretched; chosen: 25 mm round × 0.5 mm × some 0.4 MPa (not fitted)
		VeinCompression:       0.5,         // N: wall of the vein, gathered; chosen: mostly muscle (S49), gathers easily (not fitted)
		VeinBending:           5,           // N·mm²: wall of the vein; chosen: small (not fitted)
		Groove:                0.003,       // N/mm²: fat of the groove, across the vein; chosen: fat of some 3 kPa (from memory), as wide as deep (not fitted)
		GrooveTangent:         0.02,        // N/mm²: tributary veins and epicardium, along the vein; chosen: tributaries every 20 to 30 mm (S55) as tethers of about 0.5 N/mm (not fitted)
		WallMembrane:          0.5019984,   // N/mm: atrial wall between vein and annulus, stretched; prior: 1.3 mm (S51) at 0.4 MPa, chosen; the printed moduli of S52 cannot be used; fitted if the data tell (prior 0.5)
		WallShear:             0.1673328,   // N/mm: the same, sheared; one third: isotropic, incompressible (prior 0.167)
		WallTransverse:        0.05019984,  // N/mm: the same, square to its surface, with the fat against it; chosen: one tenth (prior 0.05)
		BandStiffness:         50,          // N/mm: the band; chosen: stiff against every tissue; 2 N stretch it by 0.05 mm (not fitted)
		AnchorLength:          12,          // mm: one anchor of the band; chosen (not fitted)
	}
}

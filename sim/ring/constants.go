package ring

import "fmt"

// Constants are the stiffnesses of the tissues. Each tissue is stated once; nothing is counted twice.
type Constants struct {
	// Annulus, posterior part: the fibro-muscular hinge itself, a cord.
	AnnulusTension     float64 // axial stiffness EA when stretched, N
	AnnulusCompression float64 // EA when shortened: the cord gathers, N
	AnnulusBending     float64 // EI, N·mm²
	// Annulus between the trigones: fibrous body, aorto-mitral curtain.
	FibrousAxial      float64 // EA both ways, N
	FibrousBending    float64 // EI, N·mm²
	FibrousFoundation float64 // N/mm²: hold by aortic root and fibrous body
	// Foundation of the posterior part: base of the ventricle, per mm of annulus. It holds the commissural sides
	// (septum, lateral wall, fibrous tails of the trigones) harder than the posterior wall: functional dilatation widens
	// the septal-lateral diameter far more than the commissural one (anatomy.md S13, S44).
	FoundationSeptal      float64 // N/mm², along the septal-lateral axis and vertically
	FoundationCommissural float64 // N/mm², along the commissural axis
	// Vein: its own wall, and the fat and epicardium of the groove that hold it on the side away from the annulus.
	VeinTension     float64 // EA, N
	VeinCompression float64 // N
	VeinBending     float64 // EI, N·mm²
	Groove          float64 // N/mm², across the vein
	GrooveTangent   float64 // N/mm², along the vein
	// Atrial wall between vein and annulus: a strip as long as the wall from one to the other.
	WallMembrane   float64 // modulus × thickness, N/mm: stiffness per mm is this over the strip's length
	WallShear      float64 // shear modulus × thickness, N/mm
	WallTransverse float64 // N/mm: the same for motion square to the strip's surface (bending, pressure, fat)
	// WallRigid replaces the wall by a rigid link of no length, for what-if questions: the vein lies at the annulus (its
	// elevation stays) and moves with it. Keeping the distance would make the band work better than on the annulus
	// itself (transmitted fraction 1.05 to 1.11 at 8 mm), because a vein outside the saddle runs flatter than it.
	WallRigid bool
	// Devices.
	BandStiffness float64 // N/mm of the whole band
	AnchorLength  float64 // mm of vein held by one anchor
}

// Numerical constants.
const (
	// Tolerance is the largest nodal imbalance of a converged solve, N. The softest mode of the default patient has
	// about 0.01 N/mm per point, so positions are then good to about 1e-7 mm. Chosen.
	Tolerance = 1e-10
	// StepToleranceMM: a full Newton step below this also ends a solve; stiff devices on fine grids cannot bring the
	// residual below Tolerance because their forces are rounded. Chosen: a thousandth of WarmColdMM.
	StepToleranceMM = 1e-9
	// MaxIterations bounds the Newton steps of one inner solve. Chosen: ordinary solves take below 15.
	MaxIterations = 80
	// WarmColdMM is how far warm and cold answers may differ, mm (tested). Chosen.
	WarmColdMM = 1e-6
	// CableToeMM is the stretch over which a cable goes from slack to its full stiffness, mm. Chosen: makes tension C1.
	CableToeMM = 0.02
	// StretchToe is the strain over which a tissue cord changes from compressed to stretched stiffness. Chosen.
	StretchToe = 0.01
	// RigidWall replaces the wall stiffness where WallRigid is set, N/mm². Chosen: 1e3 × the stiffest wall.
	RigidWall = 200.0
	// RingRatio is the septal-lateral to commissural ratio of a full ring: 3 to 4, common practice, no source.
	RingRatio = 0.75
	// RingSpring holds the annulus to a full ring, N/mm². Chosen: about 500 × the foundation.
	RingSpring = 10.0
	// RingOnFibrous is the share of RingSpring left on the inter-trigone part. Chosen: the ring's spring is then softer
	// there than the fibrous body's own hold.
	RingOnFibrous = 0.01
	// WallShortest keeps the wall's stiffness finite where the vein touches the annulus, mm. Chosen: one wall thickness
	// (anatomy.md S51: 0.7 to 1.3 mm).
	WallShortest = 1.0
	// MaxStepMM bounds one Newton step of any point, mm. Chosen: a fifth of the radius.
	MaxStepMM = 4.0
	// slipTolerance is how closely the path between slipping anchors meets the band's length, mm. Chosen.
	slipTolerance = 1e-8
)

// Check reports the first constant that is negative, not finite, or must be positive and is not.
func (c *Constants) Check() error {
	for _, f := range []struct {
		name     string
		v        float64
		positive bool
	}{
		{"annulus_tension", c.AnnulusTension, true}, {"annulus_compression", c.AnnulusCompression, true},
		{"annulus_bending", c.AnnulusBending, true}, {"fibrous_axial", c.FibrousAxial, true},
		{"fibrous_bending", c.FibrousBending, true}, {"fibrous_foundation", c.FibrousFoundation, false},
		{"foundation_septal", c.FoundationSeptal, false}, {"foundation_commissural", c.FoundationCommissural, false},
		{"vein_tension", c.VeinTension, true}, {"vein_compression", c.VeinCompression, true},
		{"vein_bending", c.VeinBending, true}, {"groove", c.Groove, false}, {"groove_tangent", c.GrooveTangent, false},
		{"wall_membrane", c.WallMembrane, false}, {"wall_shear", c.WallShear, false},
		{"wall_transverse", c.WallTransverse, false}, {"band_stiffness", c.BandStiffness, true},
		{"anchor_length", c.AnchorLength, true},
	} {
		if !(f.v >= 0 && f.v <= 1e6) || f.positive && f.v == 0 {
			return fmt.Errorf("ring: constants.%s is %g; must be finite, at most 1e6 and not negative (above 0 for the cords' own stiffness)", f.name, f.v)
		}
	}
	return nil
}

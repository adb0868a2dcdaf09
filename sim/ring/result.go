package ring

import "gonum.org/v1/gonum/spatial/r3"

// Status is how a solve ended.
type Status int

const (
	Converged      Status = iota // the largest nodal residual is below Tolerance, or the last step below StepToleranceMM
	AnchorsMet                   // equilibrium found, but an anchor slipped until both met: the band holds nothing more
	IterationLimit               // MaxIterations reached; the result is the best point found
	Stalled                      // no step lowers the energy although the residual is above Tolerance
	NotFinite                    // a value stopped being finite; the result is the rest shape
)

// OK reports whether the result is an equilibrium.
func (s Status) OK() bool { return s == Converged || s == AnchorsMet }

// String names the status in plain words.
func (s Status) String() string {
	switch s {
	case Converged:
		return "converged"
	case AnchorsMet:
		return "converged, anchors slipped until they met"
	case IterationLimit:
		return "iteration limit"
	case Stalled:
		return "stalled"
	case NotFinite:
		return "not finite"
	}
	return "unknown"
}

// Measures of one annulus shape. Area is that of its projection along the septal and commissural axes.
type Measures struct {
	SeptalLateralMM, CommissuralMM, PerimeterMM, AreaMM2 float64
}

// Result of one solve. Slices are reused when the same Result is passed to Solver.Solve again.
type Result struct {
	Status     Status
	Iterations int     // Newton steps, all inner solves together
	ResidualN  float64 // largest component of the nodal force imbalance, N
	EnergyNMM  float64 // elastic energy less work of the loads, N·mm

	Annulus, Vein []r3.Vec // deformed points, mm
	Before, After Measures
	// Folds is the number of places where the annulus turns back on itself: runs of pieces that point more than 90° away
	// from their direction at rest, so that neighbouring points have changed their order along the annulus. Tissue cannot
	// do that; so much is gathered there that the cord has snapped, and which piece has turned may change with little.
	Folds int

	Band      BandResult
	Rods      RodsResult
	Posterior CableResult
	Ties      []CableResult
	FullRing  FullRingResult
}

// SeptalLateralLoss is the fall of the septal-lateral diameter, mm (positive when it shortens).
func (r *Result) SeptalLateralLoss() float64 {
	return r.Before.SeptalLateralMM - r.After.SeptalLateralMM
}

// CommissuralLoss is the fall of the commissural diameter, mm (negative when it widens).
func (r *Result) CommissuralLoss() float64 { return r.Before.CommissuralMM - r.After.CommissuralMM }

// CableResult is what any shortening cable does.
type CableResult struct {
	TensionN   float64
	AchievedMM float64 // fall of the path under the cable, mm
	StretchMM  float64 // give of the cable itself, mm
}

// BandResult of the sinus band. ShorteningMM = AchievedMM + SlackTakenMM + SlipMM + StretchMM.
type BandResult struct {
	CableResult
	SlackTakenMM float64   // band length used up by slack and by cutting the curve inside the lumen
	SlipMM       float64   // rest length of vein no longer between the anchors (slip and migration)
	State        BandState // history after this solve; pass it in Band.State next time
	// ContactNPerMM is the force per length of the band on the vein wall at each vein point, tension × curvature
	// towards the centre of curvature, N/mm.
	ContactNPerMM []r3.Vec
	// ProximalAnchorN and DistalAnchorN are the forces of the anchors on the vein, along the vein, N.
	ProximalAnchorN, DistalAnchorN r3.Vec
}

// RodsResult: forces of the rods on the vein points, N; their sum and their moment vanish.
type RodsResult struct {
	ForceN []r3.Vec
}

// FullRingResult: the greatest force per length between ring and annulus, N/mm, and the resultant pulling the septal
// and lateral halves apart, N.
type FullRingResult struct {
	MaxNPerMM, SeptalLateralN float64
}

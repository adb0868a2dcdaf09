package closure

import "annuloscope/sim/units"

// DefaultStations is the number of sections along the closure line.
const DefaultStations = 61

// Leaflet names one of the two leaflets.
type Leaflet int

const (
	Anterior  Leaflet = 0
	Posterior Leaflet = 1
)

// Point is a point or a vector in the section frame: X towards lateral (posterior, = −y of the valve frame), Z towards
// the atrium; mm for points, N/mm or N for forces.
type Point struct{ X, Z float64 }

// Station is one section: the annulus and the effective papillary points in its plane.
type Station struct {
	S         float64  // position along the closure line, −1 (anterolateral) to +1 (posteromedial)
	XMM       float64  // x of the plane in the valve frame, for drawing
	Annulus   [2]Point // by Leaflet
	Papillary [2]Point // by Leaflet, displaced as they are now
	// Undisplaced are the papillary points of the normal valve, from which the fit's template starts, so that a
	// displacement known before the fit shapes the fitted line. The zero value means Papillary. Ignored by Solve.
	Undisplaced [2]Point
}

// Line is the geometry of all sections, evenly spaced by SpacingMM from s = −1 to s = +1.
type Line struct {
	Stations  []Station
	SpacingMM float64
}

// LengthMM is the length of the closure line.
func (l *Line) LengthMM() float64 { return l.SpacingMM * float64(len(l.Stations)-1) }

// ChordFault lengthens the chords of a stretch of one leaflet.
type ChordFault struct {
	Leaflet      Leaflet
	Position     float64 // centre of the stretch, −1 to +1 (ScallopCentre gives it for a scallop)
	WidthMM      float64 // length of margin with elongated or ruptured chords
	ElongationMM float64 // chords longer by this over the stretch (negative: shortened)
	Ruptured     bool    // chords of the stretch are gone: the excess grows with the distance to the nearest intact chord
}

// Calcification is a stiff stretch of one leaflet. Rule: severity v removes the share v of the leaflet's stretch, of its
// bending under the margin's and a clip's pull, and of a clip's grip there.
type Calcification struct {
	Leaflet  Leaflet
	Position float64 // −1 to +1
	WidthMM  float64
	Severity float64 // 0 to 1
}

// State is the condition of leaflets and chords. The zero value is a healthy valve. What stands in the baseline's state
// is part of what was measured; only the difference between the current and the baseline state changes the valve.
type State struct {
	Faults         []ChordFault
	Calcifications []Calcification
	RestrictionMM  float64 // posterior chords shortened by this: restricted posterior leaflet
	Growth         float64 // growth of both leaflets since the fit, as a fraction (0.1 = 10 % longer); 0 in a baseline

	excessChange float64 // of the elongations, as a fraction: a phase of systole
}

// Input is one systolic state of annulus, papillary muscles, pressure and leaflets.
type Input struct {
	Line     Line
	Pressure float64 // across the closed valve, N/mm², > 0
	State    State
}

// Targets are the measurements that the fit reproduces.
type Targets struct {
	DepthMM          float64            // of the junction below the septal-lateral line at s = 0
	ContactMM        float64            // mean contact along the line
	EffectiveOrifice units.EffectiveCM2 // mid-systolic
	JetPosition      float64            // −1 to +1, centre of the local deficit
	JetSpreadMM      float64            // standard deviation along the line, 0 = DefaultJetSpreadMM
}

// Grasp says which leaflets a clip holds.
type Grasp int

const (
	HoldsBoth Grasp = iota
	HoldsAnterior
	HoldsPosterior // single-leaflet detachment: held on one leaflet, no bond
)

// Clip joins the leaflets' edges over WidthMM at Position.
type Clip struct {
	Position float64 // −1 to +1
	WidthMM  float64
	ReachMM  float64 // a gap beyond this is not grasped
	Hold     float64 // 0 (no effect) to 1
	Grasp    Grasp
}

// Status is the numerical outcome of a fit or a solve.
type Status int

const (
	Converged    Status = iota
	Continued           // converged after the inputs were led from the baseline in steps
	FitByShape          // fit only: growth and papillary displacement had no solution; the closure line was placed by shape
	NotConverged        // the numbers belong to the nearest state that was reached
	Impossible          // fit only: a length came out negative; nothing else is filled
)

func (s Status) String() string {
	switch s {
	case Converged:
		return "converged"
	case Continued:
		return "converged by continuation"
	case FitByShape:
		return "fitted by shape"
	case NotConverged:
		return "not converged"
	case Impossible:
		return "impossible targets"
	}
	return "unknown status"
}

// OK says that the numbers solve the equations.
func (s Status) OK() bool { return s == Converged || s == Continued || s == FitByShape }

// Lengths are rest lengths in mm of one section.
type Lengths struct{ AnteriorMM, PosteriorMM, ChordAnteriorMM, ChordPosteriorMM float64 }

// FitReport says what the fit had to assume.
type FitReport struct {
	Status             Status
	Iterations         int
	Growth             float64 // γ, leaflet length over template
	PapillaryMM        float64 // dm, papillary displacement (apical and posterior), against the given points
	UnevennessMM       float64 // u, standard deviation of the overlap within a station
	DeficitMM          float64 // D, local deficit at the jet
	JetSpreadMM        float64 // used, after widening
	Flattening         float64 // 1 = section shape kept, 0 = overlap made uniform along the line
	Central            Lengths // at s = 0
	Mean               Lengths // along the line
	SectionStiffness   float64 // N/mm², closing force per margin displacement
	CouplingLengthMM   float64 // λ = √(T_m/k)
	DepthMM, ContactMM float64 // as reproduced
	EffectiveOrifice   units.EffectiveCM2
}

// Regional is a quantity along the line: its extreme and its means over the thirds of the line.
type Regional struct{ Mean, Min, Max, A1P1, A2P2, A3P3 float64 }

// ClipReport is what became of one clip.
type ClipReport struct {
	GapBeforeMM float64    // gap at the clip before any clip
	Grip        float64    // 0 to 1: hold × grasp of the gap × healthy leaflet
	HeldMM      [2]float64 // length of each leaflet within the grip
	Grasped     bool       // grip above one half
	PoorGrip    bool
	Detached    bool    // single-leaflet detachment
	ForceN      float64 // closing force on each leaflet
}

// AnnulusForce is a change of the leaflets' pull on the annulus.
type AnnulusForce struct {
	Total    [2]Point   // N, by Leaflet
	Position [2]float64 // s of the change's centre, stations weighted by the square of its X part
}

// Result is a solved closure. Slices have one entry per station and are reused by the next solve into the same Result.
type Result struct {
	Status     Status
	Iterations int

	S          []float64
	OverlapMM  []float64  // signed overlap σ
	ContactMM  []float64  // ≥ 0
	GapMM      []float64  // ≥ 0, mean gap: anatomic orifice per mm of line
	Tethered   [2][]bool  // leaflet drawn straight
	PullChange [2][]Point // change of the pull on the annulus against the baseline, N/mm
	ClipPull   [2][]Point // against the same state without clips, N/mm

	Contact, Gap                         Regional
	DepthMM                              float64
	TentingAreaCM2, TentingVolumeML      float64
	BillowingHeightMM, BillowingVolumeML float64
	AnatomicOrifice                      units.AnatomicCM2
	EffectiveOrifice                     units.EffectiveCM2
	OrificeLow, OrificeHigh              units.EffectiveCM2 // equal to EffectiveOrifice unless the interval was asked for
	JetPosition, JetSpreadMM             float64            // centre and spread of the orifice along the line
	FlailGapMM, FlailWidthMM             float64
	FullyTethered                        bool // some leaflet is drawn straight
	ExcessClamped                        bool // a chord excess beyond ExcessMaxMM was clamped
	CouplingLengthMM                     float64

	Clips       []ClipReport
	Annulus     AnnulusForce // against the baseline
	AnnulusClip AnnulusForce // against the same state without clips
}

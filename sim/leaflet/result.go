package leaflet

import "gonum.org/v1/gonum/spatial/r3"

// Status says how a solve stands.
type Status int

// The outcomes. Anything but Converged must be said wherever the numbers are shown.
const (
	Running      Status = iota // more Step calls are needed
	Converged                  // rms step below 0.002 mm (0.004 after 40 iterations, 0.006 after 80), no crossing
	NotConverged               // the iteration limit was met, or the numbers left their range
	Crossed                    // equilibrium found, but surfaces pass through each other after every retry
)

func (s Status) String() string {
	return [...]string{"running", "converged", "not converged", "surfaces cross"}[s]
}

// Chord groups of Result.ChordLoadN: the marginal chords of thirds of the line on each leaflet, then all basal chords.
const (
	GroupA1 = iota
	GroupA2
	GroupA3
	GroupP1
	GroupP2
	GroupP3
	GroupBasal
	ChordGroups
)

// Orifice is one opening of the open valve.
type Orifice struct {
	AreaMM2 float64  // of the loop projected on its own mean plane (length of the vector area)
	SFrom   float64  // its extent along the line
	STo     float64  //
	Outline []r3.Vec // anterior margin from STo to SFrom, then the posterior back
}

// Result is everything a caller may read of a state. Slices belong to the Solver and change with the next Result call;
// copy what must be kept. Vertex i is row i/S, column i%S; row 0 is the annulus.
type Result struct {
	Status     Status
	Iterations int     // since the last Set, all levels and retries
	ResidualMM float64 // rms step of the last iteration
	Crossings  int     // edge-triangle crossings between surfaces that contact should keep apart
	Cold       bool    // the state came from a cold start

	S, T      int // columns and rows
	X         []r3.Vec
	Triangles [][3]int32
	UV        [][2]float64

	GapMM       []float64 // per vertex: distance to the other leaflet's middle surface
	ContactNMM2 []float64 // per vertex: contact pressure
	InContact   []bool    // per vertex: gap ≤ 1.1 × the contact thickness
	TensionNMM  []float64 // per vertex: mean in-plane tension, N/mm

	Line          []float64 // stations s, anterolateral to posteromedial
	LineContactMM []float64 // contact length per station
	LineGapMM     []float64 // slot per station: closest distance less 1.1 × the contact thickness, ≥ 0

	ContactMeanMM, ContactMinMM                 float64 // over |s| ≤ 0.9
	ContactA1P1MM, ContactA2P2MM, ContactA3P3MM float64 // means over thirds of the line
	GapMaxMM, GapA1P1MM, GapA2P2MM, GapA3P3MM   float64 // largest slot, overall and by thirds
	GapWidthMM                                  float64 // length of line with a slot above 1 mm
	DepthMM                                     float64 // septal-lateral line down to the coaptation, section s = 0
	MarginDepthMM                               float64 // that line down to the middle of both margins
	TentingAreaMM2                              float64 // between that line and the leaflets, s = 0
	TentingVolumeMM3                            float64 // below the annular surface, down to the coaptation
	SlotMM2                                     float64 // ∫ LineGap ds
	ProjectedGapMM2                             float64 // hole as seen from the atrium along −z
	OpenMM2                                     float64 // sum over Orifices
	Orifices                                    []Orifice
	BondTensionN                                []float64 // per bond: sum of the spring forces
	ChordLoadN                                  [ChordGroups]float64
	PapillaryForceN                             [2]r3.Vec // pull of the chords on each tip
	AnnulusForceN                               []r3.Vec  // pull of the shell on each point of Input.Annulus
	ContactForceN                               float64   // sum of the contact forces on the anterior leaflet
	StrainEnergyMJ                              float64   // N·mm = mJ
	ThicknessMM                                 float64   // the contact thickness d̂ behind the slot and contact numbers
}

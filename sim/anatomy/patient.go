package anatomy

import "math"

// Patient is one heart. Use Normal or a case file to make one; fields are reached by path through Parameters.
type Patient struct {
	Mechanism Mechanism
	Dominance Dominance
	Imported  bool // measured geometry: no grades, no selection rules, watermark

	LeakDistance LeakDistance // which published view holds
	Scaling      Scaling

	BodySurfaceM2 float64

	Annulus   Annulus
	Leaflet   Leaflet
	Papillary Papillary
	Chord     Chord
	Measured  Measured
	Jet       Jet
	Sinus     Sinus
	Artery    Artery
	Heart     Heart
}

// Mechanism says why the valve leaks.
type Mechanism string

// The mechanisms.
const (
	NoLeak       Mechanism = "none"
	Functional   Mechanism = "functional"   // secondary: a large annulus or pulled chords, leaflets themselves sound
	Degenerative Mechanism = "degenerative" // primary: long or torn chords
)

// Dominance says which coronary artery supplies the back of the heart.
type Dominance string

// The dominances.
const (
	RightDominant    Dominance = "right"
	LeftDominant     Dominance = "left"
	BalancedDominant Dominance = "balanced"
)

// Annulus is the rest annulus in mid-systole (saddle contour, the aorto-mitral part included).
type Annulus struct {
	SeptalLateralMM, CommissuralMM, HeightMM float64
	IntertrigoneShare                        float64 // of the perimeter
	DiastolicScale                           float64 // mid-diastolic length over mid-systolic length
	DilationMM                               float64 // septal-lateral diameter gained since the measurements
}

// Leaflet holds what changes the leaflets after the baseline fit, and the margin that governs a clipped opening.
type Leaflet struct {
	MarginMM             float64 // free margin, both leaflets together
	Growth               float64 // length factor applied after the fit
	PosteriorRestriction float64 // 0 free … 1 immobile
	CalcifiedFrom        float64 // position along the line; equal to CalcifiedTo means none
	CalcifiedTo          float64
}

// Tip is the displacement of one papillary muscle's tip from the fitted baseline, mm.
type Tip struct{ ApicalMM, LateralMM, PosteriorMM float64 }

// Papillary holds both muscles' displacements, applied after the fit; LeanMM shifts the pull towards one muscle and is
// known before the fit (it moves the leak towards that commissure).
type Papillary struct {
	Anterolateral, Posteromedial Tip
	LeanMM                       float64
}

// Chord describes long or torn chords at one scallop.
type Chord struct {
	Position    float64 // middle of the stretch along the line
	OnAnterior  float64 // 0 the posterior leaflet, 1 the anterior
	ElongatedMM float64
	RupturedMM  float64 // width of margin without chords
}

// Measured holds what was measured in this patient and must be reproduced exactly; NaN where not stated.
type Measured struct {
	DepthMM, ContactMM, EffectiveOrificeCM2, OpeningAreaCM2 float64
}

// Stated tells whether the closure measurements are stated (all three together, or none: the decoder sees to it).
func (m Measured) Stated() bool { return !math.IsNaN(m.DepthMM) }

// Jet says where along the line the leak is.
type Jet struct{ Position, SpreadMM float64 }

// Sinus is the whole vein from its mouth to the interventricular vein. Triples are at the mouth, over P2 and near the
// anterolateral commissure; between them the values run smoothly.
type Sinus struct {
	LengthMM                            float64
	MouthDeg                            float64 // annulus angle φ of the mouth
	CoverFromMM, CoverToMM              float64 // stretch of the vein that lies on the atrium
	DistanceMM, ElevationMM, DiameterMM Triple
	MouthOval                           float64 // long over short diameter of the mouth
	Tortuosity                          float64 // centreline length over smooth path length, minus 1
	BendMM, BendDeg                     float64 // station and angle of one abrupt bend; 0° means none
	ArchMM                              float64 // extra elevation of the middle course (arch onto the atrial wall)
}

// Triple is a quantity at the mouth, over P2 and near the anterolateral commissure.
type Triple struct{ Mouth, Middle, Distal float64 }

// Artery is the circumflex and its relation to the vein.
type Artery struct {
	DiameterMM    float64
	CrossingMM    float64 // sinus station where the artery crosses under or over the vein
	DeepFromMM    float64 // stretch of the vein, in stations, over which the artery lies between it and the annulus
	DeepToMM      float64
	SeparationMM  float64 // soft tissue between vein wall and artery wall where it is deep
	SuperficialMM float64 // the same where it is not
	MarginalMM    float64 // station where a marginal branch passes under the vein; 0 means none
	DiagonalMM    float64 // station where a diagonal branch passes under the vein; 0 means none
	BranchMM      float64 // diameter of those branches
}

// Heart is the circulation round the valve.
type Heart struct {
	RatePerMin          float64
	EndDiastolicML      float64
	EndSystolicML       float64
	EndSystolicDiameter float64 // mm
	AtrialStiffness     float64 // mmHg/mL
	MeanArterialMMHg    float64 // before treatment
	AtrialMeanMMHg      float64 // left atrium, before treatment

	// Since the measurements, like the annulus's dilation: the numbers above stay those of the patient as measured.
	RateChange float64 // 1/min
	Exercise   float64 // 0 rest … 1 brisk effort
	Adaptation float64 // 0 as measured … 1 after years with the leak: larger ventricle and atrium, more blood
}

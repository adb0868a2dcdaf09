package beat

import "annuloscope/sim/units"

// Status says how the search for the periodic beat ended.
type Status int

const (
	// NotConverged: no periodic beat within the allowed number of beats; the numbers describe the last beat.
	NotConverged Status = iota
	// Converged: the beat repeats itself within the tolerance.
	Converged
	// NoOpening: converged, but the mitral or aortic valve never opens or never closes; phases and what hangs on them
	// are not meaningful.
	NoOpening
)

// Waves hold one periodic beat, len(Time) evenly spaced samples from the onset of ventricular activation (the
// sample after the last equals the first).
type Waves struct {
	Time                           []float64 // s
	LV, LA, Aorta, PulmonaryArtery []float64 // mmHg; Aorta is the root (includes the characteristic resistance)
	LVVolume, LAVolume             []float64 // mL
	MitralForward, LeakFlow        []float64 // mL/s, both ≥ 0
	AorticFlow                     []float64 // mL/s
	PulmonaryVenousFlow            []float64 // mL/s, into the atrium
	LVElastance                    []float64 // p/(V−V0), mmHg/mL
	LeakArea                       []float64 // effective, cm², as used in systole
}

// Phases are times in s from the onset of ventricular activation, within the beat.
type Phases struct {
	MitralClose, AorticOpen, AorticClose, MitralOpen float64
	// LeakFrom and LeakTo are where the ventricle's pressure passes the atrium's by 5 mmHg, up and down: phases 0 and 1 of
	// a leak's course. MidSystole is halfway between them; MidDiastole halfway from mitral opening to closure.
	LeakFrom, LeakTo        float64
	MidSystole, MidDiastole float64
	// Indices of the nearest samples of the waves.
	MidSystoleIndex, MidDiastoleIndex int
}

// Result is one periodic beat. Slices belong to the Workspace that made it and are overwritten by its next Solve.
type Result struct {
	Status Status
	Beats  int // beats integrated
	// Residual: largest change over the last beat of a volume (mL) or an inertial flow (mL/s).
	Residual float64
	// ConservationErrorML: largest departure of the total volume from its set value over the beat, mL.
	ConservationErrorML float64
	RatePerMin          float64

	Waves  Waves
	Phases Phases

	EDVML, ESVML       float64
	EF                 float64 // (EDV−ESV)/EDV
	TotalStrokeML      float64 // aortic + leak
	ForwardStrokeML    float64 // net through the aortic valve
	RegurgitantML      float64
	RegurgitantFrac    float64 // RegurgitantML/TotalStrokeML
	CardiacOutputLPMin float64 // forward

	MeanGradientMMHg float64 // LA − LV, mean over the time of forward mitral flow
	PeakGradientMMHg float64
	LAMeanMMHg       float64
	LAVWaveMMHg      float64 // highest LA pressure from mitral closure to shortly after its opening
	LAAWaveMMHg      float64 // highest LA pressure in the last part of diastole
	LVEDPMMHg        float64 // LV pressure at mitral closure
	LVPeakMMHg       float64
	AorticSystolic   float64 // mmHg
	AorticDiastolic  float64
	AorticMean       float64
	PASystolic       float64
	PADiastolic      float64
	PAMean           float64

	// MidSystolicDropMMHg is LV − LA at mid-systole; MeanSystolicDropMMHg its mean from LeakFrom to LeakTo.
	MidSystolicDropMMHg, MeanSystolicDropMMHg float64
	// MidDiastolicDropMMHg is LV − LA at mid-diastole (near zero or below).
	MidDiastolicDropMMHg float64

	// Peak velocities = flow / effective opening, cm/s: E before the atrium contracts, A after. E is 0 when the rate is so
	// high that the valve opens only then (fused).
	EWaveCMS, AWaveCMS float64
	EDecelerationS     float64 // twice the time from the E peak to half its speed, s; 0 if the atrium contracts before
	IVRTS              float64 // aortic closure to mitral opening, s
	FillingS           float64 // time of forward mitral flow, s

	// Leak areas as used: at mid-systole, mean from LeakFrom to LeakTo, and peak there.
	LeakMidCM2, LeakMeanCM2, LeakPeakCM2 units.EffectiveCM2
}

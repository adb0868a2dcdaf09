package grade

import (
	"math"

	"annuloscope/sim/units"
)

// SelectionTitle heads the list wherever it is shown.
const SelectionTitle = "Historical selection rules, often exceeded in practice"

// Mechanism gates the selection rules.
type Mechanism int

// The mechanisms. Mixed valves meet both lists.
const (
	Functional Mechanism = iota
	Degenerative
	Mixed
)

// SelectionInput is what the rules read. NaN where not measured.
type SelectionInput struct {
	Mechanism          Mechanism
	Opening            units.AnatomicCM2 // planimetry before the repair
	ContactMM          float64           // coaptation length
	DepthMM            float64           // coaptation depth
	FlailGapMM         float64           // free tip to the other leaflet; NaN or 0 without a flail
	FlailWidthMM       float64
	JetPosition        float64 // origin of the leak on the line, −1 to +1
	CalcifiedGripMM    float64 // calcified length where the clip would hold
	SystolicDiameterMM float64 // end-systolic diameter of the ventricle
	EjectionPct        float64
}

const (
	sourceOpening = "published trial criteria, area below 4.0 cm² excluded (physics.md A3, S14)"
	sourceTrade   = "common practice, no source"
)

// Selection compares a valve with the historical selection rules for edge repair, gated by mechanism, each on its
// own; it never adds them up.
func Selection(in SelectionInput) []Finding {
	functional := in.Mechanism == Functional || in.Mechanism == Mixed
	flail := (in.Mechanism == Degenerative || in.Mechanism == Mixed) && (in.FlailGapMM > 0 || in.FlailWidthMM > 0)
	origin := bound{"origin of the leak, distance from the middle of the line", "of the half line", sourceTrade, centralHalf, false, false}.
		find(math.Abs(in.JetPosition), true)
	origin.Rule = "central: within the middle third of the line (middle third chosen)"
	grip := bound{"calcified length where the clip holds", "mm", sourceTrade, 0, false, false}.find(in.CalcifiedGripMM, true)
	grip.Rule = "none"
	return []Finding{
		bound{"opening by planimetry", "cm²", sourceOpening, 4, true, false}.find(float64(in.Opening), true),
		bound{"contact length", "mm", sourceTrade, 2, true, false}.find(in.ContactMM, functional),
		bound{"contact depth", "mm", sourceTrade, 11, false, true}.find(in.DepthMM, functional),
		bound{"flail gap", "mm", sourceTrade, 10, false, true}.find(in.FlailGapMM, flail),
		bound{"flail width", "mm", sourceTrade, 15, false, true}.find(in.FlailWidthMM, flail),
		origin,
		grip,
		bound{"end-systolic diameter", "mm", sourceTrade, 55, false, false}.find(in.SystolicDiameterMM, true),
		bound{"ejection fraction", "%", sourceTrade, 25, true, true}.find(in.EjectionPct, true),
	}
}

// centralHalf is the half width of the middle third of the line of coaptation. Chosen.
const centralHalf = 1. / 3

package valve

import (
	"fmt"
	"math"

	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
)

// FollowUpDay is one day after a band was placed.
type FollowUpDay struct {
	Day             float64 `json:"day"`
	Share           float64 `json:"share"` // of the planned shortening that has come
	ShorteningMM    float64 `json:"shortening_mm"`
	TensionN        float64 `json:"tension_n"`
	SlipMM          float64 `json:"slip_mm"`
	SeptalLateralMM float64 `json:"septal_lateral_mm"`
	OrificeCM2      float64 `json:"effective_orifice_cm2"`
	NarrowingPct    float64 `json:"worst_view_narrowing_pct"` // of the circumflex
	BranchPct       float64 `json:"branch_worst_view_narrowing_pct"`
	FlowReserve     float64 `json:"flow_reserve"`
	Risk            string  `json:"risk"` // of the artery: low, possible, likely
	Status          string  `json:"status"`
	Engine          string  `json:"engine"` // that closed the leaflets
}

// FollowUp solves a case with a sinus band on each of the given days after placement (in rising order, 0 to 365). The
// shortening follows the band's own delay: the published loss of strength of a dissolving suture (physics.md G) stretched
// to its half-time; that the shortening follows the strength is an assumption. Nothing else changes with time: no
// remodelling, no healing. Since the shortening never falls, an anchor's slip on a day is the whole history up to it. The
// error is a *fault.Field: no band, days out of order, or that of Solve.
func FollowUp(c casefile.Case, days []float64, o Options) ([]FollowUpDay, error) {
	at := bandStep(c)
	if at < 0 {
		return nil, &fault.Field{Path: "repairs", Problem: "no sinus band whose course could be followed", Allowed: "a sinus-band",
			Fix: "add one, for example --repair sinus-band,delay_days=42"}
	}
	c = c.Clone()
	s := NewSolver()
	var out []FollowUpDay
	for i, day := range days {
		if i > 0 && day <= days[i-1] {
			return nil, &fault.Field{Path: "days", Value: fmt.Sprint(day), Problem: "not in rising order", Fix: "sort the days"}
		}
		step := c.Repairs[at].Clone()
		if err := step.Set("day", day); err != nil {
			return nil, err
		}
		c.Repairs[at] = step
		r, err := s.Solve(c, o)
		if err != nil {
			return nil, err
		}
		share := Delayed(step.Value("delay_days"), day)
		a := r.After
		out = append(out, FollowUpDay{Day: day, Share: share, ShorteningMM: share * step.Value("shortening_mm"), TensionN: a.Sinus.TensionN, SlipMM: a.Sinus.SlipMM,
			SeptalLateralMM: a.Annulus.SeptalLateralMM, OrificeCM2: float64(a.Regurgitation.EffectiveOrificeCM2), NarrowingPct: a.Artery.WorstViewNarrowing,
			BranchPct: a.Artery.BranchWorstNarrowing, FlowReserve: a.Artery.FlowReserve, Risk: a.Artery.Risk, Status: r.Provenance.Status,
			Engine: r.Provenance.Engine})
	}
	return out, nil
}

// LateCompression is the first day on which the artery's risk is above that of the first day, and whether there is one: a
// device that spared the artery when it was placed presses on it later.
func LateCompression(days []FollowUpDay) (day float64, late bool) {
	for _, d := range days {
		if riskRank(d.Risk) > riskRank(days[0].Risk) {
			return d.Day, true
		}
	}
	return math.NaN(), false
}

func riskRank(word string) int {
	switch word {
	case "likely":
		return 2
	case "possible":
		return 1
	}
	return 0
}

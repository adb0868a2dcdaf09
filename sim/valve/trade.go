package valve

import (
	"math"

	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// TradePoint is one place of the far anchor: what it gains the annulus and what it costs the artery, at the tension and at
// the percentage of shortening that the case has as it stands. At equal millimetres a shorter band would pull harder on
// less; those two comparisons are the fair ones.
type TradePoint struct {
	DistalMM     float64   `json:"distal_mm"`
	SpanMM       float64   `json:"span_mm"`   // between the anchors
	BeyondMM     float64   `json:"beyond_mm"` // past the crossing of the circumflex; negative: short of it
	EqualTension TradeSide `json:"equal_tension"`
	EqualPercent TradeSide `json:"equal_percent"`
}

// TradeSide is the answer at one of the two.
type TradeSide struct {
	ShorteningMM    float64 `json:"shortening_mm"` // reached between the anchors
	TensionN        float64 `json:"tension_n"`
	SeptalLateralMM float64 `json:"septal_lateral_fall_mm"`
	OrificeCM2      float64 `json:"effective_orifice_cm2"`
	NarrowingPct    float64 `json:"worst_view_narrowing_pct"`
	BranchPct       float64 `json:"branch_worst_view_narrowing_pct"`
	FlowReserve     float64 `json:"flow_reserve"`
	Risk            string  `json:"risk"`
	Status          string  `json:"status"`
	Engine          string  `json:"engine"` // that closed the leaflets
}

// leastSpanMM is the shortest band that repair.Step.Validate takes.
const leastSpanMM = 15.0

// TradeStations are places for the far anchor from 40 mm beyond the near one to the end of the vein, every 4 mm.
func TradeStations(c casefile.Case) []float64 {
	i := bandStep(c)
	if i < 0 {
		return nil
	}
	var out []float64
	for at := c.Repairs[i].Value("proximal_mm") + spanLeastMM; at <= c.Patient.Sinus.LengthMM-6; at += 4 {
		out = append(out, at)
	}
	return out
}

// AnchorTrade moves the far anchor of the case's sinus band to each station (mm) and solves, warm from one to the next
// with Options.Warm. The error is a *fault.Field: no band that pulls, a station off the vein or too near the other anchor, or
// that of Solve.
func AnchorTrade(c casefile.Case, stations []float64, o Options) ([]TradePoint, error) {
	i := bandStep(c)
	if i < 0 {
		return nil, &fault.Field{Path: "repairs", Problem: "no sinus band whose anchor could be moved", Allowed: "a sinus-band", Fix: "add one"}
	}
	s := NewSolver()
	r, err := s.Solve(c, o)
	if err != nil {
		return nil, err
	}
	band := c.Repairs[i]
	tension, share := r.After.Sinus.TensionN, band.Value("shortening_mm")/(band.Value("distal_mm")-band.Value("proximal_mm"))
	if tension <= 0 {
		return nil, &fault.Field{Path: "repair.sinus-band.shortening_mm", Problem: "the band does not pull", Allowed: "a band under tension", Fix: "shorten it"}
	}
	var out []TradePoint
	for _, at := range stations {
		span := at - band.Value("proximal_mm")
		q := c.Clone()
		if span >= leastSpanMM {
			q.Repairs[i] = band.With("distal_mm", at).With("shortening_mm", math.Min(share*span, 40))
		} else {
			q.Repairs[i] = band.With("distal_mm", at)
		}
		percent, err := s.Solve(q, o)
		if err != nil {
			return nil, err
		}
		held, err := s.heldAt(q, tension, o)
		if err != nil {
			return nil, err
		}
		out = append(out, TradePoint{DistalMM: at, SpanMM: span, BeyondMM: at - c.Patient.Artery.CrossingMM,
			EqualTension: tradeSide(&held), EqualPercent: tradeSide(&percent)})
	}
	return out, nil
}

// heldAt solves a case with its sinus band held at a tension (N) instead of shortened.
func (s *Solver) heldAt(c casefile.Case, tension float64, o Options) (Report, error) {
	p := newPlan(c.Repairs)
	p.band.TensionN = tension
	return s.solvePlan(c, p, o)
}

func bandStep(c casefile.Case) int {
	for i, s := range c.Repairs {
		if s.Kind == repair.SinusBand {
			return i
		}
	}
	return -1
}

func tradeSide(r *Report) TradeSide {
	a := &r.After
	return TradeSide{ShorteningMM: a.Sinus.ShorteningMM, TensionN: a.Sinus.TensionN,
		SeptalLateralMM: r.Before.Annulus.SeptalLateralMM - a.Annulus.SeptalLateralMM, OrificeCM2: float64(a.Regurgitation.EffectiveOrificeCM2),
		NarrowingPct: a.Artery.WorstViewNarrowing, BranchPct: a.Artery.BranchWorstNarrowing, FlowReserve: a.Artery.FlowReserve,
		Risk: a.Artery.Risk, Status: r.Provenance.Status, Engine: r.Provenance.Engine}
}

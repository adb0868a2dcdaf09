package valve

import (
	"annuloscope/geometry"
	"annuloscope/sim/artery"
	"annuloscope/sim/closure"
	"annuloscope/sim/hydraulic"
	"annuloscope/sim/orifice"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

func annulusState(curve []r3.Vec, m geometry.Marks) Annulus {
	q := geometry.Measure(curve, m)
	return Annulus{SeptalLateralMM: q.SeptalLateralMM, CommissuralMM: q.CommissuralMM, PerimeterMM: q.PerimeterMM,
		AreaCM2: units.AnatomicCM2(units.AreaToCM2(q.ProjectedAreaMM2)), HeightMM: q.HeightMM, HeightRatio: q.HeightRatio}
}

func coaptationState(r *closure.Result) Coaptation {
	return Coaptation{
		ContactMM: Contact{Mean: r.Contact.Mean, Min: r.Contact.Min, A1P1: r.Contact.A1P1, A2P2: r.Contact.A2P2, A3P3: r.Contact.A3P3},
		GapMM:     Gap{Max: r.Gap.Max, A1P1: r.Gap.A1P1, A2P2: r.Gap.A2P2, A3P3: r.Gap.A3P3},
		DepthMM:   r.DepthMM, TentingAreaCM2: r.TentingAreaCM2, TentingVolumeML: r.TentingVolumeML,
		BillowingMM: r.BillowingHeightMM, FlailGapMM: r.FlailGapMM, FlailWidthMM: r.FlailWidthMM,
	}
}

func leakState(r *closure.Result, f *flows, s *systole) Regurgitation {
	total := f.forward + f.leak
	g := Regurgitation{AnatomicOrificeCM2: r.AnatomicOrifice, EffectiveOrificeCM2: r.EffectiveOrifice,
		EffectiveOrificeMeanCM2: f.effectiveMean, EffectiveOrificePeakCM2: f.effectivePeak,
		OrificeIntervalCM2: [2]units.EffectiveCM2{r.OrificeLow, r.OrificeHigh}, VolumeML: f.leak, Graded: gradedOrifice, Course: s.shown()}
	if total > 0 {
		g.Fraction = f.leak / total
	}
	return g
}

func openingState(o *orifice.Result, f *flows) Opening {
	out := Opening{AnatomicAreaCM2: o.Total, EffectiveAreaCM2: o.Effective, Contraction: hydraulic.Contraction,
		MeanGradientMMHg: f.gradient, OrificesCM2: []units.AnatomicCM2{}}
	for _, q := range o.Orifices {
		out.OrificesCM2 = append(out.OrificesCM2, q.Area)
	}
	return out
}

func arteryState(r *artery.Report) Artery {
	v := r.Vessels[0]
	out := Artery{MinClearanceMM: v.MinClearanceMM, ContactNPerMM: v.ContactNPerMM, WorstViewNarrowing: v.WorstViewPct,
		BestViewNarrowing: v.BestViewPct, AreaLoss: v.AreaLossPct, FlowReserve: v.FlowReserve, Risk: v.Risk.String(),
		BandAlone: v.BandAlone.WorstViewPct, AnchorAlone: v.AnchorAlone.WorstViewPct}
	for _, s := range v.Stations { // the parts of the largest contact, which need not lie where the narrowing is worst
		if s.ContactNPerMM == v.ContactNPerMM {
			out.BandContactNPerMM, out.AnchorContactNPerMM = s.BandNPerMM, s.AnchorNPerMM
		}
	}
	switch {
	case v.WorstViewPct < 0.5:
	case v.From.AnchorPct > v.From.BandPct:
		out.From = "anchor"
	default:
		out.From = "band"
	}
	for _, branch := range r.Vessels[1:] {
		out.BranchWorstNarrowing = max(out.BranchWorstNarrowing, branch.WorstViewPct)
		if branch.Risk > v.Risk {
			out.Risk = branch.Risk.String()
		}
	}
	return out
}

func beatState(f *flows) Beat {
	b := Beat{Tier: f.tier, EDVML: f.edv, ESVML: f.esv, ForwardSVML: f.forward, LAMeanMMHg: f.atrialMean, LAVMMHg: f.atrialV,
		ArterialMMHg: f.arterial, RatePerMin: f.rate,
		EarlyWaveCMS: f.early, LungSystolicMMHg: f.lung}
	if f.edv > 0 {
		b.EF = (f.edv - f.esv) / f.edv
	}
	return b
}

// clipStates says what became of each bond. Diastolic tension is the estimate of sim/orifice.
func clipStates(p *plan, r *closure.Result, o *orifice.Result, gradient float64) []Clip {
	out := make([]Clip, 0, len(p.clips))
	diastolic := o.BondTension(2 * gradient)
	for i, c := range r.Clips {
		s := p.clipSteps[i]
		q := Clip{Kind: string(s.Kind), Position: s.Value("position"), WidthMM: s.Value("width_mm"), GapMM: c.GapBeforeMM,
			Held: c.Grip, TensionN: c.ForceN, Condition: "held"}
		switch {
		case c.Detached:
			q.Condition = "detached"
		case !c.Grasped:
			q.Condition = "not grasped"
		case c.PoorGrip || p.clips[i].Hold < 0.9:
			q.Condition = "poor grip"
		}
		for j, h := range o.Bonds {
			if h.Position == q.Position && h.WidthMM == q.WidthMM {
				q.Opening = diastolic[j]
			}
		}
		out = append(out, q)
	}
	return out
}

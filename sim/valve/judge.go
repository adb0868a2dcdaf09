package valve

import (
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/grade"
	"annuloscope/sim/units"
)

// judge adds grades, selection rules and findings to a report. Imported geometry gets neither grades nor rules.
func (s *Solver) judge(r *Report, p *plan) {
	pat := &s.base.patient
	if pat.Imported {
		r.Before.Regurgitation.Grade, r.After.Regurgitation.Grade = Grade{Note: importedNote}, Grade{Note: importedNote}
	} else {
		for _, st := range []*State{&r.Before, &r.After} {
			st.Regurgitation.Grade = leakGrade(pat, st)
			st.Opening.Stenosis = stenosis(st)
		}
		r.Selection = selection(pat, &r.Before)
	}
	r.Findings = findings(s, p, r)
}

func scheme(p *anatomy.Patient) grade.Scheme {
	if p.Mechanism == anatomy.Functional {
		return grade.SecondaryAmerican
	}
	return grade.PrimaryFourStep
}

func leakGrade(p *anatomy.Patient, st *State) Grade {
	g := st.Regurgitation
	in := grade.LeakInput{
		Orifice:  grade.Orifice{Value: g.EffectiveOrificeCM2, Low: g.OrificeIntervalCM2[0], High: g.OrificeIntervalCM2[1]},
		VolumeML: grade.Exactly(g.VolumeML), FractionPct: grade.Exactly(100 * g.Fraction),
		VenaContractaCM: grade.NotMeasured(), EarlySpeedMPS: grade.NotMeasured(),
	}
	l := grade.Leak(scheme(p), in)
	out := Grade{Scheme: l.Scheme.String(), Discordant: l.Discordant, Note: l.Note}
	if l.Class != grade.NotGiven {
		out.Class = l.Class.String()
	}
	for _, c := range l.Criteria {
		if !math.IsNaN(c.Value) {
			out.Criteria = append(out.Criteria, Criterion{Name: c.Name, Value: c.Value, Unit: c.Unit, Rule: c.Rule, Says: c.Class.String(), Source: c.Source})
		}
	}
	return out
}

func stenosis(st *State) string {
	g := grade.Stenosis(grade.StenosisInput{Area: st.Opening.EffectiveAreaCM2, MeanGradientMMHg: st.Opening.MeanGradientMMHg,
		RatePerMin: st.Beat.RatePerMin, LungSystolicMMHg: grade.Unknown()})
	if g.Discordant {
		return g.Class.String() + " (criteria disagree)"
	}
	return g.Class.String()
}

func selection(p *anatomy.Patient, st *State) []Criterion {
	if p.Mechanism == anatomy.NoLeak {
		return nil
	}
	mechanism := grade.Functional
	if p.Mechanism == anatomy.Degenerative {
		mechanism = grade.Degenerative
	}
	calcified := math.Max(0, p.Leaflet.CalcifiedTo-p.Leaflet.CalcifiedFrom) / 2 * st.Annulus.CommissuralMM
	var out []Criterion
	for _, f := range grade.Selection(grade.SelectionInput{Mechanism: mechanism, Opening: units.AnatomicCM2(st.Opening.AnatomicAreaCM2),
		ContactMM: st.Coaptation.ContactMM.Mean, DepthMM: st.Coaptation.DepthMM, FlailGapMM: st.Coaptation.FlailGapMM,
		FlailWidthMM: st.Coaptation.FlailWidthMM, JetPosition: p.Jet.Position, CalcifiedGripMM: calcified,
		SystolicDiameterMM: p.Heart.EndSystolicDiameter, EjectionPct: 100 * st.Beat.EF}) {
		if f.State == grade.NotApplicable || f.State == grade.NotKnown {
			continue
		}
		out = append(out, Criterion{Name: f.Name, Value: f.Value, Unit: f.Unit, Rule: f.Rule, Says: f.State.String(), Source: f.Source})
	}
	return out
}

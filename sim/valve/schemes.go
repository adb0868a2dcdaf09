package valve

import (
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/grade"
)

const (
	// slitFrom is the length over width from which a leak counts as elliptical, lowFlowIndex the forward stroke (mL/m²)
	// below which flow is low: what moves the European secondary thresholds. Both from memory.
	slitFrom     = 1.5
	lowFlowIndex = 35.0
)

// schemes lists the schemes of a mechanism, American first: primary and secondary leaks have their own.
func schemes(p *anatomy.Patient) []grade.Scheme {
	if p.Mechanism == anatomy.Functional {
		return []grade.Scheme{grade.SecondaryAmerican, grade.SecondaryEuropean}
	}
	return []grade.Scheme{grade.PrimaryFourStep, grade.PrimarySevere, grade.PrimaryEuropean}
}

// grade grades the leak by every scheme of its mechanism and says whether they disagree on severe or not.
func (st *State) grade(p *anatomy.Patient, line []Station) {
	g := &st.Regurgitation
	in := grade.LeakInput{
		Orifice:  grade.Orifice{Value: g.EffectiveOrificeCM2, Low: g.OrificeIntervalCM2[0], High: g.OrificeIntervalCM2[1]},
		VolumeML: grade.Exactly(g.VolumeML), FractionPct: grade.Exactly(100 * g.Fraction),
		VenaContractaCM: grade.NotMeasured(), EarlySpeedMPS: grade.Exactly(known(st.Beat.EarlyWaveCMS) / 100),
		Elliptical: elongation(leaks(line)) >= slitFrom, LowFlow: st.Beat.ForwardSVML/p.BodySurfaceM2 < lowFlowIndex,
	}
	g.Grades = nil
	severe, not := false, false
	for _, s := range schemes(p) {
		l := grade.Leak(s, in)
		g.Grades = append(g.Grades, told(&l))
		severe = severe || l.Class == grade.Severe
		not = not || l.Class != grade.Severe && l.Class != grade.NotGiven
	}
	g.Grade, g.SchemesDisagree = g.Grades[0], severe && not
}

func told(l *grade.LeakGrade) Grade {
	out := Grade{Scheme: l.Scheme.String(), Discordant: l.Discordant, Note: l.Note}
	if l.Class != grade.NotGiven {
		out.Class = l.Class.String()
	}
	out.Criteria = judged(l.Criteria)
	return out
}

// judged leaves out what was not measured.
func judged(all []grade.Criterion) []Criterion {
	var out []Criterion
	for _, c := range all {
		if !math.IsNaN(c.Value) {
			out = append(out, Criterion{Name: c.Name, Value: c.Value, Unit: c.Unit, Rule: c.Rule, Says: c.Class.String(), Source: c.Source})
		}
	}
	return out
}

// known is v, or not measured where the tier leaves it at 0.
func known(v float64) float64 {
	if v == 0 {
		return grade.Unknown()
	}
	return v
}

// afterRepair compares the opening after clips and stitches with the published flags; empty without any.
func afterRepair(p *plan, st *State) []Criterion {
	if len(p.clips) == 0 {
		return nil
	}
	return criteria(grade.AfterRepair(grade.AfterRepairInput{Area: st.Opening.EffectiveAreaCM2, MeanGradientMMHg: st.Opening.MeanGradientMMHg}))
}

// criteria leaves out what does not apply or was not measured.
func criteria(found []grade.Finding) []Criterion {
	var out []Criterion
	for _, f := range found {
		if f.State != grade.NotApplicable && f.State != grade.NotKnown {
			out = append(out, Criterion{Name: f.Name, Value: f.Value, Unit: f.Unit, Rule: f.Rule, Says: f.State.String(), Source: f.Source})
		}
	}
	return out
}

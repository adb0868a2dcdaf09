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
		for i, st := range []*State{&r.Before, &r.After} {
			st.grade(pat, [2][]Station{r.Scene.Before.Stations, r.Scene.After.Stations}[i])
			st.Opening.Stenosis, st.Opening.StenosisGrade = stenosis(st)
		}
		r.Selection = selection(pat, &r.Before)
		r.AfterRepair = afterRepair(p, &r.After)
	}
	r.Findings = findings(s, p, r)
}

// stenosisScheme names the scheme of grade.Stenosis.
const stenosisScheme = "narrowness of the opening, 2009, three steps (the first: none or mild)"

func stenosis(st *State) (string, Grade) {
	g := grade.Stenosis(grade.StenosisInput{Area: st.Opening.EffectiveAreaCM2, MeanGradientMMHg: st.Opening.MeanGradientMMHg,
		RatePerMin: st.Beat.RatePerMin, LungSystolicMMHg: known(st.Beat.LungSystolicMMHg)})
	out := Grade{Scheme: stenosisScheme, Class: g.Class.String(), Discordant: g.Discordant, Note: g.Note, Criteria: judged(g.Criteria)}
	if g.Discordant {
		return g.Class.String() + " (criteria disagree)", out
	}
	return g.Class.String(), out
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
	return criteria(grade.Selection(grade.SelectionInput{Mechanism: mechanism, Opening: units.AnatomicCM2(st.Opening.AnatomicAreaCM2),
		ContactMM: st.Coaptation.ContactMM.Mean, DepthMM: st.Coaptation.DepthMM, FlailGapMM: st.Coaptation.FlailGapMM,
		FlailWidthMM: st.Coaptation.FlailWidthMM, JetPosition: p.Jet.Position, CalcifiedGripMM: calcified,
		SystolicDiameterMM: p.Heart.EndSystolicDiameter, EjectionPct: 100 * st.Beat.EF}))
}

package tell

import (
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/valve"
)

// State tells the whole state in words, for a screen reader and as the picture's alternative text.
func State(w *words.Words, s *study.Study, v study.View) string {
	if !s.Solved {
		return Sentence(w, s)
	}
	a, b := &s.Report.After, &s.Report.Before
	text := w.F("tell.state", "title", Title(w, s.Case), "sl", mm(w, a.Annulus.SeptalLateralMM), "sl0", mm(w, b.Annulus.SeptalLateralMM),
		"contact", mm(w, a.Coaptation.ContactMM.Mean), "gap", mm(w, a.Coaptation.GapMM.Max),
		"eroa", area(w, float64(a.Regurgitation.EffectiveOrificeCM2)), "eroa0", area(w, float64(b.Regurgitation.EffectiveOrificeCM2)),
		"vol", w.With(a.Regurgitation.VolumeML, 0, "mL"), "open", area(w, float64(a.Opening.AnatomicAreaCM2)),
		"n", len(a.Opening.OrificesCM2), "grad", w.With(a.Opening.MeanGradientMMHg, 1, "mmHg"))
	if a.Artery.WorstViewNarrowing >= artery {
		risk := a.Artery.Risk
		if w.Has("risk." + risk) {
			risk = w.T("risk." + risk)
		}
		text += " " + w.F("tell.artery", "pct", w.With(a.Artery.WorstViewNarrowing, 0, "%"), "risk", risk)
	}
	if v.Named == "atrium" {
		text += " " + w.F("tell.view", "view", w.T("view.from"))
	} else {
		text += " " + w.F("tell.free", "az", w.Num(v.Azimuth, 0), "el", w.Num(v.Elevation, 0))
	}
	for _, f := range s.Report.Findings {
		if f.Code == "rods-on-trial" {
			text += " " + Trial(w, s.Report.Trial)
			continue
		}
		text += " " + Finding(w, f)
	}
	return text
}

// Finding words one finding; what does not fit is told with its number and what is allowed.
func Finding(w *words.Words, f valve.Finding) string {
	text := w.Numbered("finding."+f.Code, f.Text)
	if f.Fit == nil || text == f.Text {
		return text
	}
	return text + " " + misfit(w, f.Fit)
}

// Label names a quantity.
func Label(w *words.Words, q valve.Quantity) string { return w.Table("quantity."+q.Path, q.Label) }

package tell

import (
	"annuloscope/scenes/present/words"
	"annuloscope/sim/valve"
)

// namedMM is the part of the shortening, in mm of septal-lateral diameter, from which a cause is named; what is shown as
// 0.1 mm or less is not.
const namedMM = 0.15

// costs names the one or two causes that cost a sinus device most, from the report's attribution; nothing where there is
// none (the quick answer) or nothing is lost.
func costs(w *words.Words, a *valve.Attribution) string {
	if a == nil {
		return ""
	}
	var most, next valve.CausePart
	for _, c := range a.Causes {
		switch {
		case c.MM > most.MM:
			most, next = c, most
		case c.MM > next.MM:
			next = c
		}
	}
	if most.MM < namedMM {
		return ""
	}
	more := ""
	if next.MM >= namedMM {
		more = w.F("say.because.more", "name", w.T("say.cost."+next.Code), "mm", mm(w, next.MM))
	}
	return w.F("say.because.cost", "name", w.T("say.cost."+most.Code), "mm", mm(w, most.MM), "more", more)
}

package tell

import (
	"annuloscope/scenes/present/words"
	"annuloscope/sim/valve"
)

// misfit gives the number of a misfit and what is allowed.
func misfit(w *words.Words, f *valve.Fit) string {
	value := w.With(f.Value, 1, f.Unit)
	switch {
	case f.High >= valve.Unbounded:
		return w.F("fit.least", "value", value, "low", w.With(f.Low, 1, f.Unit))
	case f.Low == 0:
		return w.F("fit.most", "value", value, "high", w.With(f.High, 1, f.Unit))
	}
	return w.F("fit.between", "value", value, "low", w.Num(f.Low, 1), "high", w.With(f.High, 1, f.Unit))
}

// Trial tells what rods on trial do; empty when none are.
func Trial(w *words.Words, t *valve.Trial) string {
	if t == nil {
		return ""
	}
	pct := func(v float64) string { return w.With(v, 0, "%") }
	return w.F("tell.trial", "a", area(w, t.Without.OrificeCM2), "b", area(w, t.With.OrificeCM2), "c", pct(t.Without.NarrowingPct), "d", pct(t.With.NarrowingPct))
}

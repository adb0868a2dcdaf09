package tell

import (
	"math"
	"strings"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Limits from which a cause is named; chosen.
const (
	artery      = 1.0 // % of narrowing
	fullyPassed = 0.9 // transmitted fraction from which no cause is sought
)

// Sentence says what just changed and why.
func Sentence(w *words.Words, s *study.Study) string {
	if s.Failure != nil {
		return w.F("say.failed", "why", s.Failure.Error())
	}
	if !s.Solved {
		return w.T("say.wait")
	}
	r := &s.Report
	switch s.Last.Deed {
	case study.Opened:
		if len(s.Case.Repairs) > 0 {
			return w.F("say.opened.done", "title", Title(w, s.Case), "leak", leakChange(w, &r.Before, &r.After))
		}
		return w.F("say.opened", "title", Title(w, s.Case), "sl", mm(w, r.After.Annulus.SeptalLateralMM), "leak", leaks(w, &r.After))
	case study.Undone:
		return w.F("say.undone", "sl", mm(w, r.After.Annulus.SeptalLateralMM), "leak", leaks(w, &r.After))
	case study.Redone:
		return w.F("say.redone", "sl", mm(w, r.After.Annulus.SeptalLateralMM), "leak", leaks(w, &r.After))
	case study.Restored:
		return w.F("say.restored", "sl", mm(w, r.After.Annulus.SeptalLateralMM), "leak", leaks(w, &r.After))
	case study.Removed:
		return w.F("say.removed", "name", RepairName(w, s.Last.ID), "effect", effect(w, s))
	case study.Chosen:
		return w.F("say.chosen", "name", w.Table("choice."+s.Last.ID, s.Last.ID), "to", s.Last.Word, "effect", effect(w, s))
	}
	ref := strings.TrimPrefix(s.Last.ID, "repair/")
	ref, _, _ = strings.Cut(ref, "/")
	kind, _, _ := strings.Cut(ref, "#")
	switch repair.Kind(kind) {
	case repair.SinusBand:
		return bandSentence(w, s)
	case repair.EdgeClip:
		if text := clipSentence(w, s, ref); text != "" {
			return text
		}
	}
	if s.Last.Deed == study.Placed {
		return w.F("say.placed", "name", RepairName(w, s.Last.ID), "effect", effect(w, s))
	}
	k, _ := s.Knob(s.Last.ID)
	return w.F("say.turned", "name", KnobName(w, k), "from", w.With(s.Last.From, k.Decimals, k.Unit), "to", w.With(s.Last.To, k.Decimals, k.Unit), "effect", effect(w, s))
}

// bandSentence compares the treated valve with the untreated one, or, with other repairs in place, with the state before
// the band was last touched.
func bandSentence(w *words.Words, s *study.Study) string {
	r := &s.Report
	short := 0.0
	for _, st := range s.Case.Repairs {
		if st.Kind == repair.SinusBand {
			short = st.Value("shortening_mm")
		}
	}
	if short == 0 {
		return w.T("say.band.zero")
	}
	from := &r.Before
	if len(s.Case.Repairs) > 1 && s.Had {
		from = &s.Base.After
	}
	pulled, because := w.T("say.band.none"), ""
	if d := r.Before.Annulus.SeptalLateralMM - r.After.Annulus.SeptalLateralMM; d >= 0.05 {
		pulled = w.F("say.band.pull", "mm", mm(w, d), "pct", w.With(100*r.After.Sinus.TransmittedFraction, 0, "%"))
	}
	if r.After.Sinus.TransmittedFraction < fullyPassed {
		because = costs(w, r.Attribution)
	}
	price := ""
	if a := r.After.Artery.WorstViewNarrowing; a >= artery {
		price = w.F("say.price", "pct", w.With(a, 0, "%"))
	}
	return w.F("say.band", "short", w.With(short, study.Decimals(short), "mm"), "pulled", pulled, "because", because, "leak", leakChange(w, from, &r.After), "price", price)
}

func clipSentence(w *words.Words, s *study.Study, ref string) string {
	r, n := &s.Report, 0
	_, number, _ := strings.Cut(ref, "#")
	if number == "2" {
		n = 1
	} else if number == "3" {
		n = 2
	}
	for _, c := range r.After.Clips {
		if c.Kind != string(repair.EdgeClip) {
			continue
		}
		if n--; n >= 0 {
			continue
		}
		from := &r.Before
		if len(s.Case.Repairs) > 1 && s.Had {
			from = &s.Base.After
		}
		leak := leakChange(w, from, &r.After)
		switch c.Condition {
		case "not grasped":
			return w.F("say.clip.lost", "place", Place(w, c.Position), "gap", mm(w, c.GapMM), "leak", leak)
		case "detached":
			return w.F("say.clip.loose", "place", Place(w, c.Position), "leak", leak)
		}
		gradient := ""
		if a, b := from.Opening.MeanGradientMMHg, r.After.Opening.MeanGradientMMHg; b-a >= 0.05 {
			gradient = w.F("say.gradient", "a", w.Num(a, 1), "b", w.With(b, 1, "mmHg"))
		}
		return w.F("say.clip", "place", Place(w, c.Position), "width", w.With(c.WidthMM, 1, "mm"), "leak", leak,
			"a", area(w, float64(from.Opening.AnatomicAreaCM2)), "b", area(w, float64(r.After.Opening.AnatomicAreaCM2)),
			"n", len(r.After.Opening.OrificesCM2), "gradient", gradient)
	}
	return ""
}

// effect says what changed between the report before and now: at most two things, the largest matters first.
func effect(w *words.Words, s *study.Study) string {
	if !s.Had {
		return leaks(w, &s.Report.After)
	}
	a, b := &s.Base.After, &s.Report.After
	var parts []string
	if x, y := 100*a.Sinus.TransmittedFraction, 100*b.Sinus.TransmittedFraction; a.Sinus.ShorteningMM > 0 && b.Sinus.ShorteningMM > 0 && math.Abs(x-y) >= 0.5 {
		parts = append(parts, w.F("say.carry", "a", w.With(x, 0, "%"), "b", w.With(y, 0, "%")))
	} else if d := b.Annulus.SeptalLateralMM - a.Annulus.SeptalLateralMM; math.Abs(d) >= 0.05 {
		key := "say.sl.rose"
		if d < 0 {
			key = "say.sl.fell"
		}
		parts = append(parts, w.F(key, "mm", mm(w, math.Abs(d))))
	}
	if moved(float64(a.Regurgitation.EffectiveOrificeCM2), float64(b.Regurgitation.EffectiveOrificeCM2), 2) {
		parts = append(parts, leakChange(w, a, b))
	}
	if x, y := a.Artery.WorstViewNarrowing, b.Artery.WorstViewNarrowing; math.Abs(x-y) >= 0.5 {
		parts = append(parts, w.F("say.artery", "a", w.With(x, 0, "%"), "b", w.With(y, 0, "%")))
	}
	if x, y := float64(a.Opening.AnatomicAreaCM2), float64(b.Opening.AnatomicAreaCM2); moved(x, y, 2) {
		parts = append(parts, w.F(direction("say.opening", x, y), "a", area(w, x), "b", area(w, y)))
	}
	if x, y := a.Coaptation.ContactMM.Mean, b.Coaptation.ContactMM.Mean; moved(x, y, 1) {
		parts = append(parts, w.F(direction("say.contact", x, y), "a", mm(w, x), "b", mm(w, y)))
	}
	switch len(parts) {
	case 0:
		return w.T("say.nothing")
	case 1:
		return parts[0]
	}
	return w.F("say.and", "a", parts[0], "b", parts[1])
}

func moved(a, b float64, decimals int) bool {
	return math.Abs(a-b) >= 0.5*math.Pow(10, -float64(decimals))
}

func direction(key string, a, b float64) string {
	if b < a {
		return key + ".fell"
	}
	return key + ".rose"
}

func leakChange(w *words.Words, from, to *valve.State) string {
	a, b := float64(from.Regurgitation.EffectiveOrificeCM2), float64(to.Regurgitation.EffectiveOrificeCM2)
	switch {
	case moved(a, b, 2):
		return w.F(direction("say.leak", a, b), "a", w.Num(a, 2), "b", area(w, b))
	case b < 0.005:
		return w.T("say.leak.tight")
	}
	return w.F("say.leak.same", "b", area(w, b))
}

func leaks(w *words.Words, s *valve.State) string {
	if e := float64(s.Regurgitation.EffectiveOrificeCM2); e >= 0.005 {
		return w.F("say.leaks", "eroa", area(w, e))
	}
	return w.T("say.tight")
}

func mm(w *words.Words, v float64) string   { return w.With(v, 1, "mm") }
func area(w *words.Words, v float64) string { return w.With(v, 2, "cm²") }

// Place names a position along the coaptation line.
func Place(w *words.Words, s float64) string {
	switch {
	case s < -1.0/3:
		return w.T("place.a1p1")
	case s > 1.0/3:
		return w.T("place.a3p3")
	}
	return w.T("place.a2p2")
}

// Title names a case.
func Title(w *words.Words, c casefile.Case) string { return w.Table("case."+c.Name, c.Title) }

// RepairName names a repair KIND or KIND#n.
func RepairName(w *words.Words, ref string) string {
	kind, number, _ := strings.Cut(ref, "#")
	spec, _ := repair.Find(repair.Kind(kind))
	name := w.Table("repair."+kind, spec.Title)
	if number != "" {
		name += " " + number
	}
	return name
}

// KnobName is the short name of a knob where there is one, else its meaning.
func KnobName(w *words.Words, k study.Knob) string {
	id := k.ID
	if i := strings.IndexByte(id, '#'); i >= 0 {
		j := strings.IndexByte(id[i:], '/')
		id = id[:i] + id[i+j:]
	}
	if key := "knob." + id; w.Has(key) {
		return w.T(key)
	}
	return w.Table(k.TableKey, k.Text)
}

package tell

import (
	"strings"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Compared is one plan and its answer.
type Compared struct {
	Name   string
	Case   casefile.Case
	Report *valve.Report
}

// Solved lists the plans of a comparison that have an answer, without the untreated valve.
func Solved(c *study.Comparison) []Compared {
	var out []Compared
	for i := range c.Columns {
		if k := &c.Columns[i]; i > 0 && k.Solved {
			out = append(out, Compared{k.Plan.Name, k.Case, &k.Report})
		}
	}
	return out
}

// Comparison says how plans differ and why: which leaves the least leak, what each does to annulus, edges and vein, and
// what each costs in gradient and artery. base is the untreated valve. Every number is one of the reports', rounded as
// the tables round it.
func Comparison(w *words.Words, base *valve.State, plans []Compared) string {
	if base == nil {
		return w.T("say.wait")
	}
	if len(plans) == 0 {
		return w.F("compare.say.none", "leak", leaks(w, base))
	}
	a, told := leakOf(base), false // told: where a band's shortening goes has been explained once
	if len(plans) == 1 {
		p := &plans[0]
		return join(w.F("compare.say.one", "name", p.Name, "leak", leakChange(w, base, &p.Report.After), "because", because(w, base, p, &told)), prices(w, base, plans))
	}
	best, tied := least(plans)
	var text []string
	switch b := leakOf(&plans[best].Report.After); {
	case !moved(a, b, 2) || b > a:
		if moved(a, 0, 2) {
			text = append(text, w.F("compare.say.useless", "a", area(w, a)))
		} else {
			text = append(text, w.F("compare.say.dry", "leak", leaks(w, base)))
		}
		for i := range plans {
			text = append(text, other(w, base, &plans[i], &told))
		}
		return join(append(text, prices(w, base, plans))...)
	case len(tied) > 1:
		text = append(text, w.F("compare.say.tied", "names", List(w, tied), "a", w.Num(a, 2), "b", area(w, b)))
	default:
		text = append(text, w.F("compare.say.best", "name", plans[best].Name, "a", w.Num(a, 2), "b", area(w, b), "because", because(w, base, &plans[best], &told)))
	}
	for i := range plans {
		if i != best || len(tied) > 1 {
			text = append(text, other(w, base, &plans[i], &told))
		}
	}
	return join(append(text, prices(w, base, plans))...)
}

func leakOf(s *valve.State) float64 { return float64(s.Regurgitation.EffectiveOrificeCM2) }

// least finds the plan with the least leak, and the names of all that leak as little at the precision shown.
func least(plans []Compared) (best int, tied []string) {
	for i := range plans {
		if leakOf(&plans[i].Report.After) < leakOf(&plans[best].Report.After) {
			best = i
		}
	}
	for i := range plans {
		if !moved(leakOf(&plans[best].Report.After), leakOf(&plans[i].Report.After), 2) {
			tied = append(tied, plans[i].Name)
		}
	}
	return best, tied
}

func other(w *words.Words, base *valve.State, p *Compared, told *bool) string {
	return w.F("compare.say.other", "name", p.Name, "b", area(w, leakOf(&p.Report.After)), "because", because(w, base, p, told))
}

// because gives the reasons for what a plan does: the annulus, what the vein passes on, and the clips. At most three. Where
// the shortening of a band goes is explained once in a comparison.
func because(w *words.Words, base *valve.State, p *Compared, told *bool) string {
	after := &p.Report.After
	var parts []string
	d := base.Annulus.SeptalLateralMM - after.Annulus.SeptalLateralMM
	switch {
	case d >= 0.05:
		parts = append(parts, w.F("compare.narrower", "mm", mm(w, d)))
	case d <= -0.05:
		parts = append(parts, w.F("compare.wider", "mm", mm(w, -d)))
	default:
		parts = append(parts, w.T("compare.as.wide"))
	}
	if after.Sinus.ShorteningMM > 0 && after.Sinus.TransmittedFraction < fullyPassed && hasBand(p.Case) {
		pct := w.With(100*after.Sinus.TransmittedFraction, 0, "%")
		if *told {
			parts = append(parts, w.F("compare.passed.too", "pct", pct))
		} else {
			parts = append(parts, w.F("compare.passed", "pct", pct, "why", costs(w, p.Report.Attribution)))
		}
		*told = true
	}
	for _, c := range after.Clips {
		if len(parts) > 2 {
			break
		}
		switch c.Condition {
		case "not grasped":
			parts = append(parts, w.F("compare.clip.lost", "place", Place(w, c.Position), "gap", mm(w, c.GapMM)))
		case "detached":
			parts = append(parts, w.F("compare.clip.loose", "place", Place(w, c.Position)))
		default:
			parts = append(parts, w.F("compare.clip", "place", Place(w, c.Position), "width", w.With(c.WidthMM, 1, "mm")))
		}
	}
	return strings.Join(parts, "; ")
}

func hasBand(c casefile.Case) bool {
	for _, st := range c.Repairs {
		if st.Kind == repair.SinusBand {
			return true
		}
	}
	return false
}

// prices says what the plans cost in gradient and artery, or that they cost nothing at the precision shown.
func prices(w *words.Words, base *valve.State, plans []Compared) string {
	var parts []string
	for i := range plans {
		after := &plans[i].Report.After
		if a, b := base.Opening.MeanGradientMMHg, after.Opening.MeanGradientMMHg; b-a >= 0.05 {
			parts = append(parts, w.F("compare.gradient", "name", plans[i].Name, "a", w.Num(a, 1), "b", w.With(b, 1, "mmHg")))
		}
	}
	for i := range plans {
		if n := plans[i].Report.After.Artery.WorstViewNarrowing; n-base.Artery.WorstViewNarrowing >= 0.5 && n >= artery {
			parts = append(parts, w.F("compare.artery", "name", plans[i].Name, "pct", w.With(n, 0, "%")))
		}
	}
	if len(parts) == 0 {
		return w.T("compare.free")
	}
	return w.F("compare.price", "list", strings.Join(parts, "; "))
}

// List joins parts with commas and a last "and".
func List(w *words.Words, parts []string) string {
	switch n := len(parts); n {
	case 0:
		return ""
	case 1:
		return parts[0]
	default:
		return w.F("compare.and", "a", strings.Join(parts[:n-1], ", "), "b", parts[n-1])
	}
}

func join(sentences ...string) string {
	var kept []string
	for _, s := range sentences {
		if s != "" {
			kept = append(kept, s)
		}
	}
	return strings.Join(kept, " ")
}

// PlanName words a plan by the kinds of its repairs.
func PlanName(w *words.Words, kinds ...repair.Kind) string {
	switch {
	case len(kinds) == 1 && kinds[0] == repair.SinusBand:
		return w.T("compare.plan.band")
	case len(kinds) == 1 && kinds[0] == repair.EdgeClip:
		return w.T("compare.plan.clip")
	}
	return w.T("compare.plan.both")
}

// Caption is Sentence for a figure: it does not ask the reader to move anything.
func Caption(w *words.Words, s *study.Study) string {
	if s.Solved && s.Failure == nil && s.Last.Deed == study.Opened && len(s.Case.Repairs) == 0 {
		return w.F("figure.opened", "sl", mm(w, s.Report.After.Annulus.SeptalLateralMM), "leak", leaks(w, &s.Report.After))
	}
	return Sentence(w, s)
}

// FullName is a knob's name with the repair to which it belongs.
func FullName(w *words.Words, k study.Knob) string {
	name := KnobName(w, k)
	if ref, ok := strings.CutPrefix(k.ID, "repair/"); ok {
		ref, _, _ = strings.Cut(ref, "/")
		name = RepairName(w, ref) + ": " + name
	}
	return name
}

// Repairs tells a list of repairs in a few words: each by its name and its first number.
func Repairs(w *words.Words, steps []repair.Step) string {
	var parts []string
	for _, st := range steps {
		spec, _ := repair.Find(st.Kind)
		text := w.Table("repair."+string(st.Kind), spec.Title)
		if key, ok := firstNumber[st.Kind]; ok {
			for _, q := range spec.Parameters {
				if q.Key == key {
					text += " " + w.With(st.Value(key), study.Decimals(q.Step), q.Unit)
				}
			}
		}
		switch st.Kind {
		case repair.EdgeClip, repair.EdgeStitch:
			text += " " + Place(w, st.Value("position"))
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return w.T("compare.nothing")
	}
	return strings.Join(parts, "; ")
}

// firstNumber is the number that says most about a repair.
var firstNumber = map[repair.Kind]string{repair.SinusBand: "shortening_mm", repair.EdgeClip: "width_mm", repair.EdgeStitch: "width_mm", repair.FullRing: "size_mm",
	repair.PosteriorBand: "downsizing_pct", repair.SinusRods: "count", repair.Ventricle: "reduction_pct"}

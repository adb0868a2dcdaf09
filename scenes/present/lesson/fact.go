package lesson

import (
	"math"
	"strings"

	"annuloscope/sim/valve"
)

// fact is one number or word of a report that an expression can name: every quantity of the glossary, and the few below.
type fact struct {
	unit     string
	decimals int
	num      func(r *valve.Report, s *valve.State) float64
	word     func(r *valve.Report, s *valve.State) string
}

// ruleNames maps the short names of the historical selection rules to those of the report.
var ruleNames = map[string]string{"opening": "opening by planimetry", "contact": "contact length", "depth": "contact depth", "flail_gap": "flail gap",
	"flail_width": "flail width", "origin": "origin of the leak, distance from the middle of the line", "calcified": "calcified length where the clip holds",
	"systolic_diameter": "end-systolic diameter", "ejection": "ejection fraction"}

// lostCauses are what a band in the sinus loses narrowing to, and ideal, what it would do without them.
var lostCauses = []string{"ideal", "slack", "slip", "wall", "elevation", "uncovered"}

// near is the short word for a rule's middle state.
const near = "near"

func saysOf(c valve.Criterion) string {
	if strings.HasPrefix(c.Says, "within") {
		return near
	}
	return c.Says
}

// findFact returns the number or word with that path.
func findFact(path string) (fact, bool) {
	if q, ok := valve.FindQuantity(path); ok {
		unit := q.Unit
		if unit == "" {
			unit = "1"
		}
		return fact{unit: unit, decimals: q.Decimals, num: func(_ *valve.Report, s *valve.State) float64 { return q.Of(s) }}, true
	}
	word := func(f func(*valve.State) string) (fact, bool) {
		return fact{word: func(_ *valve.Report, s *valve.State) string { return firstWord(f(s)) }}, true
	}
	number := func(unit string, decimals int, f func(*valve.State) float64) (fact, bool) {
		return fact{unit: unit, decimals: decimals, num: func(_ *valve.Report, s *valve.State) float64 { return f(s) }}, true
	}
	switch path {
	case "artery.risk":
		return word(func(s *valve.State) string { return s.Artery.Risk })
	case "artery.from":
		return word(func(s *valve.State) string { return s.Artery.From })
	case "opening.stenosis":
		return word(func(s *valve.State) string { return s.Opening.Stenosis })
	case "regurgitation.grade":
		return word(func(s *valve.State) string { return s.Regurgitation.Grade.Class })
	case "sinus.slip_mm":
		return number("mm", 1, func(s *valve.State) float64 { return s.Sinus.SlipMM })
	case "opening.orifices":
		return number("1", 0, func(s *valve.State) float64 { return float64(len(s.Opening.OrificesCM2)) })
	case "clips.held":
		return number("1", 0, func(s *valve.State) float64 {
			n := 0.0
			for _, c := range s.Clips {
				if c.Held >= 0.5 {
					n++
				}
			}
			return n
		})
	case "rules.outside", "rules.near", "rules.met":
		want := strings.TrimPrefix(path, "rules.")
		return fact{unit: "1", num: func(r *valve.Report, _ *valve.State) float64 {
			n := 0.0
			for _, c := range r.Selection {
				if saysOf(c) == want {
					n++
				}
			}
			return n
		}}, true
	}
	if cause, ok := strings.CutPrefix(path, "lost."); ok && known(lostCauses, cause) {
		return fact{unit: "mm", decimals: 1, num: func(r *valve.Report, _ *valve.State) float64 {
			if r.Attribution == nil {
				return math.NaN()
			}
			if cause == "ideal" {
				return r.Attribution.IdealMM
			}
			return r.Attribution.Cause(cause).MM
		}}, true
	}
	if short, ok := strings.CutPrefix(path, "rule."); ok && ruleNames[short] != "" {
		return fact{word: func(r *valve.Report, _ *valve.State) string {
			for _, c := range r.Selection {
				if c.Name == ruleNames[short] {
					return saysOf(c)
				}
			}
			return ""
		}}, true
	}
	return fact{}, false
}

// firstWord is a fact's class without remarks: "mild (criteria disagree)" is mild. "not severe" stays, as not_severe.
func firstWord(s string) string {
	s, _, _ = strings.Cut(s, " (")
	return strings.ReplaceAll(s, " ", "_")
}

// FactPaths lists what an expression can name beside the quantities of the glossary.
func FactPaths() []string {
	out := []string{"artery.risk", "artery.from", "opening.stenosis", "regurgitation.grade", "sinus.slip_mm", "opening.orifices", "clips.held",
		"rules.met", "rules.near", "rules.outside"}
	for _, n := range lostCauses {
		out = append(out, "lost."+n)
	}
	for _, n := range []string{"opening", "contact", "depth", "flail_gap", "flail_width", "origin", "calcified", "systolic_diameter", "ejection"} {
		out = append(out, "rule."+n)
	}
	return out
}

// Value is a number with its unit, or a word.
type Value struct {
	Num      float64
	Word     string
	Unit     string // "1" for none
	Decimals int
	plain    bool // a number written out: fits every unit
	isWord   bool
}

// of reads a reference from the solved plans; ok is false when its plan is not solved.
func (n *node) of(res Results) (Value, bool) {
	f, known := findFact(n.path)
	r := res[n.plan]
	if !known {
		return Value{}, false
	}
	v := Value{Num: math.NaN(), Unit: f.unit, Decimals: f.decimals, isWord: f.word != nil}
	if r == nil {
		return v, false
	}
	read := func(s *valve.State) {
		if f.word != nil {
			v.Word = f.word(r, s)
		} else {
			v.Num = f.num(r, s)
		}
	}
	switch n.state {
	case "before":
		read(&r.Before)
	case "change":
		read(&r.Before)
		b := v.Num
		read(&r.After)
		v.Num -= b
	default:
		read(&r.After)
	}
	return v, true
}

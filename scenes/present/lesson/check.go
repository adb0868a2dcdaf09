package lesson

import (
	"fmt"
	"math"

	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Solver solves one case.
type Solver func(casefile.Case) (valve.Report, error)

// Solve solves every plan of a lesson. The error names the plan and its line.
func (l *Lesson) Solve(solve Solver) (Results, error) {
	res, f := Results{}, faults{}
	for _, p := range l.Plans {
		r, err := solve(p.Case)
		if err != nil {
			f.take(err, p.line, p.column)
			continue
		}
		res[p.Name] = &r
	}
	return res, f.err()
}

// Check tells whether the lesson's text agrees with the model: every plan converged, every claim holds, every gap has a
// number, and of each question's choices exactly one is right. The error is Errors, with lines and columns.
func (l *Lesson) Check(res Results) error {
	var f faults
	for _, p := range l.Plans {
		if r := res[p.Name]; r == nil {
			f.add(p.line, p.column, "plans."+p.Name, "", "not solved", "", "")
		} else if !r.Provenance.Converged {
			f.add(p.line, p.column, "plans."+p.Name, "", "did not converge: "+r.Provenance.Status, "plans that converge", "choose other numbers")
		}
	}
	if len(f.list) > 0 {
		return f.err()
	}
	for _, c := range l.Expect {
		if yes, _ := c.cond.holds(res); !yes {
			f.add(c.line, c.column, "expect", c.Text, "the model no longer agrees: "+list(c.cond.values(res, map[string]bool{})), "a claim that holds", "change the text and the claim")
		}
	}
	l.expressions(func(n *node, value bool) {
		if value && n.missing(res) {
			f.add(n.line, n.column, "expression", "", "the quantity does not apply to this plan: "+list(n.values(res, map[string]bool{})), "a quantity that has a value", "choose another plan or quantity")
		}
	})
	for _, q := range []*Question{&l.Prediction, &l.Transfer} {
		q.check(res, &f)
	}
	return f.err()
}

func (q *Question) check(res Results, f *faults) {
	if g := q.Number; g != nil {
		if v, _ := g.of.eval(res); !(v.Num >= g.Min && v.Num <= g.Max) {
			f.add(g.line, g.column, "number", fmt.Sprintf("%.4g", v.Num), "the model's answer is outside the range offered", fmt.Sprintf("%g to %g", g.Min, g.Max), "widen the range")
		}
		return
	}
	right := -1
	for i, c := range q.Choices {
		yes, _ := c.when.holds(res)
		switch {
		case yes && right >= 0:
			f.add(c.line, c.column, "choices", c.Text, fmt.Sprintf("two choices are right: %d and %d (%s)", right+1, i+1, list(c.when.values(res, map[string]bool{}))), "exactly one", "make the conditions exclude each other")
		case yes:
			right = i
		}
	}
	if right < 0 {
		seen := map[string]bool{}
		var v []string
		for _, c := range q.Choices {
			v = append(v, c.when.values(res, seen)...)
		}
		f.add(q.line, q.column, "choices", "", "no choice is right: "+list(v), "exactly one", "change the conditions")
	}
}

// Right returns the index of the right choice, or −1 while it is not known.
func (q *Question) Right(res Results) int {
	for i, c := range q.Choices {
		if yes, ok := c.when.holds(res); ok && yes {
			return i
		}
	}
	return -1
}

// Truth returns the model's number; ok is false while it is not known.
func (g *Number) Truth(res Results) (v float64, ok bool) {
	x, ok := g.of.eval(res)
	return x.Num, ok && finite(x.Num)
}

// Middle is the step in the middle of the range.
func (g *Number) Middle() float64 {
	return math.Min(g.Min+math.Round((g.Max-g.Min)/2/g.Step)*g.Step, g.Max)
}

// Close tells whether a guess counts as right.
func (g *Number) Close(guess, truth float64) bool { return math.Abs(guess-truth) <= g.Within*(1+1e-9) }

// Model returns the model's number for a card and its gap to the published one.
func (e *Evidence) Model(res Results) (model, gap float64, ok bool) {
	v, ok := e.model.eval(res)
	return v.Num, v.Num - e.Published, ok && finite(v.Num)
}

// Claims returns each claim's text with what it is worth now, for a teacher.
func (l *Lesson) Claims(res Results) []string {
	var out []string
	for _, c := range l.Expect {
		yes, _ := c.cond.holds(res)
		mark := "holds"
		if !yes {
			mark = "FAILS"
		}
		out = append(out, fmt.Sprintf("%s: %s (%s)", mark, c.Text, list(c.cond.values(res, map[string]bool{}))))
	}
	return out
}

package lesson

import (
	"strings"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// whole checks what no single key can say; end is the line of the second ---.
func (r *reader) whole(end int) {
	l := r.l
	at := end + 1
	for _, k := range []struct{ key, value string }{{"name", l.Name}, {"language", l.Language}, {"title", l.Title}, {"summary", l.Summary}} {
		if k.value == "" {
			r.add(2, 1, k.key, "", "missing", "a text", "add it to the front matter")
		}
	}
	for _, s := range sections {
		if sec, ok := l.Sections[s]; !ok || len(sec.Blocks) == 0 {
			line, column := at, 1
			if ok {
				line, column = sec.line, sec.column
			}
			r.add(line, column, "section", s, "this section is missing or empty", "## "+list(sections), "write ## "+s+" and its text")
		}
	}
	if l.Translates {
		return
	}
	switch {
	case l.Order == 0:
		r.add(2, 1, "order", "", "missing", "1 to 999", "add the place in the list of lessons")
	case l.Minutes == 0:
		r.add(2, 1, "minutes", "", "missing", "1 to 60", "say how long it takes")
	case len(l.Plans) == 0:
		r.add(2, 1, "plans", "", "missing", "at least one plan", "add what is to be computed")
	case len(l.Expect) == 0:
		r.add(2, 1, "expect", "", "missing", "at least one claim", "state what the text says about the model")
	case len(l.Evidence) == 0:
		r.add(2, 1, "evidence", "", "missing", "at least one published result", "add a card")
	case len(l.Sources) == 0:
		r.add(2, 1, "sources", "", "missing", "key: citation", "name the sources")
	}
	for _, q := range []*Question{&l.Prediction, &l.Transfer} {
		if len(q.Choices) == 0 && q.Number == nil {
			r.add(2, 1, "prediction, transfer", "", "missing", "choices or number", "add both")
		}
	}
	r.tables()
	if len(r.list) == 0 {
		r.references()
	}
}

func (r *reader) tables() {
	l := r.l
	for _, t := range []struct {
		key   string
		table *Table
	}{{"computation", &l.Compute}, {"transfer", &l.After}} {
		if t.key == "computation" && (len(t.table.Plans) == 0 || len(t.table.Quantities) == 0) {
			r.add(2, 1, t.key, "", "plans and quantities are missing", "plans, quantities, chart, picture, phase, view", "say what is shown")
		}
		names := append(append([]string(nil), t.table.Plans...), t.table.Picture)
		for _, n := range names {
			if _, ok := l.Plan(n); !ok && n != "" {
				line, column := r.find(n)
				r.add(line, column, t.key, n, "no such plan", list(l.planNames()), "did you mean "+nearest(n, l.planNames())+"?")
			}
		}
		for _, q := range append(append([]string(nil), t.table.Quantities...), t.table.Chart) {
			if _, ok := valve.FindQuantity(q); !ok && q != "" {
				line, column := r.find(q)
				r.add(line, column, t.key, q, "no such quantity", "the paths of `annuloscope glossary`", "did you mean "+nearest(q, paths())+"?")
			}
		}
	}
	e := l.Explore
	p, ok := l.Plan(e.Plan)
	if !ok || e.Scene == "" || len(e.Controls) == 0 {
		r.add(2, 1, "explore", e.Plan, "explore needs a plan, a scene and controls", list(l.planNames()), "add them")
		return
	}
	s := study.New(mute{}, p.Case)
	for _, id := range e.Controls {
		if _, ok := s.Knob(id); !ok {
			line, column := r.find(id)
			r.add(line, column, "explore.controls", id, "no such control", "anatomy/PATH, group/elevation, group/distance, repair/KIND/KEY", "see `annuloscope parameters` and `annuloscope repairs`")
		}
	}
}

// mute is a runner that never answers: knobs are asked for without solving.
type mute struct{}

func (mute) Submit(uint64, casefile.Case) {}
func (mute) Poll() (study.Result, bool)   { return study.Result{}, false }

// find is the place of a word in the front matter, for faults found after reading.
func (r *reader) find(word string) (line, column int) {
	for i, s := range r.lines {
		if j := strings.Index(s, word); j >= 0 && i > 0 {
			return i + 1, j + 1
		}
	}
	return 2, 1
}

func (l *Lesson) planNames() []string {
	var out []string
	for _, p := range l.Plans {
		out = append(out, p.Name)
	}
	return out
}

// references checks every expression of the lesson.
func (r *reader) references() {
	l := r.l
	l.expressions(func(n *node, value bool) {
		v := l.examine(n, &r.faults)
		if value && v.isWord && n.op != "ref" {
			r.add(n.line, n.column, "expression", "", "a word is no number", "a quantity", "name one quantity")
		}
	})
	for _, q := range []*Question{&l.Prediction, &l.Transfer} {
		if g := q.Number; g != nil {
			if v := l.examine(g.of, &faults{}); v.isWord {
				r.add(g.line, g.column, "number.of", "", "a word cannot be guessed as a number", "a quantity", "use choices")
			}
		}
	}
}

// expressions visits every expression; value tells a gap or a number from a condition.
func (l *Lesson) expressions(visit func(n *node, value bool)) {
	for _, c := range l.Expect {
		visit(c.cond, false)
	}
	for _, q := range []*Question{&l.Prediction, &l.Transfer} {
		for _, c := range q.Choices {
			visit(c.when, false)
			c.Because.gaps(func(n *node) { visit(n, true) })
		}
		if q.Number != nil {
			visit(q.Number.of, true)
		}
	}
	for _, e := range l.Evidence {
		visit(e.model, true)
	}
	for _, s := range sections {
		for _, b := range l.Sections[s].Blocks {
			b.Text.gaps(func(n *node) { visit(n, true) })
		}
	}
}

func (t Text) gaps(visit func(*node)) {
	for _, p := range t.parts {
		if p.gap != nil {
			visit(p.gap)
		}
	}
}

package lesson

import (
	"strconv"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"

	"go.yaml.in/yaml/v3"
)

// plan reads one plan: a case by its name or written out, numbers changed, repairs added.
func (r *reader) plan(path string, k, v *yaml.Node) {
	p := Plan{Name: k.Value, line: k.Line, column: k.Column}
	if !planForm.MatchString(p.Name) {
		r.bad(k, path, "not a plan's name", "a letter, then lower-case letters, digits and _, at most 20", "shorten it")
	}
	if r.l.Translates {
		p.Title = r.text(path, v)
		r.l.Plans = append(r.l.Plans, p)
		return
	}
	given, before := false, len(r.list)
	r.each(path+".", v, func(q string, k, v *yaml.Node) {
		switch k.Value {
		case "title":
			p.Title = r.text(q, v)
		case "case":
			given = true
			p.Case = r.readCase(q, v)
		case "set", "repairs": // after the case, whatever the order
		default:
			r.unknown(q, k, "title", "case", "set", "repairs")
		}
	})
	if !given || p.Title == "" {
		r.bad(k, path, "a plan needs a title and a case", "title, case, set, repairs", "add them")
		return
	}
	r.each(path+".", v, func(q string, k, v *yaml.Node) {
		switch k.Value {
		case "set":
			r.each("", v, func(to string, k, v *yaml.Node) {
				var err error
				if anatomy.IsChoice(to) {
					err = p.Case.Patient.SetChoice(to, v.Value)
				} else {
					x, wrong := strconv.ParseFloat(v.Value, 64)
					if wrong != nil {
						r.bad(v, to, "not a number", "a plain number; its unit is in the name", "write digits with a point")
						return
					}
					err = p.Case.Patient.Set(to, x)
				}
				if err != nil {
					r.take(err, v.Line, v.Column)
				}
			})
		case "repairs":
			r.items(q, v, func(_ string, v *yaml.Node) {
				s, err := repair.Parse(v.Value)
				if err != nil {
					r.take(err, v.Line, v.Column)
					return
				}
				p.Case.Repairs = append(p.Case.Repairs, s)
			})
		}
	})
	if len(r.list) == before {
		if err := p.Case.Validate(); err != nil {
			r.take(err, k.Line, k.Column)
		}
	}
	r.l.Plans = append(r.l.Plans, p)
}

// readCase reads a case by its name, or one written out as an indented block in the form of a case file.
func (r *reader) readCase(path string, v *yaml.Node) casefile.Case {
	if v.Kind == yaml.ScalarNode {
		c, err := r.cases(v.Value)
		if err != nil {
			r.take(err, v.Line, v.Column)
		}
		return c.Clone()
	}
	if v.Kind != yaml.MappingNode || v.Style&yaml.FlowStyle != 0 {
		r.bad(v, path, "not a case", "the name of a built-in case, or an indented block as in a case file", "write a name")
		return casefile.Case{}
	}
	last := v.Line
	for last < len(r.lines) {
		s := r.lines[last]
		if t := strings.TrimLeft(s, " "); t != "" && t[0] != '#' && len(s)-len(t) < v.Column-1 {
			break
		}
		last++
	}
	block := strings.Repeat("\n", v.Line-1) + strings.Join(r.lines[v.Line-1:last], "\n") + "\n" // its lines keep their numbers
	c, err := casefile.Decode([]byte(block))
	if err != nil {
		r.take(err, v.Line, v.Column)
	}
	return c
}

// question reads a prediction or the transfer question with the table shown after it.
func (r *reader) question(path string, n *yaml.Node, q *Question, t *Table) {
	q.line, q.column = n.Line, n.Column
	r.each(path+".", n, func(p string, k, v *yaml.Node) {
		switch k.Value {
		case "choices":
			r.items(p, v, func(p string, v *yaml.Node) { q.Choices = append(q.Choices, r.choice(p, v)) })
		case "number":
			q.Number = r.guess(p, v)
		default:
			if path != "transfer" || !r.tableKey(p, k, v, t) {
				r.unknown(p, k, "choices", "number")
			}
		}
	})
	if r.l.Translates {
		return
	}
	if (len(q.Choices) == 0) == (q.Number == nil) || len(q.Choices) == 1 || len(q.Choices) > 6 {
		r.bad(n, path, "a prediction is a list of choices or a number", "2 to 6 choices, or number", "write one of the two")
	}
}

func (r *reader) choice(path string, n *yaml.Node) Choice {
	c := Choice{line: n.Line, column: n.Column}
	r.each(path+".", n, func(p string, k, v *yaml.Node) {
		switch k.Value {
		case "text":
			c.Text = tie(r.text(p, v))
			if strings.Contains(c.Text, "{{") {
				r.bad(v, p, "a choice is read before the model has answered: it has no gaps", "plain words", "write words")
			}
		case "when":
			c.when = newParser(r.text(p, v), &r.faults, inScalar(v)).condition()
		case "because":
			c.Because = r.readText(r.text(p, v), inScalar(v))
		default:
			r.unknown(p, k, "text", "when", "because")
		}
	})
	if c.Text == "" || c.when == nil && !r.l.Translates {
		r.bad(n, path, "a choice needs text and when", "text, when, because", "add them")
	}
	return c
}

func (r *reader) guess(path string, n *yaml.Node) *Number {
	q := &Number{line: n.Line, column: n.Column, Step: 1, Decimals: -1}
	have := map[string]bool{}
	r.each(path+".", n, func(p string, k, v *yaml.Node) {
		have[k.Value] = true
		switch k.Value {
		case "of":
			q.of = newParser(r.text(p, v), &r.faults, inScalar(v)).value()
		case "unit":
			q.Unit = r.text(p, v)
		case "from":
			q.Min = r.number(p, v, -1e6, 1e6)
		case "to":
			q.Max = r.number(p, v, -1e6, 1e6)
		case "step":
			q.Step = r.number(p, v, 1e-3, 1e6)
		case "decimals":
			q.Decimals = int(r.number(p, v, 0, mostDecimals))
		case "within":
			q.Within = r.number(p, v, 0, 1e6)
		default:
			r.unknown(p, k, "of", "unit", "from", "to", "step", "decimals", "within")
		}
	})
	for _, key := range []string{"of", "unit", "from", "to", "within"} {
		if !have[key] && len(r.list) == 0 {
			r.bad(n, path+"."+key, "missing", "of, unit, from, to, step, decimals, within", "add it")
		}
	}
	if !(q.Max > q.Min) || (q.Max-q.Min)/q.Step > 1000 {
		r.bad(n, path, "the range is empty or has more than 1000 steps", "from below to", "change from, to or step")
	}
	if q.Decimals < 0 {
		q.Decimals = 0
		for s := q.Step; q.Decimals < 3 && s != float64(int(s)); s *= 10 {
			q.Decimals++
		}
	}
	return q
}

// tableKey reads one key of what is shown of the plans, and tells whether it was one.
func (r *reader) tableKey(p string, k, v *yaml.Node, t *Table) bool {
	words := func(out *[]string) {
		r.items(p, v, func(p string, v *yaml.Node) { *out = append(*out, r.text(p, v)) })
	}
	switch k.Value {
	case "plans":
		words(&t.Plans)
	case "quantities":
		words(&t.Quantities)
	case "chart":
		t.Chart = r.text(p, v)
	case "picture":
		t.Picture = r.text(p, v)
	case "phase":
		phase := r.text(p, v)
		if phase != "systole" && phase != "diastole" {
			r.bad(v, p, "not a phase", "systole, diastole", "write systole")
		}
		t.Diastole = phase == "diastole"
	case "view":
		t.View = r.text(p, v)
		if !known([]string{"atrium", "ventricle", "side", "axis"}, t.View) {
			r.bad(v, p, "not a view", "atrium, ventricle, side, axis", "write atrium")
		}
	default:
		return false
	}
	return true
}

func (r *reader) table(path string, n *yaml.Node, t *Table) {
	r.each(path+".", n, func(p string, k, v *yaml.Node) {
		if !r.tableKey(p, k, v, t) {
			r.unknown(p, k, "plans", "quantities", "chart", "picture", "phase", "view")
		}
	})
}

func (r *reader) evidence(path string, n *yaml.Node) {
	e := Evidence{line: n.Line, column: n.Column}
	published := false
	r.each(path+".", n, func(p string, k, v *yaml.Node) {
		switch k.Value {
		case "finding":
			e.Finding = tie(r.text(p, v))
		case "citation":
			e.Citation = r.text(p, v)
		case "source":
			e.Source = r.text(p, v)
		case "subjects":
			e.Subjects = r.text(p, v)
		case "followed":
			e.Followed = r.text(p, v)
		case "note":
			e.Note = tie(r.text(p, v))
		case "published":
			published = true
			e.Published = r.number(p, v, -1e6, 1e6)
		case "spread":
			e.Spread = r.text(p, v)
		case "unit":
			e.Unit = r.text(p, v)
		case "decimals":
			e.Decimals = int(r.number(p, v, 0, mostDecimals))
		case "model":
			e.model = newParser(r.text(p, v), &r.faults, inScalar(v)).value()
		default:
			r.unknown(p, k, "finding", "citation", "source", "subjects", "followed", "published", "spread", "unit", "decimals", "model", "note")
		}
	})
	if !r.l.Translates && (e.Finding == "" || e.Citation == "" || e.Source == "" || e.Subjects == "" || e.Followed == "" || e.Unit == "" || !published || e.model == nil) {
		r.bad(n, path, "an evidence card lacks something", "finding, citation, source, subjects, followed, published, unit, model", `where our sheets do not tell the subjects, write "not stated in our sheet"`)
	}
	r.l.Evidence = append(r.l.Evidence, e)
}

func (r *reader) explore(path string, n *yaml.Node) {
	e := &r.l.Explore
	r.each(path+".", n, func(p string, k, v *yaml.Node) {
		switch k.Value {
		case "plan":
			e.Plan = r.text(p, v)
		case "scene":
			if e.Scene = r.text(p, v); e.Scene != "valve" && e.Scene != "strip" && e.Scene != "beat" {
				r.bad(v, p, "not a scene for exploring", "valve, strip, beat", "write valve")
			}
		case "controls":
			r.items(p, v, func(p string, v *yaml.Node) { e.Controls = append(e.Controls, r.text(p, v)) })
		default:
			r.unknown(p, k, "plan", "scene", "controls")
		}
	})
}

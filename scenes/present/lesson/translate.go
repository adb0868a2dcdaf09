package lesson

// Translate joins a translation to its original: the texts are the translation's, everything that is computed is the
// original's. The translation's expressions are checked against the original's plans. The error is Errors.
func (l *Lesson) Translate(t *Lesson) (*Lesson, error) {
	var f faults
	out := *l
	out.Language, out.Title, out.Summary, out.Sections = t.Language, t.Title, t.Summary, t.Sections
	if t.Name != l.Name {
		f.add(2, 1, "name", t.Name, "the original has another name", l.Name, "use its name")
	}
	out.Plans = append([]Plan(nil), l.Plans...)
	for _, p := range t.Plans {
		found := false
		for i := range out.Plans {
			if out.Plans[i].Name == p.Name {
				out.Plans[i].Title, found = p.Title, true
			}
		}
		if !found {
			f.add(p.line, p.column, "plans", p.Name, "the original has no such plan", list(l.planNames()), "use its names")
		}
	}
	out.Prediction = l.Prediction.translate(&t.Prediction, &f, "prediction")
	out.Transfer = l.Transfer.translate(&t.Transfer, &f, "transfer")
	out.Evidence = append([]Evidence(nil), l.Evidence...)
	if len(t.Evidence) != len(l.Evidence) {
		f.add(2, 1, "evidence", "", plural(len(t.Evidence), "card"), plural(len(l.Evidence), "card")+", as in the original", "translate each finding")
	} else {
		for i, e := range t.Evidence {
			o := &out.Evidence[i]
			for _, s := range []struct {
				to   *string
				from string
			}{{&o.Finding, e.Finding}, {&o.Subjects, e.Subjects}, {&o.Followed, e.Followed}, {&o.Note, e.Note}} {
				if s.from != "" {
					*s.to = s.from
				}
			}
		}
	}
	if len(f.list) == 0 {
		out.expressions(func(n *node, _ bool) { out.examine(n, &f) })
	}
	return &out, f.err()
}

func (q Question) translate(t *Question, f *faults, key string) Question {
	if len(t.Choices) != len(q.Choices) {
		f.add(max(t.line, 2), max(t.column, 1), key, "", plural(len(t.Choices), "choice"), plural(len(q.Choices), "choice")+", as in the original", "translate each choice, in the same order")
		return q
	}
	out := q
	out.Choices = append([]Choice(nil), q.Choices...)
	for i, c := range t.Choices {
		out.Choices[i].Text, out.Choices[i].Because = c.Text, c.Because
	}
	return out
}

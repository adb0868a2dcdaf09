package lesson

import (
	"fmt"
	"sort"
	"strings"

	"annuloscope/scenes/present/words"
	"annuloscope/sim/fault"
)

// ReadAll reads the lesson files named, joins translations to their originals and sorts them by order and language.
func ReadAll(names []string, read func(name string) ([]byte, error), cases CaseReader) ([]*Lesson, error) {
	var all, translations []*Lesson
	from := map[*Lesson]string{}
	for _, n := range names {
		data, err := read(n)
		if err != nil {
			return nil, fmt.Errorf("lesson: %s: %w", n, err)
		}
		l, err := Parse(data, cases)
		if err != nil {
			return nil, fmt.Errorf("lesson: %s: %w", n, err)
		}
		if from[l] = n; l.Translates {
			translations = append(translations, l)
		} else {
			all = append(all, l)
		}
	}
	originals, taken := all, map[string]string{}
	for _, l := range all {
		if other, twice := taken[l.Name]; twice {
			return nil, fmt.Errorf("lesson: %s: a lesson named %s is already there (%s); give it another name", from[l], l.Name, other)
		}
		taken[l.Name] = from[l]
	}
	for _, t := range translations {
		l, err := Joined(t, func(name string) (*Lesson, bool) {
			for _, o := range originals {
				if o.Name == name {
					return o, true
				}
			}
			return nil, false
		})
		if err != nil {
			return nil, fmt.Errorf("lesson: %s: %w", from[t], err)
		}
		all = append(all, l)
	}
	sort.SliceStable(all, func(i, j int) bool {
		a, b := all[i], all[j]
		return a.Order < b.Order || a.Order == b.Order && (a.Name < b.Name || a.Name == b.Name && a.Language > b.Language)
	})
	return all, nil
}

// Joined returns a lesson itself, or a translation joined to the original that find gives.
func Joined(l *Lesson, find func(name string) (*Lesson, bool)) (*Lesson, error) {
	if !l.Translates {
		return l, nil
	}
	o, ok := find(l.Name)
	if !ok {
		return nil, Errors{&fault.Field{Path: "name", Value: l.Name, Problem: "no original of this name", Allowed: "a built-in lesson", Fix: "check the name", Line: 2, Column: 1}}
	}
	return o.Translate(l)
}

// Script writes the whole lesson as plain text, answers included.
func (l *Lesson) Script(w *words.Words, res Results) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", l.Title, l.Summary)
	for _, s := range sections {
		fmt.Fprintf(&b, "\n== %s ==\n", w.T("lesson.section."+s))
		for _, k := range l.Sections[s].Blocks {
			text := k.Text.Fill(w, res)
			switch k.Kind {
			case Bullet:
				text = "- " + text
			case Heading:
				text = "\n" + text
			}
			b.WriteString(text + "\n")
		}
		switch s {
		case "prediction":
			l.Prediction.script(&b, w)
		case "transfer":
			l.Transfer.script(&b, w)
		case "computation":
			l.Prediction.answer(&b, w, res)
		case "answer":
			l.Transfer.answer(&b, w, res)
		case "evidence":
			for i := range l.Evidence {
				b.WriteString("- " + l.Evidence[i].Card(w, res) + "\n")
			}
		}
	}
	b.WriteString("\n")
	for _, s := range l.Sources {
		fmt.Fprintf(&b, "%s: %s\n", s.Key, s.Citation)
	}
	return b.String()
}

func (q *Question) script(b *strings.Builder, w *words.Words) {
	for i, c := range q.Choices {
		fmt.Fprintf(b, "  %c) %s\n", 'a'+i, c.Text)
	}
	if g := q.Number; g != nil {
		fmt.Fprintf(b, "  %s – %s\n", w.Num(g.Min, g.Decimals), w.With(g.Max, g.Decimals, g.Unit))
	}
}

func (q *Question) answer(b *strings.Builder, w *words.Words, res Results) {
	if g := q.Number; g != nil {
		v, _ := g.Truth(res)
		fmt.Fprintf(b, "> %s\n", w.With(v, g.Decimals, g.Unit))
		return
	}
	if i := q.Right(res); i >= 0 {
		fmt.Fprintf(b, "> %c) %s\n", 'a'+i, q.Choices[i].Text)
		if t := q.Choices[i].Because.Fill(w, res); t != "" {
			b.WriteString("> " + t + "\n")
		}
	}
}

// Answers writes what is right, computed now.
func (l *Lesson) Answers(w *words.Words, res Results) string {
	var b strings.Builder
	l.Prediction.answer(&b, w, res)
	l.Transfer.answer(&b, w, res)
	return b.String()
}

// Card says one evidence card in a sentence or two.
func (e *Evidence) Card(w *words.Words, res Results) string {
	model, gap, ok := e.Model(res)
	m, g := "…", "…"
	if ok {
		m, g = w.With(model, e.Decimals, e.Unit), w.Signed(gap, e.Decimals)+strings.TrimPrefix(w.With(0, 0, e.Unit), w.Num(0, 0))
	}
	published := w.With(e.Published, e.Decimals, e.Unit)
	if e.Spread != "" {
		published += " (" + e.Spread + ")"
	}
	text := w.F("lesson.card", "finding", e.Finding, "citation", e.Citation, "source", e.Source, "subjects", e.Subjects, "followed", e.Followed,
		"published", published, "model", m, "gap", g)
	if e.Note != "" {
		text += " " + e.Note
	}
	return text
}

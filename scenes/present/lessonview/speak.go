package lessonview

import (
	"fmt"

	"annuloscope/scenes/present/lesson"
)

// Sentence is the line on top: where one is and what to do.
func (v *View) Sentence() string {
	w := v.d.W()
	l, _ := v.find(v.open)
	if l == nil {
		return w.T("lesson.sentence.list")
	}
	switch v.page {
	case asking:
		if v.progress.find(l.Name).Prediction == nil {
			return w.T("lesson.sentence.predict")
		}
	case computing:
		res, done := v.queue.results(l)
		if !done {
			return w.F("lesson.computing", "n", fmt.Sprint(min(len(res)+1, len(l.Plans))), "of", fmt.Sprint(len(l.Plans)))
		}
		return v.outcome(&l.Prediction, v.progress.find(l.Name).Prediction, res)
	case exploring:
		return w.T("lesson.sentence.explore")
	case another:
		a := v.progress.find(l.Name).Transfer
		res, done := v.queue.results(l)
		switch {
		case a == nil:
			return w.T("lesson.sentence.transfer")
		case done:
			return v.outcome(&l.Transfer, a, res)
		}
	}
	return w.T("lesson.sentence.read")
}

// outcome is the verdict in one short sentence.
func (v *View) outcome(q *lesson.Question, a *Answer, res lesson.Results) string {
	key := "lesson.sentence.other"
	if agrees(q, a, res) {
		key = "lesson.sentence.same"
	}
	return v.d.W().F(key, "model", v.truth(q, res))
}

// Describe tells the page in words.
func (v *View) Describe() string {
	w := v.d.W()
	l, _ := v.find(v.open)
	if l == nil {
		done := 0
		for _, n := range v.names() {
			if v.progress.find(n).Done {
				done++
			}
		}
		return w.F("lesson.describe.list", "n", fmt.Sprint(len(v.names())), "done", fmt.Sprint(done))
	}
	return w.F("lesson.head", "title", w.Table("", l.Title), "page", w.T("lesson.section."+sectionOf[v.page]), "n", fmt.Sprint(v.page+1), "of", fmt.Sprint(pages))
}

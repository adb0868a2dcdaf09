package lessonview

import (
	"strings"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/casefile"
)

// The pages of a lesson.
const (
	asking = iota
	computing
	reasons
	evidence
	exploring
	another
	pages
)

// sectionOf names the section that heads each page.
var sectionOf = [pages]string{"question", "computation", "why", "evidence", "explore", "transfer"}

// View is the scene. Use New.
type View struct {
	d        *desk.Desk
	lessons  []*lesson.Lesson // every language
	keeper   study.Keeper
	progress Progress
	queue    solving

	open   string // name of the lesson on screen; empty: the list
	page   int
	choice int     // marked in the prediction on screen, −1 none
	number float64 // on the slider of the prediction on screen
	moved  bool    // the slider was touched

	aside  *casefile.Case // what the person had open before exploring
	before relief.Model
	after  relief.Model
	drawn  string // what the models hold
}

// New returns the scene. Plans are solved by the runner r; k keeps the progress and may be nil; kept is what it kept.
func New(d *desk.Desk, all []*lesson.Lesson, r study.Runner, k study.Keeper, kept []byte) *View {
	v := &View{d: d, lessons: all, keeper: k, queue: newSolving(r), choice: -1}
	if len(kept) > 0 {
		p, err := ReadProgress(kept)
		if v.progress = p; err != nil {
			d.Say(d.W().F("message.invalid", "why", err.Error()), true)
		}
	}
	return v
}

// find returns the lesson of that name in the language in use, else in English; own tells whether it is that language.
func (v *View) find(name string) (l *lesson.Lesson, own bool) {
	lang := string(v.d.W().Lang)
	for _, c := range v.lessons {
		if c.Name == name && (l == nil || c.Language == lang) {
			l = c
		}
	}
	return l, l != nil && (l.Language == lang || lang == "double")
}

// names lists the lessons in their order.
func (v *View) names() []string {
	var out []string
	for _, l := range v.lessons {
		if len(out) == 0 || out[len(out)-1] != l.Name {
			out = append(out, l.Name)
		}
	}
	return out
}

// Build lays the scene out in r.
func (v *View) Build(r draw.Rect) {
	l, own := v.find(v.open)
	if l == nil {
		v.list(r)
		return
	}
	v.lesson(l, own, r)
}

// Tick goes on solving the plans of the open lesson once they may be seen.
func (v *View) Tick() bool {
	l, _ := v.find(v.open)
	if l == nil || v.progress.find(l.Name).Prediction == nil {
		return false
	}
	if !v.queue.step(l) {
		return false
	}
	v.announce(l)
	return true
}

// announce takes in the outcome when the last plan is solved; Sentence tells it.
func (v *View) announce(l *lesson.Lesson) {
	w := v.d.W()
	res, done := v.queue.results(l)
	if v.queue.failure != "" {
		v.d.Say(w.F("lesson.failed", "why", v.queue.failure), true)
		return
	}
	if done {
		v.settle(l, res)
		v.d.Message = "" // that it computes; the sentence on top now tells the outcome
	}
}

// settle notes whether the predictions agreed with the model.
func (v *View) settle(l *lesson.Lesson, res lesson.Results) {
	e := v.progress.entry(l.Name)
	for _, q := range []struct {
		a *Answer
		q *lesson.Question
	}{{e.Prediction, &l.Prediction}, {e.Transfer, &l.Transfer}} {
		if q.a != nil && q.a.Agreed == nil {
			yes := agrees(q.q, q.a, res)
			q.a.Agreed = &yes
			v.keep()
		}
	}
}

func agrees(q *lesson.Question, a *Answer, res lesson.Results) bool {
	if q.Number != nil {
		truth, ok := q.Number.Truth(res)
		return ok && a.Number != nil && q.Number.Close(*a.Number, truth)
	}
	return q.Right(res) == a.Choice-1
}

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	id, ok := strings.CutPrefix(a.ID, "lesson/")
	if !ok {
		return false
	}
	l, _ := v.find(v.open)
	if name, ok := strings.CutPrefix(id, "open/"); ok && a.Verb == widget.Pressed {
		v.enter(name)
		return true
	}
	switch id {
	case "save":
		v.export()
	case "forget":
		v.progress = Progress{}
		v.keep()
		v.d.Say(v.d.W().T("lesson.forgotten"), false)
	}
	if l == nil {
		return true
	}
	switch id {
	case "list":
		v.leave()
	case "back":
		v.turn(l, v.page-1)
	case "next":
		v.turn(l, v.page+1)
	case "finish":
		v.progress.entry(l.Name).Done = true
		v.keep()
		v.leave()
		v.d.Say(v.d.W().F("lesson.finished", "title", l.Title), false)
	case "choice":
		v.choice = a.Index
	case "number":
		if a.Verb == widget.Changed {
			v.number, v.moved = a.Value, true
		}
	case "commit":
		v.commit(l)
	case "explore":
		v.explore(l)
	case "restore":
		v.restore()
	}
	return true
}

// enter opens a lesson where it was left; a finished one begins again, with new predictions.
func (v *View) enter(name string) {
	l, _ := v.find(name)
	if l == nil {
		return
	}
	e := v.progress.entry(name)
	if e.Done {
		*e = Entry{Lesson: name}
		v.keep()
	}
	v.open = name
	v.show(l, max(0, min(e.Seen-1, pages-1)))
}

// show turns to a page.
func (v *View) show(l *lesson.Lesson, page int) {
	v.page, v.choice, v.moved = page, -1, false
	if q := v.question(l); q != nil && q.Number != nil {
		v.number = q.Number.Middle()
	}
	e := v.progress.entry(l.Name)
	if e.Seen < page+1 {
		e.Seen = page + 1
		v.keep()
	}
	v.d.U.Focus = "lesson/head"
	v.announce(l)
}

// turn goes to another page, as far as it may be seen.
func (v *View) turn(l *lesson.Lesson, page int) {
	if page < 0 || page >= pages || page > asking && v.progress.find(l.Name).Prediction == nil {
		return
	}
	v.show(l, page)
}

func (v *View) leave() {
	v.open = ""
	v.d.U.Focus = "lesson/head"
}

// question is the one that the page asks; nil for the others.
func (v *View) question(l *lesson.Lesson) *lesson.Question {
	switch v.page {
	case asking:
		return &l.Prediction
	case another:
		return &l.Transfer
	}
	return nil
}

// answer is what was predicted on the page; nil while nothing was committed.
func (v *View) answer(l *lesson.Lesson) *Answer {
	if e := v.progress.find(l.Name); v.page == another {
		return e.Transfer
	} else {
		return e.Prediction
	}
}

// ready tells whether there is something to commit.
func (v *View) ready(q *lesson.Question) bool {
	return q.Number != nil && v.moved || q.Number == nil && v.choice >= 0 && v.choice < len(q.Choices)
}

// commit takes the prediction; it cannot be changed after that.
func (v *View) commit(l *lesson.Lesson) {
	q := v.question(l)
	if q == nil || v.answer(l) != nil || !v.ready(q) {
		return
	}
	a := &Answer{Choice: v.choice + 1}
	if q.Number != nil {
		n := v.number
		a = &Answer{Number: &n}
	}
	e := v.progress.entry(l.Name)
	if v.page == another {
		e.Transfer = a
		v.keep()
		v.d.Say(v.d.W().F("lesson.noted", "answer", v.said(q, a)), false)
		v.announce(l)
		return
	}
	e.Prediction = a
	v.keep()
	v.d.Say(v.d.W().F("lesson.noted", "answer", v.said(q, a)), false)
	v.show(l, computing)
}

func (v *View) keep() {
	if v.keeper == nil {
		return
	}
	if err := v.keeper.Keep(v.progress.Encode()); err != nil {
		v.d.Refuse(err)
		v.keeper = nil
	}
}

// export hands the progress to the shell as a file.
func (v *View) export() {
	w := v.d.W()
	v.d.Wish(present.Wish{Kind: present.SaveFile, Name: "lesson-progress.json", Data: v.progress.Encode(), Done: func(where string, err error) {
		if err != nil {
			v.d.Refuse(err)
			return
		}
		v.d.Say(w.F("lesson.saved", "where", where), false)
	}})
}

// explore opens the lesson's case in another scene.
func (v *View) explore(l *lesson.Lesson) {
	p, ok := l.Plan(l.Explore.Plan)
	if !ok {
		return
	}
	if v.aside == nil {
		c := v.d.S.Case.Clone()
		v.aside = &c
	}
	c := p.Case.Clone()
	if err := v.d.S.Open(c); err != nil {
		v.d.Refuse(err)
		return
	}
	v.d.Look("atrium")
	v.d.Goto = l.Explore.Scene
	v.d.Say(v.d.W().F("lesson.exploring", "title", l.Title), false)
}

// restore puts back what the person had open.
func (v *View) restore() {
	if v.aside == nil {
		return
	}
	if err := v.d.S.Open(*v.aside); err != nil {
		v.d.Refuse(err)
		return
	}
	v.aside = nil
	v.d.Say(v.d.W().T("lesson.restored"), false)
}

// Progress returns what is kept of the person's way.
func (v *View) Progress() Progress { return v.progress }

package program

import (
	"annuloscope/scenes/present/beatview"
	"annuloscope/scenes/present/cohortview"
	"annuloscope/scenes/present/compareview"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/lectern"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/lessonview"
	"annuloscope/scenes/present/strip"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/valveview"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/measured"
)

// Scene is one of the screens between the head and the foot.
type Scene interface {
	Build(r draw.Rect)
	Apply(a widget.Action) bool
	Describe() string
}

// Ticker is a Scene that has work of its own while it is shown: Tick does a little of it and tells whether the picture
// changed.
type Ticker interface{ Tick() bool }

// Config is what the program is started with.
type Config struct {
	Runner   study.Runner
	Cases    []casefile.Case     // the first is opened
	Sweeper  func() study.Runner // makes a runner for a chart over many values; nil: one value a tick, on the screen's own goroutine
	Beside   func() study.Runner // makes a further runner, with the closed loop, for a scene that solves cases of its own; nil: as Sweeper
	Cohort   study.Runner        // solves virtual patients, with cohortview.Cold; nil: between the pictures, and few
	Keeper   study.Keeper        // nil: nothing is kept
	Document []byte              // a shared or kept state, a running order or a saved link to open; nil for none
	Address  string              // of the page, for links; empty: where `annuloscope serve` answers by itself
	Lessons  []*lesson.Lesson    // every language; nil: no scene of lessons
	Progress study.Keeper        // keeps the progress in the lessons; nil: it is forgotten at the end
	Gone     []byte              // the progress that was kept; nil for none
	Damaged  string              // where a kept state that cannot be read lies now; empty: there was none
}

// Program is the root screen. Use New.
type Program struct {
	d      *desk.Desk
	cases  []casefile.Case
	scenes []Scene
	names  []string
	at     int
	page   string // "", or a page over the scene
	from   string // what had the focus before the page opened

	lectern *lectern.View
	address string // of the page, for links; empty: where serve answers
	minimal bool   // few buttons on top, for a frame in another page

	curves  measured.Input // measured curves that were dropped
	export  export
	keeping keeping
	dirty   bool
	said    string // the message on the picture
	last    float64
	telling string
	told    float64 // height of the last sentence that was complete, and the width it was broken to
	toldIn  float64

	description    string
	described      uint64
	describedView  study.View
	describedScene int
	describedIn    string
}

// New starts the program. A document that cannot be opened is said on the screen; the first case is open then.
func New(c Config) *Program {
	if len(c.Cases) == 0 {
		panic("program: no cases")
	}
	th, _ := theme.Named("light")
	u := widget.New(th, words.For(words.English))
	d := desk.New(u, study.New(c.Runner, c.Cases[0]))
	p := &Program{d: d, cases: c.Cases, address: c.Address, dirty: true}
	u.TipFor = d.Tip
	if c.Sweeper == nil {
		c.Sweeper = func() study.Runner { return study.NewSync(study.NewFull()) }
	}
	if c.Beside == nil {
		c.Beside = func() study.Runner { return study.NewSync(study.NewExplained()) }
	}
	p.export.beside = c.Beside
	p.assemble(c)
	d.Hold(desk.Held)
	if c.Document != nil {
		p.OpenFile(c.Document)
	}
	if c.Damaged != "" {
		d.Say(d.W().F("message.damaged", "file", c.Damaged), true)
	}
	p.keeping.to = c.Keeper
	return p
}

// assemble makes the scenes, in the order of their keys.
func (p *Program) assemble(c Config) {
	add := func(name string, s Scene) { p.names, p.scenes = append(p.names, name), append(p.scenes, s) }
	add("valve", valveview.New(p.d))
	add("strip", strip.New(p.d, c.Sweeper))
	add("beat", beatview.New(p.d))
	add("compare", compareview.New(p.d, c.Beside()))
	if len(c.Lessons) > 0 {
		add("lessons", lessonview.New(p.d, c.Lessons, c.Beside(), c.Progress, c.Gone))
	}
	add("cohort", cohortview.New(p.d, c.Cohort))
	p.lectern = lectern.New(p.d, c.Cases, p.Document, p.Settings)
	add("lectern", p.lectern)
}

// Desk gives tests and the lectern the shared state.
func (p *Program) Desk() *desk.Desk { return p.d }

// Scenes lists the names of the scenes, in the order of their keys.
func (p *Program) Scenes() []string { return p.names }

// Load opens a shared state. What it does not know is said in the message line.
func (p *Program) Load(data []byte) {
	doc, warnings, err := study.Decode(data)
	if err == nil {
		err = p.d.S.Open(doc.Open)
	}
	if err != nil {
		p.d.Refuse(err)
		return
	}
	doc.Settings.Still = doc.Settings.Still || p.d.P.Still // nobody else's link sets things in motion
	p.d.V, p.d.P = doc.View, doc.Settings
	p.d.S.SetPlans(doc.Compare)
	if o, _, err := lectern.Decode(doc.Lecture); err == nil {
		p.lectern.Use(o)
	}
	p.Settings()
	for i, n := range p.names {
		if n == doc.Scene {
			p.at = i
		}
	}
	p.d.Pose()
	p.d.Say(p.d.W().T("message.loaded"), false)
	if len(warnings) > 0 {
		p.d.Say(p.d.W().Warning(warnings[0]), true)
	}
	p.dirty = true
}

// Document is the whole state, to be shared or kept.
func (p *Program) Document() study.Document {
	return study.Document{Scene: p.names[p.at], Open: p.d.S.Case, View: p.d.V, Settings: p.d.P, Compare: p.d.S.Plans()}
}

// Settings makes the settings count.
func (p *Program) Settings() {
	s, u := &p.d.P, p.d.U
	if t, ok := theme.Named(s.Theme); ok {
		u.T = t
	}
	if u.W.Lang != words.Language(s.Language) {
		u.W = words.For(words.Language(s.Language))
	}
	u.Scale = s.Scale
	p.dirty = true
}

const longestGap = 0.1 // s of one step of the beat, so that a pause does not make it jump

// Tick moves time on.
func (p *Program) Tick(now float64) bool {
	dt := now - p.last
	p.last = now
	changed := p.dirty || p.said != p.d.Message
	if p.d.S.Poll() {
		changed = true
	}
	if t, ok := p.scenes[p.at].(Ticker); ok && p.page == "" && t.Tick() {
		changed, p.dirty = true, true
	}
	if p.d.U.Tick(now) {
		changed = true
	}
	if p.d.V.Mode == desk.Beat && !p.d.P.Still && p.page == "" && dt > 0 {
		beats := min(dt, longestGap) * p.d.S.Case.Patient.Heart.RatePerMin / 60 * p.d.V.Speed
		p.d.V.Phase += beats
		p.d.V.Phase -= float64(int(p.d.V.Phase))
		p.d.Pose()
		changed = true
	}
	if p.makeFile() {
		changed = true
	}
	if p.keep(now) {
		changed = true
	}
	return changed
}

// Paint writes the picture.
func (p *Program) Paint(l *draw.List, w, h float64) {
	p.d.U.Begin(l, w, h)
	l.Title = p.Description()
	if p.lecturing() {
		p.lecture(w, h)
	} else {
		p.frame(w, h)
		p.drawPage()
	}
	p.d.U.End()
	p.dirty, p.said = false, p.d.Message
}

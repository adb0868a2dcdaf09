package lectern

import (
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

// View is the scene. Use New.
type View struct {
	d        *desk.Desk
	document func() study.Document
	settings func() // makes changed settings count
	cases    []casefile.Case

	order Order
	at    int  // the step chosen
	on    bool // presenting
	shown bool // the values of the step are shown
	blank bool
	light bool   // projector colours while presenting
	theme string // to go back to

	version uint64 // of the order
}

// New returns the scene. document is the present state; settings is called after the desk's settings were changed.
func New(d *desk.Desk, cases []casefile.Case, document func() study.Document, settings func()) *View {
	return &View{d: d, cases: cases, document: document, settings: settings, light: true}
}

// Use makes o the running order.
func (v *View) Use(o Order) {
	v.order, v.at, v.on = o, 0, false
	v.version++
}

// Version rises with every change of the running order.
func (v *View) Version() uint64 { return v.version }

// Kept is the running order to be kept between two starts; nil when there is none, or one too long to be kept.
func (v *View) Kept() []byte {
	if len(v.order.Steps) == 0 {
		return nil
	}
	data := v.order.Encode()
	if len(data) > mostKept {
		return nil
	}
	return data
}

// Choose chooses a step; one that is not there is left out.
func (v *View) Choose(at int) {
	if at >= 0 && at < len(v.order.Steps) {
		v.at = at
	}
}

// Order returns the running order.
func (v *View) Order() Order { return v.order }

// Presenting tells whether the scene covers the whole screen.
func (v *View) Presenting() bool { return v.on }

// Note is what the presenter should read now: the step, its note, and what comes next.
func (v *View) Note() string {
	if !v.on || len(v.order.Steps) == 0 {
		return ""
	}
	w := v.d.W()
	s := v.order.Steps[v.at]
	text := w.F("lectern.count", "at", v.at+1, "n", len(v.order.Steps)) + ": " + s.Title + "\n" + s.Ask + "\n" + s.Note
	if v.at+1 < len(v.order.Steps) {
		text += "\n" + w.F("lectern.next.is", "title", v.order.Steps[v.at+1].Title)
	}
	return text
}

// Start presents the running order from the step chosen.
func (v *View) Start() {
	if len(v.order.Steps) == 0 {
		return
	}
	v.on, v.theme = true, v.d.P.Theme
	if v.light {
		v.d.P.Theme = "projector"
		v.settings()
	}
	v.d.U.Focus = ""
	v.show()
}

// Stop goes back to the list.
func (v *View) Stop() {
	if v.on && v.light {
		v.d.P.Theme = v.theme
		v.settings()
	}
	v.on, v.blank, v.d.Quiet = false, false, false
}

// show brings up the step chosen, its values hidden.
func (v *View) show() {
	s := v.order.Steps[v.at].State
	v.blank = false
	v.reveal(false)
	if err := v.d.S.Open(s.Open); err != nil {
		v.d.Refuse(err)
		return
	}
	v.d.V = s.View
	v.d.Pose()
}

// reveal shows or hides the values.
func (v *View) reveal(on bool) {
	v.shown = on
	v.d.U.Top("lectern/words")
}

// Go moves on by one step or back. Moving on first shows the values of the step.
func (v *View) Go(by int) {
	if v.blank {
		v.blank = false
		return
	}
	if by > 0 && !v.shown {
		v.reveal(true)
		return
	}
	if at := v.at + by; at >= 0 && at < len(v.order.Steps) {
		v.at = at
		v.show()
	} else if by > 0 {
		v.d.Say(v.d.W().T("lectern.end"), false)
	} else {
		v.reveal(false)
	}
}

// Key does what a clicker or a key asks for while presenting and tells whether it was one of its keys.
func (v *View) Key(e input.Event) bool {
	if !v.on || e.Mods&(input.Control|input.Alt) != 0 {
		return false
	}
	switch e.Key {
	case input.PageDown, input.Right, input.Down:
		v.Go(1)
	case input.PageUp, input.Left, input.Up:
		v.Go(-1)
	case input.Space:
		if v.d.U.ShowRing && v.d.U.Focus != "" {
			return false // it presses the button that has the focus
		}
		v.Go(1)
	case "V", "B", input.Period:
		if !v.d.P.OneKey {
			return false // shortcuts of a single letter are switched off
		}
		if e.Key == "V" {
			v.reveal(!v.shown)
		} else {
			v.blank = !v.blank
		}
	case input.Home:
		v.at = 0
		v.show()
	case input.Escape:
		v.Stop()
	default:
		return false
	}
	return true
}

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	if v.edit(a) {
		v.version++
		return true
	}
	switch a.ID {
	case "lectern/start":
		v.Start()
	case "lectern/back":
		v.Go(-1)
	case "lectern/next":
		v.Go(1)
	case "lectern/show":
		v.reveal(!v.shown)
	case "lectern/blank":
		v.blank = !v.blank
	case "lectern/stop":
		v.Stop()
	case "lectern/try":
		scene := v.order.Steps[v.at].State.Scene
		v.Stop()
		v.d.Goto = scene
	default:
		return false
	}
	return true
}

// name is a title for the present state: the patient and what was done.
func (v *View) name(c casefile.Case) string {
	w := v.d.W()
	text := tell.Title(w, c)
	seen := map[repair.Kind]bool{}
	for _, r := range c.Repairs {
		if !seen[r.Kind] {
			text += ", " + tell.RepairName(w, string(r.Kind))
			seen[r.Kind] = true
		}
	}
	return short(text)
}

// Describe tells the scene in words.
func (v *View) Describe() string {
	w := v.d.W()
	if !v.on {
		return w.F("lectern.tell", "n", len(v.order.Steps))
	}
	s := v.order.Steps[v.at]
	text := w.F("lectern.count", "at", v.at+1, "n", len(v.order.Steps)) + ": " + s.Title + ". " + s.Ask
	if v.shown && !v.d.S.Updating() {
		text += " " + v.answer() + " " + tell.Told(w, v.d.S)
	}
	return text
}

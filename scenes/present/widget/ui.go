package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/words"
)

// UI is the state of all controls on one screen. Use New.
type UI struct {
	T     theme.Theme
	W     *words.Words
	Scale float64 // 1 to 2

	List        *draw.List
	Width, Tall float64
	Controls    []Control // of the last pass, in focus order
	Cells       []Cell    // of the last pass, when Record is set
	Record      bool      // keep Cells, for tests

	Focus    string
	ShowRing bool // the keyboard was used last
	Hover    string
	TipFor   func(id string) Tip // the explanation of a control; nil or an empty Tip for none

	drag      string
	dragMoved bool
	lastX     float64
	lastY     float64
	fine      float64 // value of a slider dragged with Shift, not yet snapped
	edit      entry
	scroll    map[string]float64
	panels    []panel
	open      []int
	wraps     map[wrapKey][]string
	pts       []draw.Point
	out       []Action
	tipID     string
	hoverAt   float64
	now       float64
	changed   bool
}

// Cell is a text and the room it was given.
type Cell struct {
	Rect draw.Rect
	Text string
	Box  draw.Rect // of the letters
	Clip draw.Rect // what shows
}

// New returns a UI in one language and theme.
func New(t theme.Theme, w *words.Words) *UI {
	return &UI{T: t, W: w, Scale: 1, scroll: map[string]float64{}, wraps: map[wrapKey][]string{}, hoverAt: math.Inf(1)}
}

// S scales a length given at 100 % and rounds it to a whole logical pixel.
func (u *UI) S(v float64) float64 { return math.Round(v * u.Scale) }

// Begin starts a pass of w by h logical pixels into l.
func (u *UI) Begin(l *draw.List, w, h float64) {
	l.Reset(w, h, u.T.Paper)
	u.List, u.Width, u.Tall = l, w, h
	u.Controls, u.Cells, u.panels, u.open = u.Controls[:0], u.Cells[:0], u.panels[:0], u.open[:0]
}

// End ends a pass: it draws the explanation of what is under the pointer or has the focus.
func (u *UI) End() {
	if u.Focus != "" && u.find(u.Focus) == nil {
		u.Focus = ""
	}
	u.drawTip()
	u.changed = false
}

// Modal starts a page that covers everything: what was described so far can no longer be used in this pass.
func (u *UI) Modal() {
	u.Controls, u.panels, u.Cells = u.Controls[:0], u.panels[:0], u.Cells[:0]
	u.List.FillRect(draw.Rect{W: u.Width, H: u.Tall}, u.T.Paper)
}

// Tick moves time on and tells whether the picture changes by itself (an explanation appears).
func (u *UI) Tick(now float64) bool {
	u.now = now
	if u.tipID == "" && now-u.hoverAt > tipDelay {
		u.tipID = u.Hover
		u.hoverAt = math.Inf(1)
		return u.tipID != ""
	}
	return u.changed
}

// SetFocus gives a control the focus, as the keyboard does.
func (u *UI) SetFocus(id string) {
	u.Focus, u.ShowRing, u.tipID = id, true, ""
	u.reveal(id)
	u.changed = true
}

func (u *UI) find(id string) *Control {
	for i := range u.Controls {
		if u.Controls[i].ID == id {
			return &u.Controls[i]
		}
	}
	return nil
}

// Find returns the control with that id in the last pass.
func (u *UI) Find(id string) (Control, bool) {
	if c := u.find(id); c != nil {
		return *c, true
	}
	return Control{}, false
}

// Last makes a control the last one in focus order.
func (u *UI) Last(id string) {
	for i := range u.Controls {
		if u.Controls[i].ID == id {
			c := u.Controls[i]
			copy(u.Controls[i:], u.Controls[i+1:])
			u.Controls[len(u.Controls)-1] = c
			return
		}
	}
}

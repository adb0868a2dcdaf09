package widget

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
)

// Kind says what a control is.
type Kind uint8

// The kinds of control.
const (
	Button  Kind = iota
	Toggle       // on or off
	Choice       // one of a few
	Slider       // a number in a range
	Info         // a number or text with an explanation, only to be read
	Picture      // a picture that can be turned and zoomed
	Handle       // a point on a picture that can be dragged along a line; a slider without a track
	Line         // a line of text that can be changed
)

// Control is one control of a pass.
type Control struct {
	ID       string
	Kind     Kind
	Rect     draw.Rect // where it can be pressed
	Clip     draw.Rect // the part of the screen in which it shows
	Name     string
	Text     string // the value in words
	Value    float64
	Min, Max float64
	Step     float64
	Decimals int
	Unit     string
	On       bool
	Long     bool // line: broken to several rows, up to mostNote characters
	Options  []string
	Selected int
	Disabled bool
	Primary  bool    // the button that matters most here
	Mark     float64 // slider: a value to show on the track, such as the start; NaN for none

	optionRects []draw.Rect
	track       draw.Rect
	panel       string
}

// Role names the kind of control as a screen reader does.
func (c Control) Role() string {
	switch c.Kind {
	case Toggle:
		return "checkbox"
	case Choice:
		return "radiogroup"
	case Slider, Handle:
		return "slider"
	case Info:
		return "text"
	case Line:
		return "textbox"
	case Picture:
		return "img"
	}
	return "button"
}

// Verb says what a person did.
type Verb uint8

// The verbs.
const (
	Pressed  Verb = iota // a button, or a toggle (Value is 1 on, 0 off)
	Changed              // a slider or handle: Value
	Selected             // a choice: Index
	Dragged              // a picture: DX, DY in logical pixels
	Zoomed               // a picture: DY notches
	Keyed                // a key on a picture
	Refused              // a typed number could not be used: Text
	Typed                // a line: Text
	Picked               // a picture, pressed and let go in one place: DX, DY from its corner
)

// Action is what a person did to one control.
type Action struct {
	ID       string
	Verb     Verb
	Value    float64
	Index    int
	DX, DY   float64
	Key      input.Key
	Mods     input.Mods
	Continue bool // part of the same gesture as the action before: one undo
	Text     string
}

func (u *UI) add(c Control) *Control {
	c.Clip = draw.Rect{W: u.Width, H: u.Tall}
	if n := len(u.open); n > 0 {
		p := u.panels[u.open[n-1]]
		c.Clip, c.panel = p.rect, p.id
	}
	u.Controls = append(u.Controls, c)
	return &u.Controls[len(u.Controls)-1]
}

func (u *UI) focused(id string) bool { return u.ShowRing && u.Focus == id }

// ring draws the focus ring outside r.
func (u *UI) ring(id string, r draw.Rect, radius float64) {
	if u.focused(id) {
		u.outline(r.Inset(-u.S(3)), radius+u.S(3), u.S(2)+1, u.T.Focus)
	}
}

// Picture registers a picture that can be turned; whoever calls it draws it.
func (u *UI) Picture(id string, r draw.Rect, name string) {
	u.add(Control{ID: id, Kind: Picture, Rect: r, Name: name})
	if u.focused(id) {
		u.outline(r.Inset(1), u.S(8), u.S(2)+1, u.T.Focus)
	}
}

// Info registers a text with an explanation; whoever calls it draws it.
func (u *UI) Info(id string, r draw.Rect, name, value string) {
	u.add(Control{ID: id, Kind: Info, Rect: r, Name: name, Text: value})
	if u.Hover == id || u.focused(id) {
		u.Fill(r, u.S(4), u.T.Tint)
	}
	if u.focused(id) {
		u.outline(r, u.S(4), u.S(2)+1, u.T.Focus)
	}
}

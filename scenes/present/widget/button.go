package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// ButtonSize returns the size of a button with that label on one line.
func (u *UI) ButtonSize(label string) (w, h float64) {
	return math.Max(u.Wide(label, theme.Body, false)+u.S(20), u.S(32)), u.S(32)
}

// Look chooses how loud a button is.
type Look uint8

// The looks.
const (
	Quiet Look = iota // outlined
	Loud              // filled
	Bare              // text only
)

// Button draws a button with its label in r.
func (u *UI) Button(id string, r draw.Rect, label, spoken string, look Look, disabled bool) {
	if spoken == "" {
		spoken = label
	}
	u.add(Control{ID: id, Kind: Button, Rect: r, Name: spoken, Disabled: disabled, Primary: look == Loud})
	u.face(id, r, label, look, disabled)
}

func (u *UI) face(id string, r draw.Rect, label string, look Look, disabled bool) {
	ink := u.T.Ink
	switch {
	case look == Loud && !disabled:
		u.Fill(r, u.S(6), u.T.Accent)
		ink = u.T.OnAcc
	case look == Quiet || disabled:
		bg := u.T.Card
		if u.Hover == id && !disabled {
			bg = u.T.Tint
		}
		u.Fill(r, u.S(6), bg)
		edge := u.T.Edge
		if disabled {
			edge, ink = u.T.Rule, u.T.Soft
		}
		u.outline(r, u.S(6), 1, edge)
	case u.Hover == id:
		u.Fill(r, u.S(6), u.T.Tint)
	}
	u.Centred(r.Inset(u.S(4)), label, theme.Body, look == Loud, ink)
	u.ring(id, r, u.S(6))
}

// Switch draws an on/off switch with its label to the right, broken to the width; it returns its height.
func (u *UI) Switch(id string, x, y, width float64, label string, on, bold bool) float64 {
	tw, th := u.S(36), u.S(20)
	text := width - tw - u.S(10)
	h := math.Max(u.Height(label, theme.Body, bold, text), u.S(28))
	state := u.W.T("state.off")
	if on {
		state = u.W.T("state.on")
	}
	r := draw.Rect{X: x, Y: y, W: width, H: h}
	u.add(Control{ID: id, Kind: Toggle, Rect: r, Name: label, On: on, Text: state})
	t := draw.Rect{X: x, Y: y + math.Round((h-th)/2), W: tw, H: th}
	if on {
		u.Fill(t, th/2, u.T.Accent)
		u.Disc(t.X+tw-th/2, t.Y+th/2, th/2-u.S(3), u.T.OnAcc)
		cx, cy := t.X+u.S(11), t.Y+th/2
		u.List.Line(u.T.OnAcc, u.S(2), draw.Point{X: cx - u.S(4), Y: cy}, draw.Point{X: cx - u.S(1), Y: cy + u.S(3)}, draw.Point{X: cx + u.S(4), Y: cy - u.S(4)})
	} else {
		u.Fill(t, th/2, u.T.Card)
		u.outline(t, th/2, u.S(1.5), u.T.Edge)
		u.Disc(t.X+th/2, t.Y+th/2, th/2-u.S(5), u.T.Edge)
	}
	u.ring(id, t, th/2)
	lh := u.Height(label, theme.Body, bold, text)
	u.Para(x+tw+u.S(10), y+math.Round((h-lh)/2), text, label, theme.Body, bold, u.T.Ink)
	return h
}

// Options draws a choice of a few as a row of joined buttons, broken into rows where the width asks for it, and returns
// its height.
func (u *UI) Options(id string, x, y, width float64, name string, options []string, selected int) float64 {
	rowH, gap := u.S(32), u.S(4)
	c := u.add(Control{ID: id, Kind: Choice, Name: name, Options: options, Selected: selected})
	if selected >= 0 && selected < len(options) {
		c.Text = options[selected]
	}
	rects := c.optionRects[:0]
	px, py := x, y
	right := x
	for i, o := range options {
		w, h := u.ButtonSize(o)
		if w > width {
			w = width
			h = math.Max(h, u.Height(o, theme.Body, false, w-u.S(8))+u.S(8))
		}
		if px > x && px+w > x+width {
			px, py = x, py+rowH+gap
		}
		r := draw.Rect{X: px, Y: py, W: w, H: h}
		rects = append(rects, r)
		if i == selected {
			u.Fill(r, u.S(6), u.T.Accent)
			u.Centred(r.Inset(u.S(4)), o, theme.Body, false, u.T.OnAcc)
		} else {
			u.Fill(r, u.S(6), u.T.Card)
			u.outline(r, u.S(6), 1, u.T.Edge)
			u.Centred(r.Inset(u.S(4)), o, theme.Body, false, u.T.Ink)
		}
		px += w + gap
		right = math.Max(right, px-gap)
		rowH = math.Max(u.S(32), h)
	}
	c.optionRects = rects
	c.Rect = draw.Rect{X: x, Y: y, W: right - x, H: py + rowH - y}
	u.ring(id, c.Rect, u.S(6))
	return c.Rect.H
}

// Flow places buttons from left to right in rows of a width. Add calls Button; Height tells how much room they took.
type Flow struct {
	U       *UI
	X, Y, W float64
	px, py  float64
	rowH    float64
	begun   bool
	Tall    float64 // least height of a button; zero for the usual
}

// Next returns the place of a button with that label.
func (f *Flow) Next(label string) draw.Rect {
	u := f.U
	w, h := u.ButtonSize(label)
	if w > f.W {
		w = f.W
		h = math.Max(h, u.Height(label, theme.Body, false, w-u.S(8))+u.S(8))
	}
	if !f.begun {
		f.px, f.py, f.begun = f.X, f.Y, true
	} else if f.px+w > f.X+f.W {
		f.px, f.py, f.rowH = f.X, f.py+f.rowH+u.S(6), 0
	}
	h = math.Max(h, f.Tall)
	r := draw.Rect{X: f.px, Y: f.py, W: w, H: h}
	f.px += w + u.S(6)
	f.rowH = math.Max(f.rowH, h)
	return r
}

// Height returns the height of the rows so far.
func (f *Flow) Height() float64 {
	if !f.begun {
		return 0
	}
	return f.py + f.rowH - f.Y
}

// OptionsHeight is the height Options will take.
func (u *UI) OptionsHeight(width float64, options ...string) float64 {
	rowH, gap := u.S(32), u.S(4)
	px, py := 0.0, 0.0
	for _, o := range options {
		w, h := u.ButtonSize(o)
		if w > width {
			w = width
			h = math.Max(h, u.Height(o, theme.Body, false, w-u.S(8))+u.S(8))
		}
		if px > 0 && px+w > width {
			px, py = 0, py+rowH+gap
		}
		px += w + gap
		rowH = math.Max(u.S(32), h)
	}
	return py + rowH
}

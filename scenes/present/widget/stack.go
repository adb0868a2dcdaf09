package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// Stack draws a choice of a few long texts under each other, a ring before each that is filled where it is chosen, and
// returns its height. size is the type size.
func (u *UI) Stack(id string, x, y, width, size float64, name string, options []string, selected int) float64 {
	c := u.add(Control{ID: id, Kind: Choice, Name: name, Options: options, Selected: selected})
	if selected >= 0 && selected < len(options) {
		c.Text = options[selected]
	}
	rects := c.optionRects[:0]
	py, pad, radius := y, u.S(10), u.S(8)
	text := width - 3*pad - 2*radius
	for i, o := range options {
		h := math.Max(u.Height(o, size, false, text)+u.S(16), u.S(theme.Primary))
		r := draw.Rect{X: x, Y: py, W: width, H: h}
		rects = append(rects, r)
		bg, edge, line := u.T.Card, u.T.Edge, 1.0
		if i == selected {
			bg, edge, line = u.T.Tint, u.T.Accent, u.S(2)
		}
		u.Fill(r, u.S(6), bg)
		u.outline(r, u.S(6), line, edge)
		cx, cy := x+pad+radius, py+h/2
		u.Circle(cx, cy, radius, u.S(2), edge)
		if i == selected {
			u.Disc(cx, cy, u.S(4), u.T.Accent)
		}
		th := u.Height(o, size, false, text)
		u.Para(x+2*pad+2*radius, py+math.Round((h-th)/2), text, o, size, false, u.T.Ink)
		py += h + u.S(6)
	}
	c.optionRects = rects
	c.Rect = draw.Rect{X: x, Y: y, W: width, H: py - y - u.S(6)}
	u.ring(id, c.Rect, u.S(6))
	return py - y
}

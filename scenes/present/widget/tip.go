package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

const tipDelay = 0.5 // s under the pointer before an explanation shows; chosen

// Tip explains a control: a title and lines with a heading each.
type Tip struct {
	Title string
	Rows  []TipRow
}

// TipRow is one line of an explanation.
type TipRow struct{ Head, Text string }

// drawTip draws the explanation of the control under the pointer or with the focus, beside it and inside the screen.
func (u *UI) drawTip() {
	if u.tipID == "" || u.TipFor == nil || u.drag != "" || u.edit.id != "" {
		return
	}
	c := u.find(u.tipID)
	if c == nil {
		return
	}
	tip := u.TipFor(c.ID)
	if tip.Title == "" && len(tip.Rows) == 0 {
		return
	}
	pad := u.S(12)
	w := math.Min(u.S(340), u.Width-u.S(16))
	inner := w - 2*pad
	h := 2*pad + u.Height(tip.Title, theme.Body, true, inner)
	for _, r := range tip.Rows {
		h += u.S(6) + u.Height(r.line(), theme.Small, false, inner)
	}
	visible := c.Rect
	if c.Clip.H > 0 {
		top, bottom := math.Max(c.Rect.Y, c.Clip.Y), math.Min(c.Rect.Y+c.Rect.H, c.Clip.Y+c.Clip.H)
		visible.Y, visible.H = top, math.Max(0, bottom-top)
	}
	gap := u.S(8)
	x, y := visible.X, visible.Y+visible.H+gap
	if y+h > u.Tall {
		y = visible.Y - h - gap
	}
	if y < u.S(8) { // neither below nor above: beside
		y = math.Max(u.S(8), math.Min(visible.Y, u.Tall-h-u.S(8)))
		x = visible.X + visible.W + gap
		if x+w > u.Width {
			x = visible.X - w - gap
		}
	}
	x = math.Max(u.S(8), math.Min(x, u.Width-w-u.S(8)))
	r := draw.Rect{X: x, Y: y, W: w, H: h}
	u.Fill(r, u.S(6), u.T.Card)
	u.outline(r, u.S(6), u.S(1.5), u.T.Edge)
	py := y + pad
	py += u.Para(x+pad, py, inner, tip.Title, theme.Body, true, u.T.Ink)
	for _, row := range tip.Rows {
		py += u.S(6)
		py += u.Para(x+pad, py, inner, row.line(), theme.Small, false, u.T.Ink)
	}
}

func (r TipRow) line() string {
	if r.Head == "" {
		return r.Text
	}
	return r.Head + ": " + r.Text
}

package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

const mostNote = 600 // characters that a note takes

// Note draws a longer text that can be changed by typing, broken to the width, with its name over it, and returns its
// height. Typing works as in a Line; it goes on at the end of what is there.
func (u *UI) Note(id string, x, y, width float64, name, text string) float64 {
	typing := u.edit.id == id
	head := u.Para(x, y, width, name, theme.Small, false, u.T.Soft) + u.S(2)
	edge, shown := u.T.Edge, text
	if typing {
		edge, shown = u.T.Accent, u.edit.text+"|"
	}
	inner := width - u.S(16)
	h := math.Max(u.Height(shown, theme.Body, false, inner), u.LineHeight(theme.Body)) + u.S(14)
	r := draw.Rect{X: x, Y: y + head, W: width, H: h}
	u.add(Control{ID: id, Kind: Line, Rect: r, Name: name, Text: text, Long: true})
	u.Fill(r, u.S(4), u.T.Card)
	u.outline(r, u.S(4), u.S(1), edge)
	u.Para(r.X+u.S(8), r.Y+u.S(7), inner, shown, theme.Body, false, u.T.Ink)
	u.ring(id, r, u.S(4))
	return head + h
}

package desk

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// mark writes the watermark of imported geometry across a picture: large and pale, so that no cut-out of it goes without.
func (d *Desk) mark(r draw.Rect) {
	if !d.S.Case.Patient.Imported {
		return
	}
	u := d.U
	text := d.W().T("imported.mark")
	size := theme.Title * math.Min(2.4, 0.8*r.W/math.Max(u.Wide(text, theme.Title, true), 1))
	h := u.LineHeight(size)
	for _, y := range []float64{r.Y + 0.22*r.H, r.Y + 0.72*r.H} {
		u.Text(draw.Rect{X: r.X, Y: y - h/2, W: r.W, H: h}, text, size, true, draw.Middle, theme.Fade(u.T.Ink, 0.2))
	}
}

// Mark writes the same across a picture that a scene or a figure draws itself.
func (d *Desk) Mark(r draw.Rect) { d.mark(r) }

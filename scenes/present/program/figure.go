package program

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
)

// Figure paints the valve for a slide: the picture with its labels and the sentence that says what was done, no
// controls. The caution belongs to the caption strip that package figure adds.
func (p *Program) Figure(l *draw.List, w, h float64) {
	u := p.d.U
	u.Begin(l, w, h)
	l.Title = p.Description()
	pad := u.S(theme.Grid)
	text := tell.Sentence(p.d.W(), p.d.S)
	y := pad + u.Para(pad, pad, w-2*pad, text, theme.Lead, false, u.T.Ink)
	p.d.Plain(draw.Rect{X: 0, Y: y + pad, W: w, H: h - y - pad})
	u.End()
}

package strip

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// labels keeps the texts of one lane apart; what finds no room is left out.
type labels struct {
	v     *View
	in    draw.Rect
	taken []draw.Rect
}

func (p *labels) put(at draw.Point, dx, dy float64, text string, c draw.Color) {
	u := p.v.d.U
	w, h := u.Wide(text, theme.Small, false)+u.S(6), u.LineHeight(theme.Small)
	for _, k := range []float64{0, 1, 2, 3} {
		for _, sx := range []float64{dx, -1, 1, 0} {
			d := u.S(4) + k*u.S(10)
			box := draw.Rect{X: at.X + sx*(d+w/2) - w/2, Y: at.Y + dy*(d+h/2) - h/2, W: w, H: h}
			if !p.free(box) {
				continue
			}
			p.taken = append(p.taken, box)
			u.Fill(box, u.S(3), theme.Fade(u.T.Paper, 0.85))
			u.Text(box, text, theme.Small, false, draw.Middle, c)
			return
		}
	}
}

func (p *labels) free(b draw.Rect) bool {
	if b.X < p.in.X || b.Y < p.in.Y || b.X+b.W > p.in.X+p.in.W || b.Y+b.H > p.in.Y+p.in.H {
		return false
	}
	for _, t := range p.taken {
		if b.X < t.X+t.W && t.X < b.X+b.W && b.Y < t.Y+t.H && t.Y < b.Y+b.H {
			return false
		}
	}
	return true
}

package valveview

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// placer writes small labels on the cut and keeps them apart.
type placer struct {
	v     *View
	in    draw.Rect
	taken []draw.Rect
}

// fixed writes a label at a corner as far as there is room, and tells whether there was.
func (p *placer) fixed(x, y float64, text string, a draw.Anchor, c draw.Color) bool {
	u := p.v.d.U
	half := p.in.W/2 - u.S(10)
	lines := u.Lines(text, theme.Small, false, half)
	h := u.LineHeight(theme.Small)
	if y+h*float64(len(lines)) > p.in.Y+p.in.H {
		y = p.in.Y + p.in.H - h*float64(len(lines))
	}
	if a == draw.End {
		x -= half
	}
	for i, l := range lines {
		r := draw.Rect{X: x, Y: y + float64(i)*h, W: half, H: h}
		w := u.Wide(l, theme.Small, false)
		box := draw.Rect{X: r.X, Y: r.Y, W: w, H: h}
		if a == draw.End {
			box.X = r.X + r.W - w
		}
		if !p.free(box) {
			return false
		}
		p.taken = append(p.taken, box)
		u.Text(r, l, theme.Small, false, a, c)
	}
	return true
}

// beside writes a label beside a point in a direction, moved on until it is free, or leaves it out and says so.
func (p *placer) beside(at draw.Point, dx, dy float64, text string, c draw.Color) bool {
	u := p.v.d.U
	lines := u.Lines(text, theme.Small, false, p.in.W*0.4)
	lh := u.LineHeight(theme.Small)
	w := 0.0
	for _, l := range lines {
		w = math.Max(w, u.Wide(l, theme.Small, false))
	}
	w, h := w+u.S(4), lh*float64(len(lines))
	n := math.Hypot(dx, dy)
	for k := range 6 {
		d := u.S(6) + float64(k)*u.S(9)
		for _, turn := range [...]float64{0, 0.5, -0.5, 1, -1, 1.7, -1.7} {
			s, co := math.Sincos(turn)
			ex, ey := (dx*co-dy*s)/n, (dx*s+dy*co)/n
			box := draw.Rect{X: at.X + ex*(d+w/2) - w/2, Y: at.Y + ey*(d+h/2) - h/2, W: w, H: h}
			if !p.free(box) {
				continue
			}
			p.taken = append(p.taken, box)
			u.Fill(box, u.S(3), theme.Fade(u.T.Paper, 0.85))
			for i, l := range lines {
				u.Text(draw.Rect{X: box.X, Y: box.Y + float64(i)*lh, W: w, H: lh}, l, theme.Small, false, draw.Middle, c)
			}
			return true
		}
	}
	return false
}

func (p *placer) free(b draw.Rect) bool {
	if b.X < p.in.X || b.Y < p.in.Y || b.X+b.W > p.in.X+p.in.W || b.Y+b.H > p.in.Y+p.in.H {
		return false
	}
	for _, t := range p.taken {
		if b.X < t.X+t.W+1 && t.X < b.X+b.W+1 && b.Y < t.Y+t.H && t.Y < b.Y+b.H {
			return false
		}
	}
	return true
}

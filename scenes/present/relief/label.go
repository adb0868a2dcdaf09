package relief

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"

	"gonum.org/v1/gonum/spatial/r3"
)

// Mark is a label for a place. It is put beside the place in the direction Out, moved on until it is free; Lead draws a
// line to the place. A mark that finds no room is left out.
type Mark struct {
	Text  string
	At    r3.Vec
	Out   draw.Point // direction on the picture; zero: on the place itself
	Turn  float64    // how far from Out it may be turned, degrees; 0: any
	Gap   float64    // logical pixels at 100 % between place and label
	Lead  bool
	Bold  bool
	Size  float64 // 0: theme.Small
	Color draw.Color
}

// Placer keeps the room taken by labels in one picture.
type Placer struct {
	U     *widget.UI
	In    draw.Rect
	Cam   draw.Camera
	Taken []draw.Rect

	labels []label
}

type label struct {
	Mark
	size  float64
	at    draw.Point
	box   draw.Rect
	lines []string
	lh    float64
}

// Reset starts a picture.
func (p *Placer) Reset(u *widget.UI, in draw.Rect, cam draw.Camera) {
	p.U, p.In, p.Cam, p.Taken = u, in, cam, p.Taken[:0]
	p.labels = p.labels[:0]
}

// Block keeps labels away from a rectangle.
func (p *Placer) Block(r draw.Rect) { p.Taken = append(p.Taken, r) }

// turns are the directions tried, in degrees from Out.
var turns = [...]float64{0, 25, -25, 50, -50, 90, -90, 140, -140}

// Place finds room for a label, to be drawn by Draw, or tells that there was no room.
func (p *Placer) Place(m Mark) bool {
	u := p.U
	size := m.Size
	if size == 0 {
		size = theme.Small
	}
	most := u.S(120)
	lines := u.Lines(m.Text, size, m.Bold, most)
	w, lh := 0.0, u.LineHeight(size)-u.S(1)
	for _, l := range lines {
		w = math.Max(w, u.Wide(l, size, m.Bold))
	}
	w, h := w+u.S(8), lh*float64(len(lines))+u.S(2)
	at, _ := p.Cam.Project(p.In, m.At)
	length := math.Hypot(m.Out.X, m.Out.Y)
	tries, dirs := 5, len(turns)
	if length == 0 {
		tries, dirs = 1, 1
	}
	for k := range tries {
		for _, turn := range turns[:dirs] {
			if m.Turn > 0 && math.Abs(turn) > m.Turn {
				continue
			}
			box := draw.Rect{X: at.X - w/2, Y: at.Y - h/2, W: w, H: h}
			if length > 0 {
				s, c := math.Sincos(turn * math.Pi / 180)
				dx, dy := (m.Out.X*c-m.Out.Y*s)/length, (m.Out.X*s+m.Out.Y*c)/length
				d := u.S(m.Gap) + float64(k)*u.S(12)
				box.X += dx * (d + w/2)
				box.Y += dy * (d + h/2)
			}
			if !p.free(box) {
				continue
			}
			p.Taken = append(p.Taken, box)
			p.labels = append(p.labels, label{m, size, at, box, lines, lh})
			return true
		}
	}
	return false
}

// Draw draws the labels, their lines first.
func (p *Placer) Draw() {
	u := p.U
	for _, l := range p.labels {
		if l.Lead {
			u.List.Line(l.Color, u.S(1), l.at, nearest(l.box, l.at))
		}
	}
	for _, l := range p.labels {
		u.Fill(l.box, u.S(4), theme.Fade(u.T.Card, 0.9))
		for i, line := range l.lines {
			u.Text(draw.Rect{X: l.box.X, Y: l.box.Y + u.S(1) + float64(i)*l.lh, W: l.box.W, H: l.lh}, line, l.size, l.Bold, draw.Middle, l.Color)
		}
	}
}

func (p *Placer) free(b draw.Rect) bool {
	if b.X < p.In.X+2 || b.Y < p.In.Y+2 || b.X+b.W > p.In.X+p.In.W-2 || b.Y+b.H > p.In.Y+p.In.H-2 {
		return false
	}
	for _, t := range p.Taken {
		if b.X < t.X+t.W+2 && t.X < b.X+b.W+2 && b.Y < t.Y+t.H+1 && t.Y < b.Y+b.H+1 {
			return false
		}
	}
	return true
}

func nearest(b draw.Rect, p draw.Point) draw.Point {
	return draw.Point{X: math.Min(math.Max(p.X, b.X), b.X+b.W), Y: math.Min(math.Max(p.Y, b.Y), b.Y+b.H)}
}

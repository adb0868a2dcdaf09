package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
)

const cornerSteps = 5 // pieces of a quarter circle at least

func (u *UI) roundPath(r draw.Rect, radius float64) []draw.Point {
	radius = math.Min(radius, math.Min(r.W, r.H)/2)
	u.pts = u.pts[:0]
	steps := max(cornerSteps, int(1.6*math.Sqrt(radius))) // large circles stay round
	centres := [4]draw.Point{{X: r.X + r.W - radius, Y: r.Y + radius}, {X: r.X + r.W - radius, Y: r.Y + r.H - radius},
		{X: r.X + radius, Y: r.Y + r.H - radius}, {X: r.X + radius, Y: r.Y + radius}}
	for k, c := range centres {
		for i := 0; i <= steps; i++ {
			s, co := math.Sincos(float64(k-1)*math.Pi/2 + float64(i)*math.Pi/2/float64(steps))
			u.pts = append(u.pts, draw.Point{X: c.X + radius*co, Y: c.Y + radius*s})
		}
	}
	return u.pts
}

// Fill fills a rectangle with round corners.
func (u *UI) Fill(r draw.Rect, radius float64, c draw.Color) {
	if radius <= 0 {
		u.List.FillRect(r, c)
		return
	}
	u.List.Fill(c, u.roundPath(r, radius)...)
}

func (u *UI) outline(r draw.Rect, radius, width float64, c draw.Color) {
	u.List.Loop(c, width, u.roundPath(r.Inset(width/2), radius)...)
}

// Outline strokes the inside edge of a rectangle with round corners.
func (u *UI) Outline(r draw.Rect, radius, width float64, c draw.Color) {
	u.outline(r, radius, width, c)
}

// Disc fills a circle.
func (u *UI) Disc(x, y, radius float64, c draw.Color) {
	u.Fill(draw.Rect{X: x - radius, Y: y - radius, W: 2 * radius, H: 2 * radius}, radius, c)
}

// Circle strokes a circle, its line inside.
func (u *UI) Circle(x, y, radius, width float64, c draw.Color) {
	u.outline(draw.Rect{X: x - radius, Y: y - radius, W: 2 * radius, H: 2 * radius}, radius, width, c)
}

// Rule draws a hairline across.
func (u *UI) Rule(x, y, w float64) { u.List.FillRect(draw.Rect{X: x, Y: y, W: w, H: 1}, u.T.Rule) }

// Card fills a panel's background.
func (u *UI) Card(r draw.Rect) {
	u.Fill(r, u.S(8), u.T.Card)
	u.outline(r, u.S(8), 1, u.T.Rule)
}

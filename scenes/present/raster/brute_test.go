package raster_test

import (
	"math"
	"testing"

	"annuloscope/scenes/present/draw"
)

// away is the distance of x, y from the polyline, measured to its segments: within half the width of it lies a stroke
// with round joins (and round ends, which a closed one has not).
func away(x, y float64, pts []draw.Point) float64 {
	best := math.Inf(1)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := min(max(((x-a.X)*dx+(y-a.Y)*dy)/(dx*dx+dy*dy), 0), 1)
		best = min(best, math.Hypot(x-a.X-t*dx, y-a.Y-t*dy))
	}
	return best
}

// Brute force: 16×16 samples a pixel against the painted cover, for a narrow ellipse and a star with sharp corners.
func TestStrokePixelByPixel(t *testing.T) {
	ellipse := regular(80, 0, 0, 1, 0)
	for i, q := range ellipse {
		ellipse[i] = draw.Point{X: 60 + 50*q.X, Y: 40 + 30*q.Y}
	}
	star := regular(10, 60, 40, 1, 0.1)
	for i, q := range star {
		r := 35.0
		if i%2 == 1 {
			r = 14
		}
		star[i] = draw.Point{X: 60 + r*(q.X-60), Y: 40 + r*(q.Y-40)}
	}
	for _, c := range []struct {
		name         string
		pts          []draw.Point
		worst, usual float64 // cover, 0 to 1
	}{
		// Gently bent: corners are shared, so only the 16×16 grid (1/32 along an edge) and rounding differ.
		{"ellipse", ellipse, 0.06, 0.002},
		// Sharp: where two arms' edges cross inside a pixel their covers add up (doc.go).
		{"star", star, 0.30, 0.002},
	} {
		const width, n = 5.0, 16
		m := paint(120, 80, 1, white, func(l *draw.List) { l.Loop(black, width, c.pts...) })
		worst, sum := 0.0, 0.0
		for y := range 80 {
			for x := range 120 {
				in := 0
				middle := away(float64(x)+0.5, float64(y)+0.5, c.pts)
				for k := range n * n {
					if math.Abs(middle-width/2) > 1 { // the whole pixel lies on one side
						if middle < width/2 {
							in++
						}
						continue
					}
					if away(float64(x)+(float64(k%n)+0.5)/n, float64(y)+(float64(k/n)+0.5)/n, c.pts) <= width/2 {
						in++
					}
				}
				d := math.Abs(float64(in)/(n*n) - float64(255-m.RGBAAt(x, y).R)/255)
				worst, sum = max(worst, d), sum+d
			}
		}
		t.Logf("%s: worst cover error %.3f, mean %.5f", c.name, worst, sum/(120*80))
		if worst > c.worst || sum/(120*80) > c.usual {
			t.Errorf("%s: worst cover error %.3f, mean %.5f", c.name, worst, sum/(120*80))
		}
	}
}

package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Crossing is a place where two segments of one curve, seen along a direction, cross.
type Crossing struct {
	SegmentA, SegmentB int     // segment i runs from point i to point i+1
	GapMM              float64 // distance along the direction between the two segments there; 0 for a true crossing
	Point              r3.Vec  // on segment A
}

// SelfCrossings finds where a polyline crosses itself when projected along direction (not zero). Neighbouring segments
// do not count. The cost is the square of the number of points.
func SelfCrossings(points []r3.Vec, closed bool, direction r3.Vec) []Crossing {
	n := len(points)
	if n < 4 {
		return nil
	}
	plane := Plane{Normal: r3.Unit(direction)}
	u, v := plane.Axes(r3.Vec{X: 1})
	x, y := make([]float64, n), make([]float64, n)
	for i, p := range points {
		x[i], y[i] = r3.Dot(p, u), r3.Dot(p, v)
	}
	var out []Crossing
	segs := segments(points, closed)
	for i := range segs {
		i1 := (i + 1) % n
		for j := i + 2; j < segs; j++ {
			if closed && i == 0 && j == segs-1 {
				continue
			}
			j1 := (j + 1) % n
			if math.Max(x[i], x[i1]) < math.Min(x[j], x[j1]) || math.Max(x[j], x[j1]) < math.Min(x[i], x[i1]) {
				continue
			}
			s, t, ok := crossParameters(x[i], y[i], x[i1], y[i1], x[j], y[j], x[j1], y[j1])
			if !ok {
				continue
			}
			p := r3.Add(points[i], r3.Scale(s, r3.Sub(points[i1], points[i])))
			q := r3.Add(points[j], r3.Scale(t, r3.Sub(points[j1], points[j])))
			out = append(out, Crossing{SegmentA: i, SegmentB: j, GapMM: math.Abs(r3.Dot(plane.Normal, r3.Sub(p, q))), Point: p})
		}
	}
	return out
}

// crossParameters returns where the segments a-b and c-d of the plane cross, as shares of their lengths; touching counts,
// parallel segments do not.
func crossParameters(ax, ay, bx, by, cx, cy, dx, dy float64) (s, t float64, ok bool) {
	ux, uy, vx, vy := bx-ax, by-ay, dx-cx, dy-cy
	det := ux*vy - uy*vx
	if det == 0 {
		return 0, 0, false
	}
	wx, wy := cx-ax, cy-ay
	s, t = (wx*vy-wy*vx)/det, (wx*uy-wy*ux)/det
	return s, t, s >= 0 && s <= 1 && t >= 0 && t <= 1
}

package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Nearest is the place where a polyline comes nearest to a point.
type Nearest struct {
	DistanceMM float64
	At         r3.Vec
	ArcMM      float64 // along the polyline from its first point
}

// NearestOnCurve returns the point of a polyline nearest to p. It panics on fewer than
// two points. No allocation.
func NearestOnCurve(points []r3.Vec, closed bool, p r3.Vec) Nearest {
	if len(points) < 2 {
		panic("geometry: NearestOnCurve needs at least 2 points")
	}
	best, at, share := math.Inf(1), 0, 0.0
	for i := range segments(points, closed) {
		a, b := points[i], points[(i+1)%len(points)]
		d, e := r3.Sub(b, a), r3.Sub(p, a)
		f := 0.0
		if l2 := r3.Norm2(d); l2 > 0 {
			f = math.Min(math.Max(r3.Dot(e, d)/l2, 0), 1)
		}
		if dist := r3.Norm2(r3.Sub(e, r3.Scale(f, d))); dist < best {
			best, at, share = dist, i, f
		}
	}
	d := r3.Sub(points[(at+1)%len(points)], points[at])
	return Nearest{
		DistanceMM: math.Sqrt(best), At: r3.Add(points[at], r3.Scale(share, d)),
		ArcMM: Length(points[:at+1]) + share*r3.Norm(d),
	}
}

func segments(points []r3.Vec, closed bool) int {
	if closed {
		return len(points)
	}
	return len(points) - 1
}

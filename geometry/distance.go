package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Nearest is the place where two curves, or a curve and a point, come nearest.
type Nearest struct {
	DistanceMM float64
	A, B       r3.Vec  // the two points
	ArcA, ArcB float64 // mm along each polyline from its first point; 0 for a single point
}

// NearestOnCurve returns the point of a polyline nearest to p as B, with its arc length; A is p. It panics on fewer than
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
		DistanceMM: math.Sqrt(best), A: p, B: r3.Add(points[at], r3.Scale(share, d)),
		ArcB: Length(points[:at+1]) + share*r3.Norm(d),
	}
}

func segments(points []r3.Vec, closed bool) int {
	if closed {
		return len(points)
	}
	return len(points) - 1
}

// MinDistance returns where two polylines come nearest: exact for the polylines, by all pairs of segments. No
// allocation. It panics on fewer than two points in either.
func MinDistance(a []r3.Vec, closedA bool, b []r3.Vec, closedB bool) Nearest {
	if len(a) < 2 || len(b) < 2 {
		panic("geometry: MinDistance needs at least 2 points in each curve")
	}
	longest := longestSegment(a, closedA) + longestSegment(b, closedB)
	best := Nearest{DistanceMM: math.Inf(1)}
	var atA, atB int
	reach := math.Inf(1) // squared distance of first points beyond which two segments cannot be nearer than the best
	for i := range segments(a, closedA) {
		a0, a1 := a[i], a[(i+1)%len(a)]
		for j := range segments(b, closedB) {
			b0 := b[j]
			if r3.Norm2(r3.Sub(a0, b0)) > reach {
				continue
			}
			b1 := b[(j+1)%len(b)]
			s, t := nearestSegments(a0, a1, b0, b1)
			p, q := r3.Add(a0, r3.Scale(s, r3.Sub(a1, a0))), r3.Add(b0, r3.Scale(t, r3.Sub(b1, b0)))
			if d := r3.Norm(r3.Sub(p, q)); d < best.DistanceMM {
				best = Nearest{DistanceMM: d, A: p, B: q}
				atA, atB = i, j
				reach = (d + longest) * (d + longest)
			}
		}
	}
	best.ArcA = Length(a[:atA+1]) + r3.Norm(r3.Sub(best.A, a[atA]))
	best.ArcB = Length(b[:atB+1]) + r3.Norm(r3.Sub(best.B, b[atB]))
	return best
}

func longestSegment(points []r3.Vec, closed bool) float64 {
	longest := 0.0
	for i := range segments(points, closed) {
		longest = math.Max(longest, r3.Norm2(r3.Sub(points[(i+1)%len(points)], points[i])))
	}
	return math.Sqrt(longest)
}

// nearestSegments returns the parameters in [0, 1] of the nearest points of two segments. The unconstrained optimum is
// clamped on one segment, then the other is solved again (the distance is a convex quadratic of two parameters).
func nearestSegments(a0, a1, b0, b1 r3.Vec) (s, t float64) {
	u, v, w := r3.Sub(a1, a0), r3.Sub(b1, b0), r3.Sub(a0, b0)
	uu, vv, uv, uw, vw := r3.Dot(u, u), r3.Dot(v, v), r3.Dot(u, v), r3.Dot(u, w), r3.Dot(v, w)
	clamp := func(x float64) float64 { return math.Min(math.Max(x, 0), 1) }
	if uu == 0 {
		if vv > 0 {
			t = clamp(vw / vv)
		}
		return 0, t
	}
	if vv == 0 {
		return clamp(-uw / uu), 0
	}
	if det := uu*vv - uv*uv; det > 1e-14*uu*vv {
		s = clamp((uv*vw - vv*uw) / det)
	}
	t = (uv*s + vw) / vv
	if t < 0 || t > 1 {
		t = clamp(t)
		s = clamp((uv*t - uw) / uu)
	}
	return s, t
}

// Footprint is a polyline seen from a closed curve.
type Footprint struct {
	ArcMM      []float64 // per point: arc length of the nearest place on the curve, continuous (may leave [0, perimeter))
	DistanceMM []float64 // per point: distance to it
	FromMM     float64   // lowest ArcMM
	ToMM       float64   // highest ArcMM
	Coverage   float64   // (ToMM − FromMM) / perimeter, at most 1
}

// ProjectOnCurve finds for each point of a polyline the nearest place on a closed curve. Consecutive arc positions are
// unwrapped the short way round, so that a polyline passing the curve's first point counts once.
func ProjectOnCurve(polyline, curve []r3.Vec) Footprint {
	f := Footprint{ArcMM: make([]float64, len(polyline)), DistanceMM: make([]float64, len(polyline)), FromMM: math.Inf(1), ToMM: math.Inf(-1)}
	perimeter := Perimeter(curve)
	for i, p := range polyline {
		n := NearestOnCurve(curve, true, p)
		s := n.ArcB
		if i > 0 {
			s = f.ArcMM[i-1] + math.Remainder(s-f.ArcMM[i-1], perimeter)
		}
		f.ArcMM[i], f.DistanceMM[i] = s, n.DistanceMM
		f.FromMM, f.ToMM = math.Min(f.FromMM, s), math.Max(f.ToMM, s)
	}
	if len(polyline) > 0 {
		f.Coverage = math.Min((f.ToMM-f.FromMM)/perimeter, 1)
	}
	return f
}

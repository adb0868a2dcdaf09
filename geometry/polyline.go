package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Length returns the length in mm of an open polyline; 0 for fewer than two points.
func Length(points []r3.Vec) float64 {
	sum := 0.0
	for i := 1; i < len(points); i++ {
		sum += r3.Norm(r3.Sub(points[i], points[i-1]))
	}
	return sum
}

// Perimeter returns the length in mm of a closed polyline, closing segment included.
func Perimeter(curve []r3.Vec) float64 {
	if len(curve) < 2 {
		return 0
	}
	return Length(curve) + r3.Norm(r3.Sub(curve[0], curve[len(curve)-1]))
}

// AreaVector returns ½ Σ pᵢ × pᵢ₊₁ in mm²: the vector whose component along a unit normal is the signed projected area,
// positive when the curve runs counter-clockwise seen from the tip of the normal. It does not depend on the origin.
func AreaVector(curve []r3.Vec) r3.Vec {
	var sum r3.Vec
	if len(curve) < 3 {
		return sum
	}
	o := curve[0]
	prev := r3.Sub(curve[1], o)
	for _, p := range curve[2:] {
		d := r3.Sub(p, o)
		sum = r3.Add(sum, r3.Cross(prev, d))
		prev = d
	}
	return r3.Scale(0.5, sum)
}

// ProjectedArea returns the absolute area in mm² of the closed curve projected along normal (any length, not zero).
func ProjectedArea(curve []r3.Vec, normal r3.Vec) float64 {
	return math.Abs(r3.Dot(AreaVector(curve), r3.Unit(normal)))
}

// PlanarArea returns the signed area in mm² of a polygon in the plane given by its coordinates (planimetry), positive
// when counter-clockwise. The slices must have the same length.
func PlanarArea(x, y []float64) float64 {
	if len(x) != len(y) {
		panic("geometry: PlanarArea needs as many x as y")
	}
	sum := 0.0
	for i := range x {
		j := i + 1
		if j == len(x) {
			j = 0
		}
		sum += (x[i]-x[0])*(y[j]-y[0]) - (x[j]-x[0])*(y[i]-y[0])
	}
	return sum / 2
}

// Cumulative fills dst[i] with the arc length from the first point to point i and returns the total: of the closed curve
// (closing segment included) if closed, else of the polyline. len(dst) must equal len(points). No allocation.
func Cumulative(dst []float64, points []r3.Vec, closed bool) float64 {
	if len(dst) != len(points) || len(points) == 0 {
		panic("geometry: Cumulative needs a destination as long as the points, and at least one point")
	}
	dst[0] = 0
	for i := 1; i < len(points); i++ {
		dst[i] = dst[i-1] + r3.Norm(r3.Sub(points[i], points[i-1]))
	}
	total := dst[len(dst)-1]
	if closed {
		total += r3.Norm(r3.Sub(points[0], points[len(points)-1]))
	}
	return total
}

// Resample fills dst with points equally spaced by arc length along the polyline, starting at its first point. A closed
// curve is divided into len(dst) equal parts, an open one into len(dst)−1 so that both ends are kept. It interpolates
// linearly, allocates nothing and returns dst.
func Resample(dst, points []r3.Vec, closed bool) []r3.Vec {
	if len(dst) < 2 || len(points) < 2 {
		panic("geometry: Resample needs at least two points on both sides")
	}
	total, parts := Length(points), len(dst)-1
	if closed {
		total, parts = Perimeter(points), len(dst)
	}
	seg, start := 0, 0.0
	a, b := points[0], points[1]
	l := r3.Norm(r3.Sub(b, a))
	last := len(points) - 2
	if closed {
		last = len(points) - 1
	}
	for i := range dst {
		s := total * float64(i) / float64(parts)
		for s > start+l && seg < last {
			start += l
			seg++
			a, b = b, points[(seg+1)%len(points)]
			l = r3.Norm(r3.Sub(b, a))
		}
		f := 0.0
		if l > 0 {
			f = math.Min((s-start)/l, 1)
		}
		dst[i] = r3.Add(a, r3.Scale(f, r3.Sub(b, a)))
	}
	return dst
}

// Reverse returns the points in the opposite order, in a new slice.
func Reverse(points []r3.Vec) []r3.Vec {
	out := make([]r3.Vec, len(points))
	for i, p := range points {
		out[len(points)-1-i] = p
	}
	return out
}

// MirrorX returns the curve mirrored at x = 0 (posteromedial and anterolateral exchanged) and reversed, so that a closed
// curve keeps running counter-clockwise; the first point stays first.
func MirrorX(points []r3.Vec) []r3.Vec {
	out := make([]r3.Vec, len(points))
	for i, p := range points {
		out[(len(points)-i)%len(points)] = r3.Vec{X: -p.X, Y: p.Y, Z: p.Z}
	}
	return out
}

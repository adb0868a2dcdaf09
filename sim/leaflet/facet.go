package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// facet is a triangle at its present place, prepared for many questions about what is near it.
type facet struct {
	a, n r3.Vec     // first corner; unit normal
	b, c r3.Vec     // (x−a)·b and (x−a)·c are the barycentric weights of the second and third corner below x
	high [3]float64 // height of each corner over the side opposite to it
}

// ball encloses a triangle.
type ball struct{ x, y, z, r float64 }

func (b *ball) from(p r3.Vec) float64 {
	x, y, z := p.X-b.x, p.Y-b.y, p.Z-b.z
	return x*x + y*y + z*z
}

// facets brings facets and balls to the present place of the triangles and returns the largest radius of a ball.
func (c *contact) facets(s *sheet) float64 {
	largest, longest := 0.0, 0.0
	for t, v := range s.tris {
		a := s.x[v[0]]
		e, g := r3.Sub(s.x[v[1]], a), r3.Sub(s.x[v[2]], a)
		n := r3.Vec{X: e.Y*g.Z - e.Z*g.Y, Y: e.Z*g.X - e.X*g.Z, Z: e.X*g.Y - e.Y*g.X}
		n2 := max(n.X*n.X+n.Y*n.Y+n.Z*n.Z, 1e-300)
		inv := 1 / n2
		// In the plane, b is orthogonal to the third corner's side and c to the second's: b = g×n/|n|², c = n×e/|n|².
		b := r3.Vec{X: (g.Y*n.Z - g.Z*n.Y) * inv, Y: (g.Z*n.X - g.X*n.Z) * inv, Z: (g.X*n.Y - g.Y*n.X) * inv}
		w := r3.Vec{X: (n.Y*e.Z - n.Z*e.Y) * inv, Y: (n.Z*e.X - n.X*e.Z) * inv, Z: (n.X*e.Y - n.Y*e.X) * inv}
		twice := math.Sqrt(n2)
		ee, gg := e.X*e.X+e.Y*e.Y+e.Z*e.Z, g.X*g.X+g.Y*g.Y+g.Z*g.Z
		eg := e.X*g.X + e.Y*g.Y + e.Z*g.Z
		oo := max(ee+gg-2*eg, 1e-300) // side opposite to a, squared
		c.facet[t] = facet{a: a, n: r3.Scale(1/twice, n), b: b, c: w,
			high: [3]float64{twice / math.Sqrt(oo), twice / math.Sqrt(max(gg, 1e-300)), twice / math.Sqrt(max(ee, 1e-300))}}
		// Squared distances from the centroid to the corners.
		far := math.Sqrt(max(ee+gg+2*eg, 4*ee+gg-4*eg, 4*gg+ee-4*eg)) / 3
		c.ball[t] = ball{a.X + (e.X+g.X)/3, a.Y + (e.Y+g.Y)/3, a.Z + (e.Z+g.Z)/3, far}
		largest = max(largest, far)
		longest = max(longest, ee, gg, oo)
	}
	c.longest = math.Sqrt(longest)
	return largest
}

// at looks for the point of triangle t closest to x. When it may be nearer than lim it puts the touch into h and returns
// its distance, else something not below lim.
func (c *contact) at(s *sheet, x r3.Vec, t int32, lim float64, h *touch) float64 {
	f := &c.facet[t]
	up := f.above(x)
	if up >= lim || -up >= lim {
		return lim
	}
	w1, w2 := f.weights(x)
	w0 := 1 - w1 - w2
	off := max(-w0*f.high[0], -w1*f.high[1], -w2*f.high[2])
	if off <= 0 {
		h.tri, h.w = t, [3]float64{w0, w1, w2}
		switch {
		case up > closestMM:
			h.n, h.d = f.n, up
		case up < -closestMM:
			h.n, h.d = r3.Vec{X: -f.n.X, Y: -f.n.Y, Z: -f.n.Z}, -up
		default:
			h.n, h.d = r3.Vec{}, math.Abs(up) // on the triangle there is no telling which side it belongs to: no push
		}
		return h.d
	}
	if off*off+up*up >= lim*lim {
		return lim
	}
	return h.improve(s, x, t, lim)
}

// above is the height of x over the plane of the triangle.
func (f *facet) above(x r3.Vec) float64 {
	return (x.X-f.a.X)*f.n.X + (x.Y-f.a.Y)*f.n.Y + (x.Z-f.a.Z)*f.n.Z
}

// weights are the barycentric weights of the second and third corner at the point of the plane below x.
func (f *facet) weights(x r3.Vec) (w1, w2 float64) {
	px, py, pz := x.X-f.a.X, x.Y-f.a.Y, x.Z-f.a.Z
	return px*f.b.X + py*f.b.Y + pz*f.b.Z, px*f.c.X + py*f.c.Y + pz*f.c.Z
}

// bound is a distance that x is surely not nearer to triangle t.
func (f *facet) bound(x r3.Vec) float64 {
	up := f.above(x)
	w1, w2 := f.weights(x)
	off := max(0, (w1+w2-1)*f.high[0], -w1*f.high[1], -w2*f.high[2])
	return math.Sqrt(up*up + off*off)
}

// improve takes triangle t for the touch when it is closer to x than best, and returns the new best distance.
func (h *touch) improve(s *sheet, x r3.Vec, t int32, best float64) float64 {
	tri := &s.tris[t]
	q, w := closestPoint(x, s.x[tri[0]], s.x[tri[1]], s.x[tri[2]])
	n := r3.Sub(x, q)
	d2 := n.X*n.X + n.Y*n.Y + n.Z*n.Z
	if d2 >= best*best {
		return best
	}
	d := math.Sqrt(d2)
	h.tri, h.w, h.d = t, w, d
	h.n = r3.Scale(1/max(d, closestMM), n)
	return d
}

// closestPoint returns the point of triangle abc closest to p and its barycentric weights
// (C. Ericson, Real-Time Collision Detection, 2005, section 5.1.5; from memory).
func closestPoint(p, a, b, c r3.Vec) (q r3.Vec, w [3]float64) {
	ab, ac, ap := r3.Sub(b, a), r3.Sub(c, a), r3.Sub(p, a)
	d1, d2 := r3.Dot(ab, ap), r3.Dot(ac, ap)
	if d1 <= 0 && d2 <= 0 {
		return a, [3]float64{1, 0, 0}
	}
	bp := r3.Sub(p, b)
	d3, d4 := r3.Dot(ab, bp), r3.Dot(ac, bp)
	if d3 >= 0 && d4 <= d3 {
		return b, [3]float64{0, 1, 0}
	}
	vc := d1*d4 - d3*d2
	if vc <= 0 && d1 >= 0 && d3 <= 0 {
		t := d1 / (d1 - d3)
		return r3.Add(a, r3.Scale(t, ab)), [3]float64{1 - t, t, 0}
	}
	cp := r3.Sub(p, c)
	d5, d6 := r3.Dot(ab, cp), r3.Dot(ac, cp)
	if d6 >= 0 && d5 <= d6 {
		return c, [3]float64{0, 0, 1}
	}
	vb := d5*d2 - d1*d6
	if vb <= 0 && d2 >= 0 && d6 <= 0 {
		t := d2 / (d2 - d6)
		return r3.Add(a, r3.Scale(t, ac)), [3]float64{1 - t, 0, t}
	}
	va := d3*d6 - d5*d4
	if va <= 0 && d4-d3 >= 0 && d5-d6 >= 0 {
		t := (d4 - d3) / ((d4 - d3) + (d5 - d6))
		return r3.Add(b, r3.Scale(t, r3.Sub(c, b))), [3]float64{0, 1 - t, t}
	}
	d := 1 / (va + vb + vc)
	t, u := vb*d, vc*d
	return r3.Add(a, r3.Add(r3.Scale(t, ab), r3.Scale(u, ac))), [3]float64{1 - t - u, t, u}
}

package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Tube is a vessel: a centreline with a radius at each point, round or oval.
type Tube struct {
	Centre []r3.Vec  // mm, at least 2 points
	Radius []float64 // mm, one per point: the half-width along Up for an oval tube
	Second []float64 // mm, one per point: the half-width across Up; nil means round
	Up     r3.Vec    // direction the first half-width keeps near to; zero means +z
}

// RoundTube returns a tube of one radius.
func RoundTube(centre []r3.Vec, radiusMM float64) Tube {
	return Tube{Centre: centre, Radius: fill(make([]float64, len(centre)), radiusMM)}
}

// Frame is an orthonormal triad on a centreline: U × V = T.
type Frame struct {
	T, U, V r3.Vec // unit: tangent, the direction nearest to up, and the third
}

// Frames returns one frame per centreline point. U is ±Up made perpendicular to the tangent where they are well apart (+Up
// at the start) and carried along by the smallest rotation elsewhere, so that it never turns suddenly.
func (t Tube) Frames() []Frame {
	n := len(t.Centre)
	if n < 2 {
		panic("geometry: a tube needs at least 2 centreline points")
	}
	up := t.Up
	if up == (r3.Vec{}) {
		up = r3.Vec{Z: 1}
	}
	up = r3.Unit(up)
	out := make([]Frame, n)
	var u r3.Vec
	for i := range out {
		a, b := t.Centre[max(i-1, 0)], t.Centre[min(i+1, n-1)]
		tan := r3.Sub(b, a)
		if r3.Norm(tan) == 0 {
			tan = r3.Vec{X: 1}
			if i > 0 {
				tan = out[i-1].T
			}
		}
		tan = r3.Unit(tan)
		across := r3.Sub(up, r3.Scale(r3.Dot(up, tan), tan))
		l := r3.Norm(across)
		if i == 0 {
			u = perpendicular(tan)
		} else {
			u = transport(u, out[i-1].T, tan)
			if r3.Dot(across, u) < 0 { // a tube that turned through Up goes on with −Up
				across = r3.Scale(-1, across)
			}
		}
		// Blend from carried (up within 15° of the tangent) to aligned (beyond 30°); both angles chosen.
		w := math.Min(math.Max((l-0.26)/(0.5-0.26), 0), 1)
		if w > 0 {
			if i == 0 || w == 1 {
				u = across
			} else {
				u = r3.Add(r3.Scale(1-w, u), r3.Scale(w/l, across))
			}
		}
		u = r3.Sub(u, r3.Scale(r3.Dot(u, tan), tan))
		if r3.Norm(u) < 1e-9 {
			u = perpendicular(tan)
		}
		u = r3.Unit(u)
		out[i] = Frame{T: tan, U: u, V: r3.Cross(tan, u)}
	}
	return out
}

// transport turns u by the smallest rotation that takes the unit vector a to the unit vector b.
func transport(u, a, b r3.Vec) r3.Vec {
	axis := r3.Cross(a, b)
	c := r3.Dot(a, b)
	if c < -1+1e-12 {
		return u
	}
	return r3.Add(r3.Add(r3.Scale(c, u), r3.Cross(axis, u)), r3.Scale(r3.Dot(axis, u)/(1+c), axis))
}

// HalfWidths returns the two half-widths at point i, along and across Up.
func (t Tube) HalfWidths(i int) (along, across float64) {
	if t.Second == nil {
		return t.Radius[i], t.Radius[i]
	}
	return t.Radius[i], t.Second[i]
}

// Mesh returns the surface with around ≥ 3 vertices per ring, looking outward, closed by flat ends when capped.
// Vertex i·around + j lies on ring i at the angle 2πj/around from U. Field "station" is the arc length in mm.
func (t Tube) Mesh(around int, capped bool) *Mesh {
	n := len(t.Centre)
	if n < 2 || around < 3 || len(t.Radius) != n || (t.Second != nil && len(t.Second) != n) {
		panic("geometry: Tube.Mesh needs 2 or more points, one radius each, and 3 or more vertices around")
	}
	m := &Mesh{Vertices: make([]r3.Vec, 0, n*around+2)}
	station := make([]float64, 0, n*around+2)
	s := 0.0
	for i, f := range t.Frames() {
		if i > 0 {
			s += r3.Norm(r3.Sub(t.Centre[i], t.Centre[i-1]))
		}
		a, b := t.HalfWidths(i)
		for j := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(j) / float64(around))
			m.Vertices = append(m.Vertices, r3.Add(t.Centre[i], r3.Add(r3.Scale(a*cos, f.U), r3.Scale(b*sin, f.V))))
			station = append(station, s)
		}
	}
	m.Faces = gridFaces(n, around, false, true)
	for i, f := range m.Faces { // the grid runs along then around: its front is inside
		m.Faces[i] = [3]int32{f[0], f[2], f[1]}
	}
	if capped {
		first, last := int32(len(m.Vertices)), int32(len(m.Vertices)+1)
		m.Vertices = append(m.Vertices, t.Centre[0], t.Centre[n-1])
		station = append(station, 0, s)
		for j := range around {
			k := (j + 1) % around
			m.Faces = append(m.Faces, [3]int32{first, int32(k), int32(j)})
			base := (n - 1) * around
			m.Faces = append(m.Faces, [3]int32{last, int32(base + j), int32(base + k)})
		}
	}
	m.Fields = []Field{{"station", "mm", station}}
	return m
}

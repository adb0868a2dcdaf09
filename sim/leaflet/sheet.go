package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"annuloscope/sim/leaflet/sparse"
)

// sheet is a triangulated shell with its loads, whatever its shape: the leaflets, and the strips and discs of the
// tests. Vertices 0 to fixed−1 do not move. Blocks of the matrix belong to free vertices, in order.
type sheet struct {
	fixed    int
	rest     []r3.Vec
	x        []r3.Vec
	area     []float64 // rest area per vertex
	tris     [][3]int32
	edges    [][2]int32 // every edge once
	elements []element
	hinges   []hinge
	chords   []chord
	springs  []spring
	contact  contact
	pressure float64 // N/mm², on the side the triangle normals point away from
	law      law

	force  []r3.Vec // −gradient of the energy plus pressure, every vertex
	matrix *sparse.Matrix
}

// element is one constant-strain triangle.
type element struct {
	v     [3]int32
	area  float64       // rest
	g     [4][3]float64 // fibre f: deformed fibre vector = Σ g[f][i]·x[v[i]]
	stiff float64
	off   [3]int32 // slots of pairs 10, 20, 21; −1 when one end is fixed
}

// newSheet builds membrane and bending of a mesh; with bending, triangles 2q and 2q+1 are the halves of a quad. along gives the direction of the first fibre of triangle t (any
// length, not normal to the triangle); bend is the hinge stiffness kb; stiff a factor per triangle, nil for 1.
func newSheet(rest []r3.Vec, fixed int, tris [][3]int32, along func(t int) r3.Vec, m law, bend float64, stiff, bendScale []float64) *sheet {
	s := &sheet{
		fixed: fixed, rest: rest, x: append([]r3.Vec(nil), rest...), tris: tris, law: m,
		area: make([]float64, len(rest)), force: make([]r3.Vec, len(rest)),
		elements: make([]element, len(tris)),
	}
	for t, v := range tris {
		e := &s.elements[t]
		*e = newElement(rest, v, along(t))
		if stiff != nil {
			e.stiff = stiff[t]
		}
		for _, i := range v {
			s.area[i] += e.area / 3
		}
	}
	s.hinges = newHinges(rest, tris, bend, bendScale)
	s.edges = edgesOf(tris)
	s.contact.init(s)
	return s
}

// edgesOf lists every edge once, in the order of the triangles.
func edgesOf(tris [][3]int32) [][2]int32 {
	seen := make(map[uint64]bool, 2*len(tris))
	var out [][2]int32
	for _, v := range tris {
		for k := range 3 {
			a, b := v[k], v[(k+1)%3]
			if key := sparse.Key(a, b); !seen[key] {
				seen[key] = true
				out = append(out, [2]int32{a, b})
			}
		}
	}
	return out
}

func newElement(rest []r3.Vec, v [3]int32, along r3.Vec) element {
	a, b := r3.Sub(rest[v[1]], rest[v[0]]), r3.Sub(rest[v[2]], rest[v[0]])
	n := r3.Cross(a, b)
	twice := r3.Norm(n)
	if !(twice > 0) {
		panic("leaflet: triangle without area in the rest shape")
	}
	n = r3.Scale(1/twice, n)
	e1 := r3.Unit(r3.Sub(along, r3.Scale(r3.Dot(along, n), n)))
	e2 := r3.Cross(n, e1)
	// Gradients of the shape functions in the plane (e1, e2).
	ax, ay, bx, by := r3.Dot(a, e1), r3.Dot(a, e2), r3.Dot(b, e1), r3.Dot(b, e2)
	d := 1 / (ax*by - ay*bx)
	gx := [3]float64{(ay - by) * d, by * d, -ay * d}
	gy := [3]float64{(bx - ax) * d, -bx * d, ax * d}
	e := element{v: v, area: twice / 2, stiff: 1}
	h := math.Sqrt2 / 2
	for f, c := range [4][2]float64{{1, 0}, {0, 1}, {h, h}, {h, -h}} {
		for i := range 3 {
			e.g[f][i] = c[0]*gx[i] + c[1]*gy[i]
		}
	}
	return e
}

// finish fixes the matrix pattern. Call it after chords and springs are set.
func (s *sheet) finish() {
	var keys []uint64
	pair := func(a, b int32) {
		if i, j := a-int32(s.fixed), b-int32(s.fixed); i >= 0 && j >= 0 && i != j {
			keys = append(keys, sparse.Key(i, j))
		}
	}
	for _, v := range s.tris {
		pair(v[0], v[1])
		pair(v[1], v[2])
		pair(v[2], v[0])
	}
	for i := range s.hinges {
		pair(s.hinges[i].v[2], s.hinges[i].v[3])
	}
	for i := range s.chords {
		v := &s.chords[i].v
		for a := range v {
			for b := range a {
				pair(v[a], v[b])
			}
		}
	}
	for i := range s.springs {
		v := &s.springs[i].v
		for a := range v {
			for b := range a {
				pair(v[a], v[b])
			}
		}
	}
	s.matrix = sparse.NewMatrix(len(s.rest)-s.fixed, keys)
	for t := range s.elements {
		e := &s.elements[t]
		e.off = [3]int32{s.slot(e.v[1], e.v[0]), s.slot(e.v[2], e.v[0]), s.slot(e.v[2], e.v[1])}
	}
	for i := range s.hinges {
		s.hinges[i].findSlots(s)
	}
	for i := range s.chords {
		s.chords[i].findSlots(s)
	}
	for i := range s.springs {
		s.springs[i].findSlots(s)
	}
}

// slot is the matrix slot of two vertices, −1 when either is fixed.
func (s *sheet) slot(a, b int32) int32 {
	i, j := a-int32(s.fixed), b-int32(s.fixed)
	if i < 0 || j < 0 {
		return -1
	}
	return s.matrix.Slot(i, j)
}

// evaluate fills force with the loads at x and returns the energy (N·mm; without the work of the pressure, which is
// a follower). With hessian it also fills the matrix with a positive semidefinite tangent; the contact pattern must
// have been updated.
func (s *sheet) evaluate(hessian bool) float64 {
	clear(s.force)
	if hessian {
		s.matrix.Zero()
	}
	e := s.membrane(hessian)
	e += s.bending(hessian)
	s.addPressure()
	for i := range s.chords {
		e += s.chords[i].add(s, hessian)
	}
	for i := range s.springs {
		e += s.springs[i].add(s, hessian)
	}
	return e + s.contact.add(s, hessian)
}

// addPressure adds the follower pressure: a third of p times the present area vector at each corner.
func (s *sheet) addPressure() {
	if s.pressure == 0 {
		return
	}
	for _, v := range s.tris {
		a, b, c := s.x[v[0]], s.x[v[1]], s.x[v[2]]
		f := r3.Scale(s.pressure/6, r3.Cross(r3.Sub(b, a), r3.Sub(c, a)))
		s.force[v[0]] = r3.Add(s.force[v[0]], f)
		s.force[v[1]] = r3.Add(s.force[v[1]], f)
		s.force[v[2]] = r3.Add(s.force[v[2]], f)
	}
}

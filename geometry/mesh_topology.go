package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Topology is what the edges of a mesh say about it.
type Topology struct {
	BoundaryEdges    int // edges with one face
	NonManifoldEdges int // edges with more than two faces, or two that disagree on the front
	DegenerateFaces  int // faces that name a vertex twice
	Euler            int // vertices in use − edges + faces; 2 for a ball, 0 for a tube with open ends or a torus
}

// Watertight reports whether the mesh closes: every edge has exactly two faces that run through it in opposite ways.
func (m *Mesh) Watertight() bool {
	t := m.Topology()
	return len(m.Faces) > 0 && t.BoundaryEdges == 0 && t.NonManifoldEdges == 0 && t.DegenerateFaces == 0
}

// Topology counts edges by what they join. Vertices are compared by index: Weld first when points coincide.
func (m *Mesh) Topology() Topology {
	var t Topology
	type count struct{ forward, backward int }
	edges := make(map[[2]int32]count, 3*len(m.Faces)/2)
	used := make([]bool, len(m.Vertices))
	verts := 0
	for _, f := range m.Faces {
		if f[0] == f[1] || f[1] == f[2] || f[2] == f[0] {
			t.DegenerateFaces++
		}
		for k := range 3 {
			a, b := f[k], f[(k+1)%3]
			if !used[a] {
				used[a] = true
				verts++
			}
			c := edges[[2]int32{min(a, b), max(a, b)}]
			if a < b {
				c.forward++
			} else {
				c.backward++
			}
			edges[[2]int32{min(a, b), max(a, b)}] = c
		}
	}
	for _, c := range edges {
		switch {
		case c.forward+c.backward == 1:
			t.BoundaryEdges++
		case c.forward != 1 || c.backward != 1:
			t.NonManifoldEdges++
		}
	}
	t.Euler = verts - len(edges) + len(m.Faces)
	return t
}

// Weld returns the mesh with points nearer than tol (mm, > 0) merged into the first of them, faces that collapse dropped
// and unused vertices removed. Fields keep the value of the first point. Points are compared within cells of size tol
// and their neighbours, in vertex order, so the result is deterministic.
func (m *Mesh) Weld(tol float64) *Mesh {
	if !(tol > 0) {
		panic("geometry: Weld needs a positive tolerance")
	}
	type cell [3]int64
	key := func(v r3.Vec) cell {
		return cell{int64(math.Floor(v.X / tol)), int64(math.Floor(v.Y / tol)), int64(math.Floor(v.Z / tol))}
	}
	cells := make(map[cell][]int32, len(m.Vertices))
	rep := make([]int32, len(m.Vertices))
	for i, v := range m.Vertices {
		k := key(v)
		rep[i] = int32(i)
		found := false
		for d := range 27 {
			n := cell{k[0] + int64(d%3) - 1, k[1] + int64(d/3%3) - 1, k[2] + int64(d/9) - 1}
			for _, j := range cells[n] {
				if !found && r3.Norm(r3.Sub(v, m.Vertices[j])) <= tol {
					rep[i], found = j, true
				}
			}
		}
		if !found {
			cells[k] = append(cells[k], int32(i))
		}
	}
	faces := make([][3]int32, 0, len(m.Faces))
	for _, f := range m.Faces {
		g := [3]int32{rep[f[0]], rep[f[1]], rep[f[2]]}
		if g[0] != g[1] && g[1] != g[2] && g[2] != g[0] {
			faces = append(faces, g)
		}
	}
	return (&Mesh{Vertices: m.Vertices, Faces: faces, Fields: m.Fields}).compact()
}

// compact drops vertices no face uses.
func (m *Mesh) compact() *Mesh {
	index := make([]int32, len(m.Vertices))
	for i := range index {
		index[i] = -1
	}
	out := &Mesh{Faces: make([][3]int32, len(m.Faces)), Fields: make([]Field, len(m.Fields))}
	for i, f := range m.Fields {
		out.Fields[i] = Field{Name: f.Name, Unit: f.Unit}
	}
	for i, f := range m.Faces {
		for k, v := range f {
			if index[v] < 0 {
				index[v] = int32(len(out.Vertices))
				out.Vertices = append(out.Vertices, m.Vertices[v])
				for j := range out.Fields {
					out.Fields[j].Values = append(out.Fields[j].Values, m.Fields[j].Values[v])
				}
			}
			out.Faces[i][k] = index[v]
		}
	}
	return out
}

// Thicken returns the closed, outward-looking solid of a surface: the surface moved by ± thickness/2 along its vertex
// normals, joined by walls along its boundary. Fields are carried to both sides. It does not test whether the two sides
// cross, which happens where the surface bends tighter than thickness/2. The surface must be a manifold with a front
// (weld it first); a surface without boundary gives two nested shells. It panics if thickness is not positive.
func (m *Mesh) Thicken(thickness float64) *Mesh {
	if !(thickness > 0) {
		panic("geometry: Thicken needs a positive thickness")
	}
	n := int32(len(m.Vertices))
	normals := m.Normals(nil)
	out := &Mesh{Vertices: make([]r3.Vec, 2*n)}
	for i, v := range m.Vertices {
		d := r3.Scale(thickness/2, normals[i])
		out.Vertices[i] = r3.Add(v, d)
		out.Vertices[int32(i)+n] = r3.Sub(v, d)
	}
	inner := make(map[[2]int32]bool, 3*len(m.Faces))
	for _, f := range m.Faces {
		out.Faces = append(out.Faces, f, [3]int32{f[0] + n, f[2] + n, f[1] + n})
		for k := range 3 {
			inner[[2]int32{f[k], f[(k+1)%3]}] = true
		}
	}
	for _, f := range m.Faces {
		for k := range 3 {
			a, b := f[k], f[(k+1)%3]
			if !inner[[2]int32{b, a}] {
				out.Faces = append(out.Faces, [3]int32{b, a, a + n}, [3]int32{b, a + n, b + n})
			}
		}
	}
	for _, f := range m.Fields {
		out.Fields = append(out.Fields, Field{f.Name, f.Unit, append(append([]float64{}, f.Values...), f.Values...)})
	}
	return out
}

package geometry

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Field is a named number per vertex.
type Field struct {
	Name   string // short, no spaces, e.g. "contact"
	Unit   string // e.g. "N/mm²"; empty means dimensionless
	Values []float64
}

// Mesh is a triangle mesh in mm. The front of a face is the side from which its vertices run counter-clockwise.
type Mesh struct {
	Vertices []r3.Vec
	Faces    [][3]int32
	Fields   []Field // in a fixed order; every Values is as long as Vertices
}

// Check returns an error when a face or a field does not fit the vertices or a coordinate is not finite.
func (m *Mesh) Check() error {
	for i, v := range m.Vertices {
		if !finite(v) {
			return fmt.Errorf("geometry: vertex %d = %v is not finite", i, v)
		}
	}
	for i, f := range m.Faces {
		for _, v := range f {
			if v < 0 || int(v) >= len(m.Vertices) {
				return fmt.Errorf("geometry: face %d names vertex %d, the mesh has 0 to %d", i, v, len(m.Vertices)-1)
			}
		}
	}
	for _, f := range m.Fields {
		if len(f.Values) != len(m.Vertices) {
			return fmt.Errorf("geometry: field %q has %d values for %d vertices", f.Name, len(f.Values), len(m.Vertices))
		}
	}
	return nil
}

func finite(v r3.Vec) bool {
	s := v.X + v.Y + v.Z
	return !math.IsNaN(s) && !math.IsInf(s, 0)
}

// Field returns the values of the named field, or nil.
func (m *Mesh) Field(name string) []float64 {
	for _, f := range m.Fields {
		if f.Name == name {
			return f.Values
		}
	}
	return nil
}

// SetField adds or replaces a field. It panics when the length does not match.
func (m *Mesh) SetField(name, unit string, values []float64) {
	if len(values) != len(m.Vertices) {
		panic(fmt.Sprintf("geometry: field %q has %d values for %d vertices", name, len(values), len(m.Vertices)))
	}
	for i := range m.Fields {
		if m.Fields[i].Name == name {
			m.Fields[i] = Field{name, unit, values}
			return
		}
	}
	m.Fields = append(m.Fields, Field{name, unit, values})
}

// FaceVector returns the normal of face i times its area in mm².
func (m *Mesh) FaceVector(i int) r3.Vec {
	f := m.Faces[i]
	a, b, c := m.Vertices[f[0]], m.Vertices[f[1]], m.Vertices[f[2]]
	return r3.Scale(0.5, r3.Cross(r3.Sub(b, a), r3.Sub(c, a)))
}

// Area returns the area in mm².
func (m *Mesh) Area() float64 {
	sum := 0.0
	for i := range m.Faces {
		sum += r3.Norm(m.FaceVector(i))
	}
	return sum
}

// Volume returns the volume in mm³ enclosed by a watertight mesh, positive when the faces look outward. For an open mesh
// the number means nothing; ask Watertight first.
func (m *Mesh) Volume() float64 {
	if len(m.Vertices) == 0 {
		return 0
	}
	o, sum := m.Vertices[0], 0.0
	for i, f := range m.Faces {
		sum += r3.Dot(m.FaceVector(i), r3.Sub(m.Vertices[f[0]], o))
	}
	return sum / 3
}

// Normals fills dst with area-weighted unit vertex normals; a vertex without area gets +z. No allocation when dst is as
// long as the vertices; nil allocates.
func (m *Mesh) Normals(dst []r3.Vec) []r3.Vec {
	if dst == nil {
		dst = make([]r3.Vec, len(m.Vertices))
	}
	if len(dst) != len(m.Vertices) {
		panic("geometry: Normals needs a destination as long as the vertices")
	}
	clear(dst)
	for i, f := range m.Faces {
		n := m.FaceVector(i)
		for _, v := range f {
			dst[v] = r3.Add(dst[v], n)
		}
	}
	for i, n := range dst {
		if l := r3.Norm(n); l > 0 {
			dst[i] = r3.Scale(1/l, n)
		} else {
			dst[i] = r3.Vec{Z: 1}
		}
	}
	return dst
}

// Merge returns one mesh of all parts. A field is kept when at least one part has it; where a part lacks it the value is
// NaN, which writers of files pass on as "no value".
func Merge(parts ...*Mesh) *Mesh {
	out := &Mesh{}
	for _, p := range parts {
		base := int32(len(out.Vertices))
		for _, f := range p.Fields {
			if out.Field(f.Name) == nil {
				out.Fields = append(out.Fields, Field{f.Name, f.Unit, fill(make([]float64, base), math.NaN())})
			}
		}
		out.Vertices = append(out.Vertices, p.Vertices...)
		for i := range out.Fields {
			f := &out.Fields[i]
			if v := p.Field(f.Name); v != nil {
				f.Values = append(f.Values, v...)
			} else {
				f.Values = append(f.Values, fill(make([]float64, len(p.Vertices)), math.NaN())...)
			}
		}
		for _, f := range p.Faces {
			out.Faces = append(out.Faces, [3]int32{f[0] + base, f[1] + base, f[2] + base})
		}
	}
	return out
}

func fill(v []float64, x float64) []float64 {
	for i := range v {
		v[i] = x
	}
	return v
}

// MirrorX returns the mesh mirrored at x = 0 with its faces turned so that fronts stay fronts. Fields are shared.
func (m *Mesh) MirrorX() *Mesh {
	out := &Mesh{Vertices: make([]r3.Vec, len(m.Vertices)), Faces: make([][3]int32, len(m.Faces)), Fields: m.Fields}
	for i, v := range m.Vertices {
		out.Vertices[i] = r3.Vec{X: -v.X, Y: v.Y, Z: v.Z}
	}
	for i, f := range m.Faces {
		out.Faces[i] = [3]int32{f[0], f[2], f[1]}
	}
	return out
}

// Flip returns the mesh with its faces turned over. Vertices and fields are shared.
func (m *Mesh) Flip() *Mesh {
	out := &Mesh{Vertices: m.Vertices, Faces: make([][3]int32, len(m.Faces)), Fields: m.Fields}
	for i, f := range m.Faces {
		out.Faces[i] = [3]int32{f[0], f[2], f[1]}
	}
	return out
}

package relief

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/units"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// Field is what the leaflets of the shell are coloured by.
type Field string

// The fields: their own colours with the touching stretch marked, or one of the shell's numbers.
const (
	NoField      Field = "none"
	ContactField Field = "contact"
	GapField     Field = "gap"
	TensionField Field = "tension"
)

// Fields lists the fields in the order of the choice on screen.
func Fields() []Field { return []Field{NoField, ContactField, GapField, TensionField} }

// Range is what the ends of a field's colours stand for, in its unit; values outside are shown as the nearest end. Chosen
// so that a sound and a leaking valve differ.
func (f Field) Range() (low, high float64, unit string) {
	switch f {
	case ContactField:
		return 0, 200, "mmHg"
	case GapField:
		return 0, 10, "mm"
	case TensionField:
		return 0, 150, "N/m"
	}
	return 0, 0, ""
}

// At is the field at a point of a surface, in its unit.
func (f Field) At(s *valve.Surface, i int) float64 {
	switch f {
	case ContactField:
		return units.PressureToMMHg(s.ContactNMM2[i])
	case GapField:
		return s.GapMM[i]
	}
	return 1000 * s.TensionNMM[i]
}

// shellShown tells whether the leaflets are drawn from the shell.
func (m *Model) shellShown(o Options) bool {
	return o.Shell && m.Shapes.Shell != nil && !m.Shapes.Shell.Closed.Empty()
}

// poseShell makes the two leaflets of the shell: grids of columns along the line and rows from annulus to margin. Closed
// and open state are solved; what lies between is drawn by moving every point straight.
func (m *Model) poseShell(open float64, th theme.Theme, o Options) {
	closed, opened := &m.Shapes.Shell.Closed, &m.Shapes.Shell.Open
	if opened.Empty() || len(opened.Points) != len(closed.Points) {
		opened = closed
	}
	base := [2]draw.Color{theme.Mix(th.Anterior, white, lighter), theme.Mix(th.Posterior, white, lighter)}
	low, high, _ := o.Field.Range()
	tint := o.Tint && len(m.points) == len(closed.Points)
	half := closed.Columns / 2
	for side := range 2 {
		s := &m.leaf[side]
		columns, n := half+1, (half+1)*closed.Rows
		s.Vertices, s.Faces, s.BackTint, s.Flat = resizeVec(s.Vertices, n), shellFaces(columns, closed.Rows), th.Inside, high > 0 || tint
		if s.Flat {
			s.BackTint = draw.Color{}
		}
		if cap(s.Colors) < n {
			s.Colors = make([]draw.Color, n)
		}
		s.Colors = s.Colors[:n]
		touching := theme.Mix(base[side], th.Contact, 0.55)
		for i := range n {
			at := i/columns*closed.Columns + (side*half+i%columns)%closed.Columns
			s.Vertices[i] = r3.Add(r3.Scale(1-open, closed.Points[at]), r3.Scale(open, opened.Points[at]))
			switch {
			case tint:
				s.Colors[i] = m.points[at]
			case high > 0:
				v := (1-open)*o.Field.At(closed, at) + open*o.Field.At(opened, at)
				s.Colors[i] = theme.Cividis((v - low) / (high - low))
			case o.Contact && closed.InContact[at] && i%columns > 0 && i%columns < half:
				s.Colors[i] = theme.Mix(base[side], touching, 1-open)
			default:
				s.Colors[i] = base[side]
			}
		}
		s.Normals = gridNormals(s.Normals, s.Vertices, columns)
		m.add(*s, o)
		from := len(m.line)
		for j := range columns {
			p := s.Vertices[n-columns+j]
			if o.Cut && p.X > o.CutX {
				m.curve(from, th.Ink, 1, false)
				from = len(m.line)
				continue
			}
			m.line = append(m.line, p)
		}
		m.curve(from, th.Ink, 1.5, false)
	}
	if o.Areas && open == 1 {
		for _, q := range m.Shapes.Orifices {
			m.scene.Curves = append(m.scene.Curves, draw.Curve{Points: q.Outline, Closed: true, Color: th.Contact, Width: 2.5, Over: true})
		}
	}
}

// shellFaces are the triangles of a grid, their front to the side to which the shell's normals point.
func shellFaces(columns, rows int) [][3]int32 {
	out := make([][3]int32, 0, 2*(columns-1)*(rows-1))
	for i := range rows - 1 {
		for j := range columns - 1 {
			a := int32(i*columns + j)
			b, c, d := a+1, a+int32(columns), a+int32(columns)+1
			out = append(out, [3]int32{a, b, d}, [3]int32{a, d, c})
		}
	}
	return out
}

// gridNormals are central differences on a grid with that many columns.
func gridNormals(dst, v []r3.Vec, columns int) []r3.Vec {
	dst = resizeVec(dst, len(v))
	rows := len(v) / columns
	for i := range rows {
		for j := range columns {
			along := r3.Sub(v[i*columns+min(j+1, columns-1)], v[i*columns+max(j-1, 0)])
			down := r3.Sub(v[min(i+1, rows-1)*columns+j], v[max(i-1, 0)*columns+j])
			n := r3.Cross(along, down)
			if l := r3.Norm(n); l > 1e-9 {
				dst[i*columns+j] = r3.Scale(1/l, n)
			} else {
				dst[i*columns+j] = r3.Vec{}
			}
		}
	}
	return dst
}

// onMargins is the middle between the two margins of the shell nearest to a place along the line.
func (m *Model) onMargins(x, open float64) r3.Vec {
	var mid r3.Vec
	columns := m.Shapes.Shell.Closed.Columns/2 + 1
	for side := range 2 {
		row := m.leaf[side].Vertices
		row = row[len(row)-columns:]
		best, at := math.Inf(1), 0
		for j, p := range row {
			if d := math.Abs(p.X - x); d < best && j > 0 && j < columns-1 {
				best, at = d, j
			}
		}
		mid = r3.Add(mid, r3.Scale(0.5, row[at]))
	}
	return mid
}

// MarginAt returns the points of the closed surface on the free margins of both leaflets at a place x, and what lies in
// the middle between them.
func (m *Model) MarginAt(x float64) (at [2]int, mid r3.Vec) {
	s := &m.Shapes.Shell.Closed
	last := (s.Rows - 1) * s.Columns
	for side := range 2 {
		best := math.Inf(1)
		for j := 1; j < s.Columns/2; j++ {
			k := last + side*s.Columns/2 + j
			if d := math.Abs(s.Points[k].X - x); d < best {
				best, at[side] = d, k
			}
		}
		mid = r3.Add(mid, r3.Scale(0.5, s.Points[at[side]]))
	}
	return at, mid
}

// carried moves a clip to the margins of the shell.
func (m *Model) carried(v []r3.Vec, open float64) []r3.Vec {
	var mid r3.Vec
	for _, p := range v {
		mid = r3.Add(mid, r3.Scale(1/float64(len(v)), p))
	}
	to := m.onMargins(mid.X, open)
	d := r3.Vec{Y: to.Y - mid.Y, Z: to.Z + clipRadius - mid.Z}
	m.moved = m.moved[:0]
	for _, p := range v {
		m.moved = append(m.moved, r3.Add(p, d))
	}
	return m.moved
}

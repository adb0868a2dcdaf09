package valve

import (
	"annuloscope/sim/leaflet"

	"gonum.org/v1/gonum/spatial/r3"
)

// Surface is the leaflets as one sheet: Rows × Columns points, row 0 the annulus, the last row the margin, column 0 at
// the posteromedial commissure, counter-clockwise. Points of columns below Columns/2 are the anterior leaflet's. The
// margins of a closed surface are drawn as far apart as the gap that is reported (part).
type Surface struct {
	Columns, Rows int
	Points        []r3.Vec
	Triangles     [][3]int32 // normals point to the lumen: to the atrium when closed
	GapMM         []float64  // distance to the other leaflet's middle surface
	ContactNMM2   []float64  // contact pressure
	TensionNMM    []float64  // mean in-plane tension
	InContact     []bool
}

// surfaceOf copies a surface out of a result.
func surfaceOf(r *leaflet.Result) Surface {
	return Surface{Columns: r.S, Rows: r.T, Points: append([]r3.Vec(nil), r.X...), Triangles: r.Triangles,
		GapMM: append([]float64(nil), r.GapMM...), ContactNMM2: append([]float64(nil), r.ContactNMM2...),
		TensionNMM: append([]float64(nil), r.TensionNMM...), InContact: append([]bool(nil), r.InContact...)}
}

// Empty tells whether there is no surface: the shell has not been solved, or not settled.
func (s *Surface) Empty() bool { return len(s.Points) == 0 }

// ShellShapes are the leaflets as the shell has them.
type ShellShapes struct{ Closed, Open Surface }

// billowing is the greatest height of a column above the straight line from its annulus point to that of the column
// facing it.
func (s *Surface) billowing() float64 {
	most := 0.0
	for j := 1; j < s.Columns/2; j++ {
		a, p := s.Points[j], s.Points[s.Columns-j]
		along := r3.Sub(p, a)
		l := r3.Norm(along)
		if l < 1 {
			continue
		}
		along = r3.Scale(1/l, along)
		up := r3.Sub(r3.Vec{Z: 1}, r3.Scale(along.Z, along))
		up = r3.Unit(up)
		for i := range s.Rows {
			for _, c := range [2]int{j, s.Columns - j} {
				most = max(most, r3.Dot(r3.Sub(s.Points[i*s.Columns+c], a), up))
			}
		}
	}
	return most
}

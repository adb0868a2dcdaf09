package meshes

import (
	"annuloscope/geometry"
	"annuloscope/sim/units"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// shellParts are the two leaflets of the shell, closed or open, with its fields. They are open surfaces: in the middle
// of the tissue, nearer to each other than its thickness where they touch, so that they cannot be made solid.
func shellParts(now, rest *valve.ShellShapes, diastole bool) []Part {
	s, from := &now.Closed, (*valve.Surface)(nil)
	if diastole {
		s = &now.Open
	}
	if rest != nil {
		if from = &rest.Closed; diastole {
			from = &rest.Open
		}
	}
	half := s.Columns / 2
	var out []Part
	for side, name := range [2]string{"leaflet-anterior-shell", "leaflet-posterior-shell"} {
		columns := half + 1
		var at []int
		for i := range s.Rows {
			for j := range columns {
				at = append(at, i*s.Columns+(side*half+j)%s.Columns)
			}
		}
		m := &geometry.Mesh{}
		for i := range s.Rows - 1 {
			for j := range columns - 1 {
				a := int32(i*columns + j)
				b, c, d := a+1, a+int32(columns), a+int32(columns)+1
				m.Faces = append(m.Faces, [3]int32{a, b, d}, [3]int32{a, d, c})
			}
		}
		field := func(of func(i int) float64) []float64 {
			v := make([]float64, len(at))
			for k, i := range at {
				v[k] = of(i)
			}
			return v
		}
		for _, i := range at {
			m.Vertices = append(m.Vertices, s.Points[i])
		}
		m.SetField("distance", "mm", field(func(i int) float64 { return s.GapMM[i] }))
		m.SetField("contact_pressure", "mmHg", field(func(i int) float64 { return units.PressureToMMHg(s.ContactNMM2[i]) }))
		m.SetField("tension", "N/m", field(func(i int) float64 { return 1000 * s.TensionNMM[i] }))
		m.SetField("in_contact", "", field(func(i int) float64 {
			if s.InContact[i] {
				return 1
			}
			return 0
		}))
		if from != nil && len(from.Points) == len(s.Points) {
			m.SetField("displacement", "mm", field(func(i int) float64 { return r3.Norm(r3.Sub(s.Points[i], from.Points[i])) }))
		}
		out = append(out, Part{name, m, false})
	}
	return out
}

package meshes

import (
	"annuloscope/geometry"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// leaflet lofts one leaflet of the closed valve over the sections; its front looks to the atrium. The anterior sections
// are joined in the opposite order, which turns the front round.
func leaflet(name string, now, rest *valve.Shapes, anterior bool, thickness float64) Part {
	sections, from := curves(now, anterior), curves(rest, anterior)
	m := geometry.Loft(sections, across, false)
	moved := make([]float64, len(m.Vertices))
	if len(from) == len(sections) {
		moved = apart(m.Vertices, geometry.Loft(from, across, false).Vertices)
	}
	row := func(f func(valve.Station) float64) []float64 {
		out := make([]float64, 0, len(m.Vertices))
		for _, s := range ordered(now, anterior) {
			for range across {
				out = append(out, f(s))
			}
		}
		return out
	}
	m.SetField("position", "", row(func(s valve.Station) float64 { return s.S }))
	m.SetField("contact", "mm", row(func(s valve.Station) float64 { return s.ContactMM }))
	m.SetField("gap", "mm", row(func(s valve.Station) float64 { return s.GapMM }))
	m.SetField("displacement", "mm", moved)
	m = m.Weld(weldMM)
	if thickness == 0 {
		return Part{name, m, false}
	}
	return Part{name + "-solid", m.Thicken(thickness), true}
}

func ordered(s *valve.Shapes, anterior bool) []valve.Station {
	n := len(s.Stations)
	out := make([]valve.Station, n)
	for i, st := range s.Stations {
		if anterior {
			out[n-1-i] = st
		} else {
			out[i] = st
		}
	}
	return out
}

func curves(s *valve.Shapes, anterior bool) (out [][]r3.Vec) {
	for _, st := range ordered(s, anterior) {
		if anterior {
			out = append(out, st.Anterior)
		} else {
			out = append(out, st.Posterior)
		}
	}
	return out
}

// loopTube is a tube round a closed curve that nowhere runs along z; vertex i·around + j lies on ring i.
func loopTube(curve []r3.Vec, radius float64) *geometry.Mesh {
	n := len(curve)
	open := make([]r3.Vec, 0, n+3) // one point more at each end, so that the frames of the ends are those of the inside
	open = append(open, curve[n-1])
	open = append(open, curve...)
	open = append(open, curve[0], curve[1])
	t := geometry.RoundTube(open, radius)
	whole := t.Mesh(around, false)
	m := &geometry.Mesh{Vertices: append([]r3.Vec(nil), whole.Vertices[around:(n+1)*around]...)}
	for _, f := range whole.Faces {
		var g [3]int32
		keep := true
		for k, v := range f {
			ring := int(v)/around - 1
			if ring < 0 || ring > n {
				keep = false
			}
			g[k] = int32(((ring+n)%n)*around + int(v)%around)
		}
		if keep {
			m.Faces = append(m.Faces, g)
		}
	}
	return m
}

// perRing gives a tube a field with one value per centreline point; the middles of its end caps take the end values.
func perRing(m *geometry.Mesh, name, unit string, values []float64) {
	out := make([]float64, 0, len(m.Vertices))
	for _, v := range values {
		for range around {
			out = append(out, v)
		}
	}
	if len(m.Vertices) == len(out)+2 {
		out = append(out, values[0], values[len(values)-1])
	}
	m.SetField(name, unit, out)
}

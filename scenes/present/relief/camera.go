package relief

import (
	"math"

	"annuloscope/scenes/present/draw"

	"gonum.org/v1/gonum/spatial/r3"
)

// NamedView is a view with a name.
type NamedView struct {
	Name               string // key: view.NAME
	Azimuth, Elevation float64
	Zoom               float64
	Cut                bool // leave out the near half, so that the long axis is seen
}

// Views lists the named views, the standard one first. From the ventricle the eye is turned so that the aorta stays on
// top; left and right then change places, as the labels show.
func Views() []NamedView {
	return []NamedView{{"atrium", 0, 90, 1, false}, {"ventricle", 180, -90, 1, false}, {"side", 0, 14, 1.15, false}, {"axis", 90, 6, 1.5, true}}
}

// FindView returns the named view.
func FindView(name string) (NamedView, bool) {
	for _, v := range Views() {
		if v.Name == name {
			return v, true
		}
	}
	return NamedView{}, false
}

// CameraNear fits annulus and leaflets alone into r.
func (m *Model) CameraNear(r draw.Rect, azimuth, elevation, zoom, margin float64) draw.Camera {
	lo, hi := m.Shapes.Annulus[0], m.Shapes.Annulus[0]
	for _, p := range m.Shapes.Annulus {
		lo = r3.Vec{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y), Z: math.Min(lo.Z, p.Z)}
		hi = r3.Vec{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y), Z: math.Max(hi.Z, p.Z)}
	}
	size := r3.Sub(hi, lo)
	wide := math.Max(math.Max(size.X, size.Y)+4*annulusTube, 30)
	scale := math.Min((r.W-2*margin)/wide, (r.H-2*margin)/(math.Max(size.Y, 0.75*wide)+4*annulusTube)) * zoom
	return draw.Camera{Centre: r3.Scale(0.5, r3.Add(lo, hi)), Azimuth: azimuth, Elevation: elevation, Scale: math.Max(scale, 0.5)}
}

// Camera fits the model into r, with margin logical pixels left for labels on every side.
func (m *Model) Camera(r draw.Rect, azimuth, elevation, zoom, margin float64) draw.Camera {
	size := r3.Sub(m.high, m.low)
	across, deep := math.Max(size.X, 30), math.Max(math.Max(size.Y, size.X*0.8), 30)
	margin = math.Min(margin, math.Min(r.W, r.H)*0.12)
	scale := math.Min((r.W-2*margin)/across, (r.H-2*margin)/deep) * zoom
	return draw.Camera{Centre: r3.Scale(0.5, r3.Add(m.low, m.high)), Azimuth: azimuth, Elevation: elevation, Scale: math.Max(scale, 0.5)}
}

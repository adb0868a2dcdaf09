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
	Cut                bool // leave out the near half, so that the long axis is seen
}

// Views lists the named views, the standard one first. From the ventricle the eye is turned so that the aorta stays on
// top; left and right then change places, as the labels show.
func Views() []NamedView {
	return []NamedView{{"atrium", 0, 90, false}, {"ventricle", 180, -90, false}, {"side", 0, 14, false}, {"axis", 90, 4, true}}
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

// Camera fits the model into r.
func (m *Model) Camera(r draw.Rect, azimuth, elevation, zoom float64) draw.Camera {
	half := math.Max(m.Extent, 20) + 4
	scale := math.Min(r.W/(2*half+14), r.H/(2*half+4)) * zoom
	e := elevation * math.Pi / 180
	return draw.Camera{Centre: r3.Vec{Y: -2 * math.Sin(e) * math.Sin(e), Z: -5 * math.Cos(e)}, Azimuth: azimuth, Elevation: elevation, Scale: math.Max(scale, 0.5)}
}

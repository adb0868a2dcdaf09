package meshes

import (
	"annuloscope/geometry/meshio"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// Curve is one centreline or contour of a state.
type Curve struct {
	Name string // a file name without its ending
	Line meshio.Polyline
}

// Curves returns the annulus as a closed curve and the centrelines of vein and artery with their radii: what an import
// (package measured) reads.
func Curves(now *valve.Shapes, diastole bool) []Curve {
	ring := now.Annulus
	if diastole {
		ring = now.AnnulusDiastole
	}
	line := func(points []r3.Vec, radii []float64) meshio.Polyline {
		return meshio.Polyline{Points: points, Radii: radii, Ordered: true}
	}
	return []Curve{
		{"annulus-curve", meshio.Polyline{Points: ring, Ordered: true, Closed: true}},
		{"sinus-curve", line(now.Vein, now.VeinRadius)},
		{"artery-curve", line(now.Artery, now.ArteryRadius)},
	}
}

package contour

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// Whatever the points (coincident, collinear, on a coarse grid, scattered), the fits end in a finite result or an error,
// never in a panic.
func TestOddPoints(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(rt, "n")
		step := rapid.SampledFrom([]float64{0.001, 1, 5, 20, 1000}).Draw(rt, "grid")
		reach := rapid.IntRange(0, 4).Draw(rt, "reach")
		flat := rapid.Bool().Draw(rt, "flat")
		points, radii := make([]r3.Vec, n), make([]float64, n)
		g := rapid.IntRange(-reach, reach)
		for i := range points {
			points[i] = r3.Vec{X: step * float64(g.Draw(rt, "x")), Y: step * float64(g.Draw(rt, "y"))}
			if !flat {
				points[i].Z = step * float64(g.Draw(rt, "z"))
			}
			radii[i] = 1 + float64(i)
		}
		o := Options{KeepOrder: rapid.Bool().Draw(rt, "keep order"), Samples: 16}
		if rapid.Bool().Draw(rt, "landmarks") {
			o.Landmarks = Given{PosteromedialCommissure: &points[0], AnterolateralCommissure: &points[n-1]}
		}
		finite := func(c []r3.Vec) {
			for _, p := range c {
				if s := p.X + p.Y + p.Z; math.IsNaN(s) || math.IsInf(s, 0) {
					rt.Fatalf("%v is not finite", p)
				}
			}
		}
		if a, err := FitAnnulus(points, o); err == nil {
			finite(a.Curve)
		}
		frame := Frame{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
		if v, err := FitVessel(points, radii, frame, o); err == nil {
			finite(v.Points)
		}
	})
}

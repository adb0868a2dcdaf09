package closure

import (
	"math"

	"annuloscope/sim/units"
	"gonum.org/v1/gonum/spatial/r3"
)

// testAnnulus is an ellipse with a saddle: septal-lateral ap, commissural 40 mm, saddle height 6 mm.
func testAnnulus(ap float64) []r3.Vec {
	v := make([]r3.Vec, 128)
	for i := range v {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 128)
		v[i] = r3.Vec{X: 20 * c, Y: ap / 2 * s, Z: -3 * math.Cos(2*2*math.Pi*float64(i)/128)}
	}
	return v
}

// testInput is the section input for a septal-lateral diameter at 120 mmHg less 20 mmHg.
func testInput(ap float64, n int) *Input {
	in := &Input{Pressure: units.PressureFromMMHg(100)}
	pap := DefaultPapillary()
	BuildLine(&in.Line, testAnnulus(ap), &pap, n)
	return in
}

// functional is the functional patient of the trend table in the sections sheet.
var functional = Targets{DepthMM: 10.5, ContactMM: 1.5, EffectiveOrifice: 0.30}

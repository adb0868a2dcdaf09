package hydraulic

import (
	"math"

	"annuloscope/sim/units"
)

// Flow returns the flow in mL/s through an effective area under a pressure difference in mmHg, with the sign of
// the difference: 50·A·√|Δp|.
func Flow(area units.EffectiveCM2, pressureMMHg float64) float64 {
	return math.Copysign(JetConstant*float64(area)*math.Sqrt(math.Abs(pressureMMHg)), pressureMMHg)
}

// Gradient returns the pressure difference in mmHg that drives a flow in mL/s through an effective area, with the
// sign of the flow. No flow needs no pressure, whatever the area; flow through no area is +Inf or -Inf.
func Gradient(area units.EffectiveCM2, flowMLPerS float64) float64 {
	if flowMLPerS == 0 {
		return 0
	}
	v := flowMLPerS / (JetConstant * float64(area))
	return math.Copysign(v*v, flowMLPerS)
}

// JetSpeed returns the speed in cm/s of a jet behind a pressure difference in mmHg (0 or more).
func JetSpeed(pressureMMHg float64) float64 {
	return JetConstant * math.Sqrt(math.Max(pressureMMHg, 0))
}

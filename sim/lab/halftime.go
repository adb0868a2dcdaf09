package lab

import (
	"math"

	"annuloscope/sim/hydraulic"
	"annuloscope/sim/units"
)

// halfTimeArea is the empirical constant MVA = 220/PHT, cm²·ms (physics.md B, S17, S19).
const halfTimeArea = 220.0

// AreaFromHalfTime returns 220 ÷ half-time (ms).
func AreaFromHalfTime(halfTimeMS float64) units.EffectiveCM2 {
	return units.EffectiveCM2(halfTimeArea / halfTimeMS)
}

// HalfTimeFromDeceleration returns the pressure half-time of a speed that falls linearly to 0 in the deceleration
// time: (1 − 1/√2) of it, same unit.
func HalfTimeFromDeceleration(t float64) float64 { return (1 - math.Sqrt2/2) * t }

// PressureHalfTime returns the time in ms from the first peak of the pressure difference (early filling) to half of
// it, by linear interpolation; NaN when the wave never falls that far.
func PressureHalfTime(w Wave) float64 {
	w.check()
	peak := 0
	for i, p := range w.PressureMMHg {
		if p > w.PressureMMHg[peak] {
			peak = i
		} else if p < w.PressureMMHg[peak]/2 {
			break
		}
	}
	half := w.PressureMMHg[peak] / 2
	for i := peak + 1; i < len(w.TimeS) && half > 0; i++ {
		if p0, p1 := w.PressureMMHg[i-1], w.PressureMMHg[i]; p1 <= half {
			u := (p0 - half) / (p0 - p1)
			return 1000 * (w.TimeS[i-1] + u*(w.TimeS[i]-w.TimeS[i-1]) - w.TimeS[peak])
		}
	}
	return math.NaN()
}

// EmptyingHalfTime returns the pressure half-time in ms of an atrium and ventricle of net compliance (mL/mmHg) that
// equalise from a pressure difference (mmHg) through an effective area: √Δp falls linearly with time (physics.md B,
// S20, S21), so it is 2(1−1/√2)·Cn·√Δp0/(50·A) s. It shows what 220 leaves out: compliance and pressure.
func EmptyingHalfTime(netCompliance, pressureMMHg float64, area units.EffectiveCM2) float64 {
	return 1000 * 2 * (1 - math.Sqrt2/2) * netCompliance * math.Sqrt(pressureMMHg) / (hydraulic.JetConstant * float64(area))
}

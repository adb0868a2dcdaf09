package hydraulic

import (
	"math"

	"annuloscope/sim/units"
)

// LeakInput is what one systole of regurgitation needs.
type LeakInput struct {
	Orifice      units.EffectiveCM2 // effective regurgitant orifice, mean over systole
	PressureMMHg float64            // left ventricle minus left atrium, mean of the driving difference; 0 or more
	DurationS    float64            // how long the leak lasts; 0 or more
}

// Leak is the answer of Regurgitate.
type Leak struct {
	VolumeML       float64 // regurgitant volume per beat
	FlowMLPerS     float64 // flow while it leaks
	JetSpeedCMPS   float64 // jet speed, cm/s
	VelocityTimeCM float64 // velocity-time integral of the jet, cm
}

// Regurgitate returns the leak of one beat under a constant pressure difference: volume = 50·A·√Δp·t
// (physics.md B "RVol from orifice").
func Regurgitate(in LeakInput) Leak {
	if in.Orifice < 0 || in.PressureMMHg < 0 || in.DurationS < 0 {
		panic("hydraulic: negative orifice, pressure or duration")
	}
	q := Flow(in.Orifice, in.PressureMMHg)
	v := JetSpeed(in.PressureMMHg)
	return Leak{VolumeML: q * in.DurationS, FlowMLPerS: q, JetSpeedCMPS: v, VelocityTimeCM: v * in.DurationS}
}

// LeakVolume integrates a leak over a wave by the trapezoid rule: times in s (rising), pressure difference in mmHg
// (negative values leak the other way and are subtracted), effective orifice at each time. All of one length; mL.
func LeakVolume(timeS, pressureMMHg []float64, orifice []units.EffectiveCM2) float64 {
	if len(timeS) != len(pressureMMHg) || len(timeS) != len(orifice) {
		panic("hydraulic: waves of different length")
	}
	sum := 0.0
	for i := 1; i < len(timeS); i++ {
		a, b := Flow(orifice[i-1], pressureMMHg[i-1]), Flow(orifice[i], pressureMMHg[i])
		sum += (a + b) / 2 * (timeS[i] - timeS[i-1])
	}
	return sum
}

// RegurgitantFraction returns leak ÷ (leak + forward), 0 when both are 0. Volumes in mL.
func RegurgitantFraction(leakML, forwardML float64) float64 {
	if total := leakML + forwardML; total > 0 {
		return math.Max(leakML, 0) / total
	}
	return 0
}

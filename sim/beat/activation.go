package beat

import (
	"math"

	"annuloscope/sim/beat/loop"
)

// hill is the double-Hill activation at t (s) at the reference cycle, before scaling to a maximum of one.
func hill(t float64) float64 {
	if t <= 0 {
		return 0
	}
	u := math.Pow(t/riseTime, riseExponent)
	return u / (1 + u) / (1 + math.Pow(t/fallTime, fallExponent))
}

// hillPeak finds the maximum of hill by golden section.
func hillPeak() float64 {
	lo, hi := 0.5*riseTime, fallTime
	g := (math.Sqrt(5) - 1) / 2
	for range 40 {
		a, b := hi-g*(hi-lo), lo+g*(hi-lo)
		if hill(a) > hill(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return hill((lo + hi) / 2)
}

// timeScale is the factor on all times within a beat of period T (s).
func timeScale(T float64) float64 { return math.Exp(-systoleSlope * (60/T - referenceRate)) }

// layActivations fills the ventricular and atrial activation (values 0 to 1 at the integrator's stage times) for a
// beat of period T (s). The tail of the beat before is added, so that the activation is periodic.
func layActivations(ventricle, atrium []float64, steps int, T float64) {
	scale := timeScale(T)
	peak := hillPeak()
	lead, duration := atrialLead*scale, atrialDuration*scale
	for k := range ventricle {
		t := loop.StageTime(k, steps, T)
		ventricle[k] = min(1, (hill(t/scale)+hill((t+T)/scale))/peak)
		d := math.Mod(t+lead, T)
		atrium[k] = 0
		if d < duration {
			atrium[k] = 0.5 * (1 - math.Cos(2*math.Pi*d/duration))
		}
	}
}

// at is the course at phase s, held at its ends.
func (c Course) at(s float64) float64 {
	n := len(c) - 1
	switch {
	case n < 0:
		return 1
	case n == 0 || s <= 0:
		return c[0]
	case s >= 1:
		return c[n]
	}
	x := s * float64(n)
	i := min(int(x), n-1)
	return c[i] + (x-float64(i))*(c[i+1]-c[i])
}

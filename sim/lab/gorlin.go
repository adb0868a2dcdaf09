package lab

import (
	"math"

	"annuloscope/sim/units"
)

// Constants of the Gorlin formula, cm/s per √mmHg (physics.md B, S15).
const (
	gorlinMitral = 37.7
	gorlinAortic = 44.3
)

// GorlinMitral returns the mitral area from cardiac output (mL/min), heart rate (per min), filling time per beat (s)
// and mean gradient (mmHg): CO/(HR·DFP·37.7·√ΔP). Not finite when the gradient is not above 0.
func GorlinMitral(outputMLPerMin, ratePerMin, fillingS, gradientMMHg float64) units.EffectiveCM2 {
	return units.EffectiveCM2(outputMLPerMin / (ratePerMin * fillingS * gorlinMitral * math.Sqrt(gradientMMHg)))
}

// GorlinAortic returns the aortic area in the same way with the ejection time and 44.3.
func GorlinAortic(outputMLPerMin, ratePerMin, ejectionS, gradientMMHg float64) units.EffectiveCM2 {
	return units.EffectiveCM2(outputMLPerMin / (ratePerMin * ejectionS * gorlinAortic * math.Sqrt(gradientMMHg)))
}

// GorlinFromWave applies the mitral formula to one beat. With the true flow through the valve; a catheter laboratory
// that uses the forward output of a leaking valve under-reads: pass forwardML, the forward stroke volume, for that
// error, or 0 for the wave's own volume.
func GorlinFromWave(w Wave, forwardML float64) units.EffectiveCM2 {
	f := w.Measure()
	volume := f.VolumeML
	if forwardML > 0 {
		volume = forwardML
	}
	return units.EffectiveCM2(volume / (f.TimeS * gorlinMitral * math.Sqrt(f.MeanGradientMMHg)))
}

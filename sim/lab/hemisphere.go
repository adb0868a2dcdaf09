package lab

import (
	"math"

	"annuloscope/sim/units"
)

// Convergence is a flow-convergence estimate.
type Convergence struct {
	FlowMLPerS float64
	Orifice    units.EffectiveCM2
}

// Hemisphere returns the estimate from a radius (cm), an aliasing speed and the peak jet speed (cm/s): flow 2πr²·Va,
// orifice flow/Vmax (physics.md B, S24).
func Hemisphere(radiusCM, aliasCMPS, jetCMPS float64) Convergence {
	return surfaceEstimate(2*math.Pi*radiusCM*radiusCM, aliasCMPS, jetCMPS)
}

func surfaceEstimate(areaCM2, aliasCMPS, jetCMPS float64) Convergence {
	q := areaCM2 * aliasCMPS
	return Convergence{FlowMLPerS: q, Orifice: units.EffectiveCM2(q / jetCMPS)}
}

// Wedge corrects an estimate where the leaflets form a funnel of an angle (degrees) instead of a plane: times
// angle/180 (physics.md B, S25).
func (c Convergence) Wedge(angleDeg float64) Convergence {
	return Convergence{c.FlowMLPerS * angleDeg / 180, c.Orifice * units.EffectiveCM2(angleDeg/180)}
}

// ShortForm returns the bedside short form r²/2 (r in cm; for an aliasing speed near 40 and a jet near 500 cm/s).
func ShortForm(radiusCM float64) units.EffectiveCM2 {
	return units.EffectiveCM2(radiusCM * radiusCM / 2)
}

// RegurgitantVolume returns orifice × velocity-time integral of the jet (cm), mL.
func (c Convergence) RegurgitantVolume(jetIntegralCM float64) float64 {
	return float64(c.Orifice) * jetIntegralCM
}

package lab

import (
	"math"

	"annuloscope/sim/units"
)

// CircleVolume returns the stroke volume in mL through a round section of diameter (cm) with a velocity-time integral
// (cm): π/4·d²·VTI.
func CircleVolume(diameterCM, integralCM float64) float64 {
	return math.Pi / 4 * diameterCM * diameterCM * integralCM
}

// Continuity returns the area a volume (mL) must have passed to reach a velocity-time integral (cm) there.
func Continuity(volumeML, integralCM float64) units.EffectiveCM2 {
	return units.EffectiveCM2(volumeML / integralCM)
}

// Volumetric is a leak by difference of two stroke volumes.
type Volumetric struct {
	LeakML   float64 // mitral − outflow; may come out negative, as in practice
	Fraction float64 // of the mitral volume
	Orifice  units.EffectiveCM2
}

// VolumetricLeak returns the leak from the mitral and outflow stroke volumes (mL) and the jet's velocity-time
// integral (cm).
func VolumetricLeak(mitralML, outflowML, jetIntegralCM float64) Volumetric {
	leak := mitralML - outflowML
	return Volumetric{LeakML: leak, Fraction: leak / mitralML, Orifice: Continuity(leak, jetIntegralCM)}
}

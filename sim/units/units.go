// Package units holds every conversion between the program's two sets of units and the types that keep
// anatomic and effective orifice areas apart.
//
// Geometry and mechanics use mm, N, N/mm² and s; the circulation uses mL, mmHg and s.
package units

// NPerMM2PerMMHg is the pressure of one millimetre of mercury in N/mm² (133.322 Pa).
const NPerMM2PerMMHg = 133.322e-6

// BloodDensity in kg/m³ (../shared/reference/physics.md, head of the sheet).
const BloodDensity = 1060.0

// JetSpeedPerRootMMHg is the speed in cm/s of a jet driven by 1 mmHg without loss, √(2·133.322/1060)·100
// (physics.md B, "true-density constant": 50.155). The trade rounds it to 50, the "4v²" rule.
const JetSpeedPerRootMMHg = 50.155

// PressureFromMMHg converts mmHg to N/mm².
func PressureFromMMHg(p float64) float64 { return p * NPerMM2PerMMHg }

// PressureToMMHg converts N/mm² to mmHg.
func PressureToMMHg(p float64) float64 { return p / NPerMM2PerMMHg }

// AreaToCM2 converts mm² to cm².
func AreaToCM2(mm2 float64) float64 { return mm2 / 100 }

// AreaFromCM2 converts cm² to mm².
func AreaFromCM2(cm2 float64) float64 { return cm2 * 100 }

// VolumeToML converts mm³ to mL.
func VolumeToML(mm3 float64) float64 { return mm3 / 1000 }

// AnatomicCM2 is the area of a hole as planimetry sees it, in cm².
type AnatomicCM2 float64

// EffectiveCM2 is the area of the narrowest part of the jet behind a hole, in cm²: what grades and gradients read.
type EffectiveCM2 float64

// Effective applies a contraction coefficient (0 to 1, dimensionless) to an anatomic area.
func (a AnatomicCM2) Effective(contraction float64) EffectiveCM2 {
	return EffectiveCM2(float64(a) * contraction)
}

// Anatomic undoes Effective with the same contraction coefficient, which must not be zero.
func (e EffectiveCM2) Anatomic(contraction float64) AnatomicCM2 {
	return AnatomicCM2(float64(e) / contraction)
}

package beat

import "annuloscope/sim/units"

// Resting is the program's own healthy adult at rest. No patient's numbers: values are chosen so that the beat lies in
// the bands of physics.md H and B2, beginning with the textbook orders of magnitude (from memory) beside each.
func Resting() Params {
	return Params{
		RatePerMin: 70,
		LV: Ventricle{
			EndSystolicElastance: 2.6,    // textbook 2 to 3; sets ejection fraction and systolic pressure
			UnstressedML:         5,      // physics.md C2 (S31)
			PassiveScaleMMHg:     3,      // with the next: end-diastolic pressure 4 to 12 (H, S49), E deceleration
			PassiveStiffnessPML:  0.0108, // near 160 ms (H, S55)
		},
		RV: Ventricle{EndSystolicElastance: 0.5, UnstressedML: 20, PassiveScaleMMHg: 1, PassiveStiffnessPML: 0.014},
		LA: Atrium{
			ComplianceMLPMMHg: 10,    // 5 mL/mmHg at 7 mmHg
			StiffeningPML:     0.015, // v wave of a sudden leak near H, S51
			ActiveElastance:   0.3,   // E/A of H, S54
			UnstressedML:      5,     // physics.md C2: 4
		},
		RA: Atrium{ComplianceMLPMMHg: 12, StiffeningPML: 0.005, ActiveElastance: 0.2, UnstressedML: 5},

		SystemicResistance:           0.95, // physics.md C1: 1.11, C2: 1.15; aortic mean of H
		CharacteristicResistance:     0.04, // textbook 0.03 to 0.06
		ArterialCompliance:           1.7,  // C1: 1.13, C2: 1.68; pulse pressure of H
		VenousCompliance:             60,   // textbook 50 to 100; C1 and C2 hold far less blood in the veins
		VenousResistance:             0.03, // C2: 0.075
		PulmonaryResistance:          0.09, // textbook 0.05 to 0.12
		PulmonaryArterialComp:        4,    // C2: 3.8
		PulmonaryVenousComp:          80,   // 25 mL/mmHg at 7 mmHg (C2: 20.5), 10 at 22
		PulmonaryVenousStiffeningPML: 0.004,
		PulmonaryVenousRes:           0.02, // C2: 0.006; bounds the flow back into the veins at the a wave

		StressedVolumeML: 1200, // atrial mean of H, S48
		// Effective areas; inflow and outflow valves of a healthy adult cost little pressure at any flow here.
		AorticAreaCM2: 3.5, TricuspidAreaCM2: 6, PulmonaryAreaCM2: 4,
		Mitral: Mitral{AreaCM2: 5, ColumnCM: 2.5}, // B2: normal 4 to 5 cm²; about two radii of blood move (chosen)
	}
}

// Grown returns p with a left ventricle s times the size in volume, geometrically similar: the same passive and active
// pressures at s times the volume (eccentric growth).
func (p Params) Grown(s float64) Params {
	p.LV.UnstressedML *= s
	p.LV.PassiveStiffnessPML /= s
	p.LV.EndSystolicElastance /= s
	return p
}

// AtriumGrown returns p with a left atrium s times the size in volume, geometrically similar.
func (p Params) AtriumGrown(s float64) Params {
	p.LA.ComplianceMLPMMHg *= s
	p.LA.StiffeningPML /= s
	p.LA.UnstressedML *= s
	p.LA.ActiveElastance /= s
	return p
}

// Unloaded returns p under a vasodilator: systemic resistance lower by the given share (0 to 1; 0.3 is a strong dose).
func (p Params) Unloaded(share float64) Params {
	p.SystemicResistance *= 1 - share
	return p
}

// Exercising returns p with a share (0 to 1) of brisk upright effort. Factors of the whole chosen, from memory of textbook
// orders: 50 beats a minute more, half the systemic resistance, contractility of both ventricles up by 60 %, veins
// squeezed (35 % more stressed volume), wider lung vessels.
func (p Params) Exercising(share float64) Params {
	p.RatePerMin += 50 * share
	p.SystemicResistance *= 1 - 0.5*share
	p.LV.EndSystolicElastance *= 1 + 0.6*share
	p.RV.EndSystolicElastance *= 1 + 0.6*share
	p.StressedVolumeML *= 1 + 0.35*share
	p.PulmonaryResistance *= 1 - 0.4*share
	return p
}

// Adapted returns p, a heart with a leak, after it has grown with it by a share (0 to 1) of what ChronicLeak has: a ventricle
// up to 1.5 times and an atrium up to 2.5 times the size. A tenth more blood fills them (chosen: the acute heart has drawn
// on its veins already; directions of C3).
func (p Params) Adapted(share float64) Params {
	p = p.Grown(1 + 0.5*share).AtriumGrown(1 + 1.5*share)
	p.StressedVolumeML *= 1 + 0.1*share
	return p
}

// Leaking returns p with a constant effective leak area.
func (p Params) Leaking(area units.EffectiveCM2) Params {
	p.Leak = Leak{AreaCM2: area}
	return p
}

// AcuteLeak is the resting adult hours after a severe leak appears: chambers unchanged (small, stiff atrium), rate up,
// blood moved into the stressed volume by venous constriction. Chosen to meet the directions of physics.md C3 (S32).
func AcuteLeak() Params {
	p := Resting().Leaking(0.45)
	p.RatePerMin = 95
	p.StressedVolumeML = 1750
	return p
}

// ChronicLeak is the same leak compensated over years: ventricle 1.5 times and atrium 2.5 times the size, moderately more
// blood, ordinary rate (C3).
func ChronicLeak() Params {
	p := Resting().Leaking(0.45).Grown(1.5).AtriumGrown(2.5)
	p.RatePerMin = 75
	p.StressedVolumeML = 1650
	return p
}

// Decompensated is the chronic leak after the muscle fails: contractility down by 45 %, fluid retained, rate up (C3).
func Decompensated() Params {
	p := ChronicLeak()
	p.LV.EndSystolicElastance *= 0.55
	p.RatePerMin = 85
	p.StressedVolumeML = 2000
	return p
}

// DilatedVentricle is a large weak ventricle without a leak: the ground of functional leaks. Chosen: ejection fraction
// near 0.3.
func DilatedVentricle() Params {
	p := Resting().Grown(1.8).AtriumGrown(1.8)
	p.LV.EndSystolicElastance *= 0.5
	p.RatePerMin = 76
	p.StressedVolumeML = 1500
	return p
}

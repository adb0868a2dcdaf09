package beat

// Resting is the program's own healthy adult at rest, 70/min.
func Resting() Params {
	return Params{
		RatePerMin: 70,
		LV:         Ventricle{EndSystolicElastance: 2.4, UnstressedML: 10, PassiveScaleMMHg: 1.2, PassiveStiffnessPML: 0.019},
		RV:         Ventricle{EndSystolicElastance: 0.55, UnstressedML: 20, PassiveScaleMMHg: 1.0, PassiveStiffnessPML: 0.014},
		LA:         Atrium{ComplianceMLPMMHg: 6, ActiveElastance: 0.35, UnstressedML: 5},
		RA:         Atrium{ComplianceMLPMMHg: 10, ActiveElastance: 0.2, UnstressedML: 5},

		SystemicResistance:       1.0,
		CharacteristicResistance: 0.04,
		ArterialCompliance:       1.5,
		VenousCompliance:         60,
		VenousResistance:         0.03,
		PulmonaryResistance:      0.09,
		PulmonaryArterialComp:    4,
		PulmonaryVenousComp:      12,
		PulmonaryVenousRes:       0.02,

		StressedVolumeML: 1000,
		AorticAreaCM2:    3.5, TricuspidAreaCM2: 6, PulmonaryAreaCM2: 4,
		Mitral: Mitral{AreaCM2: 4, ColumnCM: 2},
	}
}

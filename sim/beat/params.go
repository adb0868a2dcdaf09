package beat

import "annuloscope/sim/units"

// Ventricle is a chamber with p = f·Ees·(V−V0) + (1−f)·PassiveScale·(exp(Stiffness·(V−V0))−1).
type Ventricle struct {
	EndSystolicElastance float64 // mmHg/mL
	UnstressedML         float64 // V0, mL
	PassiveScaleMMHg     float64
	PassiveStiffnessPML  float64 // 1/mL
}

// Atrium is a chamber with p = f·ActiveElastance·(V−V0) + (1−f)·(exp(s·(V−V0))−1)/(s·Compliance), s = StiffeningPML: its
// passive compliance is Compliance when empty and Compliance/(1 + s·Compliance·p) at pressure p.
type Atrium struct {
	ComplianceMLPMMHg float64 // passive, at V0, mL/mmHg
	StiffeningPML     float64 // s, 1/mL
	ActiveElastance   float64 // at the height of the contraction, mmHg/mL
	UnstressedML      float64 // V0, mL
}

// Course is a dimensionless factor over a phase from 0 to 1, at evenly spaced phases including both ends, joined by
// straight lines. Empty means 1 throughout.
type Course []float64

// Mitral is the valve in diastole.
type Mitral struct {
	AreaCM2  units.EffectiveCM2 // total effective opening
	ColumnCM float64            // length of the moving blood column (inertance), cm
	// Shape scales the area over the diastolic phase: 0 when the valve opens, 1 when it closes. Keep it well above 0.
	Shape Course
}

// Leak is the valve in systole: effective area = AreaCM2 · Course(systolic phase) · pressure factor · volume factor.
type Leak struct {
	AreaCM2 units.EffectiveCM2
	Course  Course
	// PressureExponent b: factor (Δp/PressureReferenceMMHg)^b with Δp = LV − LA, held between 1/4 and 4. Negative:
	// pressure helps to close. 0 = none.
	PressureExponent      float64
	PressureReferenceMMHg float64
	// VolumeSlope v: factor 1 + v·(V_LV/VolumeReferenceML − 1), held between 0 and 4. 0 = none.
	VolumeSlope       float64
	VolumeReferenceML float64
}

// Params is everything the circulation needs. Presets (Resting and others) return complete sets.
type Params struct {
	RatePerMin float64

	LV, RV Ventricle
	LA, RA Atrium

	SystemicResistance       float64 // arteries to veins, mmHg·s/mL
	CharacteristicResistance float64 // aortic root, mmHg·s/mL
	ArterialCompliance       float64 // mL/mmHg
	VenousCompliance         float64 // mL/mmHg
	VenousResistance         float64 // mmHg·s/mL
	PulmonaryResistance      float64 // mmHg·s/mL
	PulmonaryArterialComp    float64 // mL/mmHg
	// Pulmonary veins stiffen like an atrium: compliance Comp/(1 + Stiffening·Comp·p).
	PulmonaryVenousComp          float64 // empty, mL/mmHg
	PulmonaryVenousStiffeningPML float64 // 1/mL
	PulmonaryVenousRes           float64 // mmHg·s/mL

	// StressedVolumeML is the blood above the unstressed volumes of all compartments together, mL.
	StressedVolumeML float64

	AorticAreaCM2, TricuspidAreaCM2, PulmonaryAreaCM2 units.EffectiveCM2

	Mitral Mitral
	Leak   Leak

	// Steps per beat; 0 means the default.
	Steps int
}

package cohortview

import (
	"math"

	"annuloscope/sim/cohort"
)

// measure is one number of a patient that can be an axis. Its name is the word cohort.m.NAME.
type measure struct {
	name     string
	unit     string
	decimals int
	treated  bool // needs the state after treatment
	of       func(m *cohort.Member) float64
}

var measures = []measure{
	{"width", "mm", 1, false, func(m *cohort.Member) float64 { return m.Before.Annulus.SeptalLateralMM }},
	{"leak", "cm²", 2, false, func(m *cohort.Member) float64 { return float64(m.Before.Regurgitation.EffectiveOrificeCM2) }},
	{"elevation", "mm", 1, false, func(m *cohort.Member) float64 { return m.Case.Patient.Sinus.ElevationMM.Middle }},
	{"distance", "mm", 1, false, func(m *cohort.Member) float64 { return m.Case.Patient.Sinus.DistanceMM.Middle }},
	{"length", "mm", 0, false, func(m *cohort.Member) float64 { return m.Case.Patient.Sinus.LengthMM }},
	{"crossing", "mm", 0, false, func(m *cohort.Member) float64 { return m.Case.Patient.Artery.CrossingMM }},
	{"tissue", "mm", 1, false, func(m *cohort.Member) float64 { return m.Case.Patient.Artery.SeparationMM }},
	{"fall", "%", 1, true, func(m *cohort.Member) float64 {
		return 100 * (1 - m.After.Annulus.SeptalLateralMM/m.Before.Annulus.SeptalLateralMM)
	}},
	{"residual", "cm²", 2, true, func(m *cohort.Member) float64 { return float64(m.After.Regurgitation.EffectiveOrificeCM2) }},
	{"narrowing", "%", 0, true, func(m *cohort.Member) float64 { return m.After.Artery.WorstViewNarrowing }},
	{"gradient", "mmHg", 1, true, func(m *cohort.Member) float64 { return m.After.Opening.MeanGradientMMHg }},
}

// value is NaN where the patient has no such number: not treated, or not converged.
func (k *measure) value(m *cohort.Member) float64 {
	if m.Failure != "" || k.treated && !(m.Solved && m.Fits) {
		return math.NaN()
	}
	return k.of(m)
}

// response is which of cohort.Responses an axis stands for, when asked which anatomy decides.
func (k *measure) response() int {
	switch k.name {
	case "residual", "leak":
		return 1
	case "narrowing", "crossing", "tissue":
		return 2
	}
	return 0
}

func find(name string) int {
	for i := range measures {
		if measures[i].name == name {
			return i
		}
	}
	panic("cohortview: no measure " + name)
}

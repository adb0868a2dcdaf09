package beat

import (
	"fmt"
	"math"
)

// Check returns an error naming the first field outside its range, the value, the range and the fix. The ranges are
// chosen: wide enough for any patient and any teaching experiment, narrow enough for the solver.
func (p *Params) Check() error {
	for _, f := range [...]struct {
		name      string
		v, lo, hi float64
		unit      string
	}{
		{"RatePerMin", p.RatePerMin, 20, 220, "1/min"},
		{"LV.EndSystolicElastance", p.LV.EndSystolicElastance, 0.05, 30, "mmHg/mL"},
		{"LV.UnstressedML", p.LV.UnstressedML, -100, 500, "mL"},
		{"LV.PassiveScaleMMHg", p.LV.PassiveScaleMMHg, 0.01, 20, "mmHg"},
		{"LV.PassiveStiffnessPML", p.LV.PassiveStiffnessPML, 0.001, 0.2, "1/mL"},
		{"RV.EndSystolicElastance", p.RV.EndSystolicElastance, 0.05, 30, "mmHg/mL"},
		{"RV.UnstressedML", p.RV.UnstressedML, -100, 500, "mL"},
		{"RV.PassiveScaleMMHg", p.RV.PassiveScaleMMHg, 0.01, 20, "mmHg"},
		{"RV.PassiveStiffnessPML", p.RV.PassiveStiffnessPML, 0.001, 0.2, "1/mL"},
		{"LA.ComplianceMLPMMHg", p.LA.ComplianceMLPMMHg, 0.5, 100, "mL/mmHg"},
		{"LA.StiffeningPML", p.LA.StiffeningPML, 0.0005, 0.2, "1/mL"},
		{"LA.ActiveElastance", p.LA.ActiveElastance, 0.005, 5, "mmHg/mL"},
		{"LA.UnstressedML", p.LA.UnstressedML, -100, 500, "mL"},
		{"RA.ComplianceMLPMMHg", p.RA.ComplianceMLPMMHg, 0.5, 100, "mL/mmHg"},
		{"RA.StiffeningPML", p.RA.StiffeningPML, 0.0005, 0.2, "1/mL"},
		{"RA.ActiveElastance", p.RA.ActiveElastance, 0.005, 5, "mmHg/mL"},
		{"RA.UnstressedML", p.RA.UnstressedML, -100, 500, "mL"},
		{"SystemicResistance", p.SystemicResistance, 0.05, 10, "mmHg·s/mL"},
		{"CharacteristicResistance", p.CharacteristicResistance, 0, 1, "mmHg·s/mL"},
		{"ArterialCompliance", p.ArterialCompliance, 0.05, 20, "mL/mmHg"},
		{"VenousCompliance", p.VenousCompliance, 1, 1000, "mL/mmHg"},
		{"VenousResistance", p.VenousResistance, 0.001, 2, "mmHg·s/mL"},
		{"PulmonaryResistance", p.PulmonaryResistance, 0.005, 5, "mmHg·s/mL"},
		{"PulmonaryArterialComp", p.PulmonaryArterialComp, 0.1, 50, "mL/mmHg"},
		{"PulmonaryVenousComp", p.PulmonaryVenousComp, 0.5, 200, "mL/mmHg"},
		{"PulmonaryVenousStiffeningPML", p.PulmonaryVenousStiffeningPML, 0.0005, 0.2, "1/mL"},
		{"PulmonaryVenousRes", p.PulmonaryVenousRes, 0.001, 2, "mmHg·s/mL"},
		{"StressedVolumeML", p.StressedVolumeML, 100, 10000, "mL"},
		{"AorticAreaCM2", float64(p.AorticAreaCM2), 0.2, 20, "cm²"},
		{"TricuspidAreaCM2", float64(p.TricuspidAreaCM2), 0.2, 20, "cm²"},
		{"PulmonaryAreaCM2", float64(p.PulmonaryAreaCM2), 0.2, 20, "cm²"},
		{"Mitral.AreaCM2", float64(p.Mitral.AreaCM2), 0.1, 20, "cm²"},
		{"Mitral.ColumnCM", p.Mitral.ColumnCM, 0.05, 20, "cm"},
		{"Leak.AreaCM2", float64(p.Leak.AreaCM2), 0, 20, "cm²"},
		{"Leak.PressureExponent", p.Leak.PressureExponent, -0.45, 2, ""},
		{"Leak.VolumeSlope", p.Leak.VolumeSlope, -5, 5, ""},
	} {
		if err := within(f.name, f.v, f.lo, f.hi, f.unit); err != nil {
			return err
		}
	}
	if p.Leak.PressureExponent != 0 {
		if err := within("Leak.PressureReferenceMMHg", p.Leak.PressureReferenceMMHg, 1, 400, "mmHg"); err != nil {
			return err
		}
	}
	if p.Leak.VolumeSlope != 0 {
		if err := within("Leak.VolumeReferenceML", p.Leak.VolumeReferenceML, 1, 1000, "mL"); err != nil {
			return err
		}
	}
	if p.Steps != 0 && (p.Steps < minSteps || p.Steps > maxSteps) {
		return fmt.Errorf("beat: Steps is %d; allowed %d to %d, or 0 for the default", p.Steps, minSteps, maxSteps)
	}
	if err := p.Leak.Course.check("Leak.Course", 0, 20); err != nil {
		return err
	}
	return p.Mitral.Shape.check("Mitral.Shape", 0.05, 5)
}

func within(name string, v, lo, hi float64, unit string) error {
	if v >= lo && v <= hi {
		return nil
	}
	fix := "lower it"
	if !(v >= lo) {
		fix = "raise it"
	}
	if math.IsNaN(v) {
		fix = "give a number"
	}
	return fmt.Errorf("beat: %s is %g %s; allowed %g to %g: %s", name, v, unit, lo, hi, fix)
}

func (c Course) check(name string, lo, hi float64) error {
	for i, v := range c {
		if !(v >= lo && v <= hi) {
			return fmt.Errorf("beat: %s[%d] is %g; allowed %g to %g: change this sample", name, i, v, lo, hi)
		}
	}
	return nil
}

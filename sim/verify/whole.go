package verify

import (
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// whole runs the program from case to report: what was measured must come back, and edge repair is set beside a
// simulation study and a cohort.
func whole() []Row {
	s := &sheet{group: "Whole program", source: ""}
	c := casefile.Case{Patient: anatomy.Normal()}
	c.Patient.Mechanism = anatomy.Functional
	for path, v := range map[string]float64{"annulus.septal_lateral_mm": 36, "annulus.commissural_mm": 43, "annulus.height_mm": 5.9,
		"measured.depth_mm": 9.5, "measured.contact_mm": 2, "measured.effective_orifice_cm2": 0.32, "measured.opening_area_cm2": 5.6,
		"heart.rate_per_min": 76, "heart.end_diastolic_ml": 230, "heart.end_systolic_ml": 138} {
		if err := c.Set(path, v); err != nil {
			panic("verify: " + err.Error())
		}
	}
	c.Repairs = []repair.Step{repair.Must(repair.EdgeClip)}
	r, err := valve.Solve(c, valve.Options{Circulation: true})
	if err != nil {
		panic("verify: " + err.Error())
	}
	const stated = "definition: what was measured in a patient is reproduced"
	a, b := &r.Before, &r.After
	s.exact("septal-lateral diameter of a case of 36 mm", "mm", 36, a.Annulus.SeptalLateralMM, 1e-2, stated)
	s.exact("commissural diameter of a case of 43 mm", "mm", 43, a.Annulus.CommissuralMM, 1e-2, stated)
	s.exact("depth of a case of 9.5 mm", "mm", 9.5, a.Coaptation.DepthMM, 1e-4, stated)
	s.exact("mean contact of a case of 2 mm", "mm", 2, a.Coaptation.ContactMM.Mean, 1e-4, stated)
	s.exact("effective leak orifice of a case of 0.32 cm²", "cm²", 0.32, float64(a.Regurgitation.EffectiveOrificeCM2), 1e-4, stated)
	s.exact("opening of a case of 5.6 cm²", "cm²", 5.6, float64(a.Opening.AnatomicAreaCM2), 1e-4, stated)
	fall := func(before, after float64) float64 { return 100 * (1 - after/before) }
	const study = "physics.md A3, S3: up to"
	s.band(Published, "one central clip, fall of the septal-lateral diameter", "%", 0, 28, fall(a.Annulus.SeptalLateralMM, b.Annulus.SeptalLateralMM), study)
	s.band(Published, "one central clip, fall of the opening", "%", 0, 71, fall(float64(a.Opening.AnatomicAreaCM2), float64(b.Opening.AnatomicAreaCM2)), study)
	s.band(Published, "one central clip, fall of the anatomic leak orifice", "%", 0, 52, fall(float64(a.Regurgitation.AnatomicOrificeCM2), float64(b.Regurgitation.AnatomicOrificeCM2)), study)
	s.add(Published, "mean gradient after one central clip", "mmHg", 4.1, b.Opening.MeanGradientMMHg, 2.2, "physics.md A3, S2")
	return s.rows
}

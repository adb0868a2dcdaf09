package verify

import (
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// clips sets the shape of a functional leak and what a clip leaves of it beside two echo series that are not in physics.md.
func clips() []Row {
	s := &sheet{group: "Functional leak and clip, echo series", source: ""}
	c := casefile.Case{Patient: anatomy.Normal()}
	c.Patient.Mechanism = anatomy.Functional
	for path, v := range map[string]float64{"annulus.septal_lateral_mm": 36, "annulus.commissural_mm": 43, "annulus.height_mm": 5.9,
		"measured.depth_mm": 9.5, "measured.contact_mm": 2, "measured.effective_orifice_cm2": 0.39 * 0.8, "measured.opening_area_cm2": 5.6,
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
	// The series calls 0.39 cm² severe, at a mean of the two widths of 0.78 cm: an ellipse of half sum and area gives both.
	const area, mean = 39.0, 7.8
	d := math.Sqrt(mean*mean - 4*area/math.Pi)
	const ellipse = "derived from Onishi, Rev Cardiovasc Med 2023, doi 10.31083/j.rcm2408233 (abstract seen): severe from 0.39 cm² and 0.78 cm mean width"
	leak := r.Before.Laboratory.Leaks[0]
	s.add(Secondary, "length of a functional leak of 0.39 cm² along the line", "mm", mean+d, leak.LengthMM, 3, ellipse)
	s.add(Secondary, "its width", "mm", mean-d, leak.WidthMM, 1.5, ellipse)
	s.band(Published, "leak area left after clip repair, share", "1", 0.07, 0.38,
		float64(r.After.Regurgitation.AnatomicOrificeCM2/r.Before.Regurgitation.AnatomicOrificeCM2),
		"Dietl, Cardiovasc Ultrasound 2018;16:1 (abstract seen): 0.99 ± 0.46 → 0.22 ± 0.15 cm², one or more clips; ours one central clip")
	// The gradient follows the square of the flow. This invented patient sends 40 to 60 mL; the cohort's flows are not given.
	flow := r.After.Beat.ForwardSVML + r.After.Regurgitation.VolumeML
	s.add(Published, "mean gradient after the clip, carried to an assumed inflow of 90 mL", "mmHg", 4.1,
		r.After.Opening.MeanGradientMMHg*(90/flow)*(90/flow), 2.2, "physics.md A3, S2; flow assumed, as in the rows above")
	return s.rows
}

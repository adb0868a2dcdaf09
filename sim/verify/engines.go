package verify

import (
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Engine is the kind of a row that sets our two engines of the leaflets beside each other. Neither is the truth: outside
// the tolerance it shows a gap.
const Engine Kind = "our other engine"

// engines compares the leaflets in three dimensions with the sections: one baseline, then what each predicts.
func engines() []Row {
	s := &sheet{group: "Two engines of the leaflets", source: ""}
	c := casefile.Case{Patient: anatomy.Normal()}
	c.Patient.Mechanism = anatomy.Functional
	for path, v := range map[string]float64{"annulus.septal_lateral_mm": 36, "annulus.commissural_mm": 43, "annulus.height_mm": 5.9,
		"measured.depth_mm": 9.5, "measured.contact_mm": 2, "measured.effective_orifice_cm2": 0.32, "measured.opening_area_cm2": 5.6} {
		if err := c.Set(path, v); err != nil {
			panic("verify: " + err.Error())
		}
	}
	solver, settled := valve.NewSolver(), 0.
	solve := func(steps ...repair.Step) (sections, shell valve.Report) {
		c.Repairs = steps
		r, err := solver.Solve(c, valve.Options{})
		if err != nil {
			panic("verify: " + err.Error())
		}
		sections = r
		solver.Settle(&r, valve.Options{Coarse: true}, nil)
		if r.Provenance.Engine == valve.ShellEngine {
			settled++
		}
		return sections, r
	}
	for _, shortening := range []float64{10, 20} {
		a, b := solve(repair.Must(repair.SinusBand).With("shortening_mm", shortening))
		name := ", shell, band shortened by " + map[float64]string{10: "10 mm", 20: "20 mm"}[shortening]
		for _, q := range []struct {
			what, unit string
			of         func(*valve.State) float64
		}{
			{"change of mean contact", "mm", func(s *valve.State) float64 { return s.Coaptation.ContactMM.Mean }},
			{"change of depth", "mm", func(s *valve.State) float64 { return s.Coaptation.DepthMM }},
			{"change of the leak's effective orifice", "cm²", func(s *valve.State) float64 { return float64(s.Regurgitation.EffectiveOrificeCM2) }},
		} {
			want, got := q.of(&a.After)-q.of(&a.Before), q.of(&b.After)-q.of(&b.Before)
			s.add(Engine, q.what+name, q.unit, want, got, 0.15*max(want, -want), "sections; 15 % asked for by us")
		}
	}
	_, clip := solve(repair.Must(repair.EdgeClip))
	kept := float64(clip.After.Opening.AnatomicAreaCM2 / clip.Before.Opening.AnatomicAreaCM2)
	s.band(Published, "opening kept by one central clip, shell", "1", 0.4, 0.7, kept, "physics.md A3, S2: 6.0 to 3.6 cm², bands")
	s.exact("orifices after one central clip, shell", "1", 2, float64(len(clip.After.Opening.OrificesCM2)), 0.01, "definition: a clip divides the opening")
	s.exact("solves that are the shell's own, of 3", "1", 3, settled, 0.01, "definition: else the sections would be compared with themselves")
	return s.rows
}

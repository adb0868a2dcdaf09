package verify

import (
	"annuloscope/sim/anatomy"
	"annuloscope/sim/beat"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// stages checks the directions from a normal heart to an acute, a compensated and a failing leak.
func stages() []Row {
	s := &sheet{group: "C3 directions of the leak's stages", source: "physics.md C3, "}
	solve := func(p beat.Params) beat.Result {
		r, err := beat.Solve(p)
		if err != nil {
			panic("verify: " + err.Error())
		}
		return r
	}
	normal, acute, chronic, failing := solve(beat.Resting()), solve(beat.AcuteLeak()), solve(beat.ChronicLeak()), solve(beat.Decompensated())
	for _, c := range []struct {
		what, unit string
		low, high  float64 // one of them 0: the direction; the other only bounds it
		change     float64
	}{
		{"acute leak against normal, end-diastolic volume rises by", "mL", 0, 100, acute.EDVML - normal.EDVML},
		{"acute leak against normal, end-systolic volume changes by", "mL", -100, 0, acute.ESVML - normal.ESVML},
		{"acute leak against normal, ejection fraction rises by", "%", 0, 50, 100 * (acute.EF - normal.EF)},
		{"acute leak against normal, forward stroke changes by", "mL", -100, 0, acute.ForwardStrokeML - normal.ForwardStrokeML},
		{"compensated against acute leak, atrial mean changes by", "mmHg", -30, 0, chronic.LAMeanMMHg - acute.LAMeanMMHg},
		{"compensated against acute leak, total stroke rises by", "mL", 0, 100, chronic.TotalStrokeML - acute.TotalStrokeML},
		{"failing against compensated leak, end-systolic volume rises by", "mL", 0, 150, failing.ESVML - chronic.ESVML},
	} {
		s.band(Published, c.what, c.unit, c.low, c.high, c.change, "S32 (direction)")
	}
	return s.rows
}

// systole compares the leak over systole with anatomy.md S01.
func systole() []Row {
	s := &sheet{group: "Leak over systole", source: "anatomy.md S01, "}
	c := casefile.Case{Patient: anatomy.Normal()}
	c.Patient.Mechanism = anatomy.Functional
	for path, v := range map[string]float64{"annulus.septal_lateral_mm": 34, "annulus.commissural_mm": 43, "annulus.height_mm": 5.9,
		"measured.depth_mm": 8.6, "measured.contact_mm": 1.7, "measured.effective_orifice_cm2": 0.3} {
		if err := c.Set(path, v); err != nil {
			panic("verify: " + err.Error())
		}
	}
	r, err := valve.Solve(c, valve.Options{})
	if err != nil {
		panic("verify: " + err.Error())
	}
	g := r.Before.Regurgitation
	v := g.Course.TentingVolumeML
	const fitted = "means; the papillary course was set to them"
	s.add(Published, "tenting volume in mid-systole, functional leak", "mL", 5.2, v[4], 1.8, "means")
	s.add(Published, "early over mid-systolic tenting volume", "1", 6.4/5.2, v[0]/v[4], 0.05, fitted)
	s.add(Published, "least over mid-systolic tenting volume", "1", 4.6/5.2, v[6]/v[4], 0.05, fitted)
	s.add(Published, "end- over mid-systolic tenting volume", "1", 5.3/5.2, v[8]/v[4], 0.05, fitted)
	s.band(Practice, "tethered leak, early over mid-systolic orifice", "1", 1, 3, float64(g.Course.EffectiveOrificeCM2[0]/g.EffectiveOrificeCM2), "larger early and late")
	s.band(Practice, "tethered leak, late over mid-systolic orifice", "1", 1, 3, float64(g.Course.EffectiveOrificeCM2[8]/g.EffectiveOrificeCM2), "larger early and late")
	return s.rows
}

package closure

import (
	"fmt"
	"math"
	"testing"

	"annuloscope/sim/units"
)

// The fit reproduces depth, mean contact and effective orifice to 1e-6, and so does the solve of the baseline (issue 2).
func TestFitReproduces(t *testing.T) {
	for _, ap := range []float64{26, 30, 34, 38, 42} {
		for _, c := range []Targets{
			{DepthMM: 10.5, ContactMM: 2.5, EffectiveOrifice: 0.35}, // leak and contact coexist
			{DepthMM: 10.5, ContactMM: 1.5, EffectiveOrifice: 0.30},
			{DepthMM: 5, ContactMM: 4, EffectiveOrifice: 0},
			{DepthMM: 5, ContactMM: 0.5, EffectiveOrifice: 0},
			{DepthMM: 12, ContactMM: 0.5, EffectiveOrifice: 0.6},
			{DepthMM: 8, ContactMM: 3, EffectiveOrifice: 0.2, JetPosition: 0.6, JetSpreadMM: 5},
			{DepthMM: 3, ContactMM: 3, EffectiveOrifice: 0.4, JetPosition: -0.5},
			{DepthMM: 0.5, ContactMM: 3, EffectiveOrifice: 0.4},
			{DepthMM: 9, ContactMM: 5, EffectiveOrifice: 0.5},
			{DepthMM: 7, ContactMM: 2, EffectiveOrifice: 0.02},
		} {
			t.Run(fmt.Sprintf("AP%g/%v", ap, c), func(t *testing.T) {
				in := testInput(ap, 0)
				f, rep := Fit(in, c)
				if !rep.Status.OK() {
					t.Fatalf("status %v", rep.Status)
				}
				r := Solve(f, in, nil)
				if r.Status != Converged {
					t.Fatalf("solve: %v", r.Status)
				}
				near(t, "depth", r.DepthMM, c.DepthMM, 1e-6)
				near(t, "contact", r.Contact.Mean, c.ContactMM, 1e-6)
				near(t, "orifice", float64(r.EffectiveOrifice), float64(c.EffectiveOrifice), 1e-6)
				near(t, "reported depth", rep.DepthMM, r.DepthMM, 1e-9)
				near(t, "reported contact", rep.ContactMM, r.Contact.Mean, 1e-9)
				near(t, "reported orifice", float64(rep.EffectiveOrifice), float64(r.EffectiveOrifice), 1e-9)
				if math.Abs(float64(r.OrificeHigh-r.OrificeLow)) > 1e-5 {
					t.Errorf("baseline interval [%g, %g] has a width", r.OrificeLow, r.OrificeHigh)
				}
				for k := range r.PullChange {
					for i, d := range r.PullChange[k] {
						if math.Hypot(d.X, d.Z) > 1e-8 {
							t.Fatalf("station %d: baseline pull changes by %v", i, d)
						}
					}
				}
				if rep.Status != FitByShape && (rep.Growth < 0.5 || rep.Growth > 2) {
					t.Errorf("growth %g", rep.Growth)
				}
				for _, l := range []Lengths{rep.Central, rep.Mean} {
					for _, v := range []float64{l.AnteriorMM, l.PosteriorMM, l.ChordAnteriorMM, l.ChordPosteriorMM} {
						if !(v > 3 && v < 50) {
							t.Errorf("implausible length %g mm", v)
						}
					}
				}
			})
		}
	}
}

// Known before the fit: a flail or a displaced muscle is part of what was measured, and the fit still reproduces.
func TestFitWithKnownMechanism(t *testing.T) {
	in := testInput(34, 0)
	in.State.Faults = []ChordFault{{Leaflet: Posterior, WidthMM: 15, Ruptured: true}}
	in.State.RestrictionMM = 1
	target := Targets{DepthMM: 4, ContactMM: 3, EffectiveOrifice: 0.4}
	f, rep := Fit(in, target)
	r := Solve(f, in, nil)
	near(t, "depth", r.DepthMM, target.DepthMM, 1e-6)
	near(t, "contact", r.Contact.Mean, target.ContactMM, 1e-6)
	near(t, "orifice", float64(r.EffectiveOrifice), 0.4, 1e-6)
	if !rep.Status.OK() || r.FlailGapMM < 2 || math.Abs(r.JetPosition) > 0.02 {
		t.Errorf("status %v, flail gap %g mm, jet at %g", rep.Status, r.FlailGapMM, r.JetPosition)
	}
	// Mending the chords is a change. It takes away what the fault explains of the leak, not the fitted deficit.
	cured := testInput(34, 0)
	cured.State.RestrictionMM = 1
	m := Solve(f, cured, nil)
	t.Logf("mended: %.3f of %.3f cm² remain (deficit %.1f mm)", m.EffectiveOrifice, r.EffectiveOrifice, rep.DeficitMM)
	if m.EffectiveOrifice >= r.EffectiveOrifice || m.DepthMM <= r.DepthMM {
		t.Errorf("mended chords: %g cm², depth %g mm", m.EffectiveOrifice, m.DepthMM)
	}

	// Tethering of the posteromedial muscle moves the jet towards it even when the case says nothing of the jet.
	last := -1.0
	for _, mm := range []float64{0, 4, 8} {
		in := &Input{Pressure: units.PressureFromMMHg(100)}
		pap := DefaultPapillary()
		pap.Shifts[1].ApicalMM = mm
		BuildLine(&in.Line, testAnnulus(37), &pap, 0)
		f, _ := Fit(in, functional)
		r := Solve(f, in, nil)
		near(t, "orifice", float64(r.EffectiveOrifice), 0.30, 1e-6)
		t.Logf("posteromedial muscle %g mm apical before the fit: jet at %.2f (sections sheet 0, 0.16, 0.58)", mm, r.JetPosition)
		if r.JetPosition < last {
			t.Errorf("jet went back to %g", r.JetPosition)
		}
		last = r.JetPosition
	}
}

// The template needs no targets and has a dry, normal valve; implied lengths are shown beside published ones.
func TestTemplate(t *testing.T) {
	f, rep := Template(testInput(28, 0))
	r := Solve(f, testInput(28, 0), nil)
	t.Logf("central lengths anterior %.1f posterior %.1f chord %.1f mm; published 21.1 ± 3.1 and 11.7 ± 2.9 (anatomy.md S24), chord 19.3 ± 5.0 (S36)",
		rep.Central.AnteriorMM, rep.Central.PosteriorMM, rep.Central.ChordPosteriorMM)
	t.Logf("tenting area %.2f cm² (published 0.95 ± 0.2, S22), volume %.2f mL, billowing %.2f mm (normal below 1.0, S33)",
		r.TentingAreaCM2, r.TentingVolumeML, r.BillowingHeightMM)
	if !rep.Status.OK() || r.EffectiveOrifice > 1e-5 || r.BillowingHeightMM > 1 {
		t.Errorf("%v: orifice %g, billowing %g", rep.Status, r.EffectiveOrifice, r.BillowingHeightMM)
	}
	near(t, "depth", r.DepthMM, templateDepthMM, 1e-6)
	if l := rep.Central; math.Abs(l.ChordPosteriorMM-19.3) > 5 || math.Abs(l.AnteriorMM-21.1) > 2*3.1 || math.Abs(l.PosteriorMM-11.7) > 2*2.9 {
		t.Errorf("lengths beyond two standard deviations of S24, S36: %+v", l)
	}
}

func TestCallerMistakesPanic(t *testing.T) {
	good := func() *Input { return testInput(34, 0) }
	f, _ := Fit(good(), functional)
	for name, run := range map[string]func(){
		"growth in baseline": func() { in := good(); in.State.Growth = 0.1; Fit(in, functional) },
		"no pressure":        func() { in := good(); in.Pressure = 0; Fit(in, functional) },
		"negative contact":   func() { Fit(good(), Targets{ContactMM: -1}) },
		"NaN depth":          func() { Fit(good(), Targets{DepthMM: math.NaN()}) },
		"even stations":      func() { testInput(34, 60) },
		"four clips":         func() { Solve(f, good(), make([]Clip, 4)) },
		"clip without width": func() { Solve(f, good(), []Clip{{Hold: 1}}) },
		"clip off the line":  func() { Solve(f, good(), []Clip{{Hold: 1, WidthMM: 5, Position: 1.2}}) },
		"other stations":     func() { Solve(f, testInput(34, 31), nil) },
		"scallop 4":          func() { ScallopCentre(4) },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			run()
		})
	}
}

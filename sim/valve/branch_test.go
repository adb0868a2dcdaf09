package valve_test

import (
	"math"
	"testing"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// smooth solves a case cold at even steps of something from a to b and fails where the leak changes by more than most
// between two steps after what it changed between the two before.
func smooth(t *testing.T, c casefile.Case, a, b float64, set func(c *casefile.Case, v float64), most float64) (clamped int) {
	t.Helper()
	steps := 24
	if raceDetector {
		steps = 3 // some ten times slower
		most *= 20
	}
	var last, step float64
	for k := range steps + 1 {
		v := a + (b-a)*float64(k)/float64(steps)
		d := c.Clone()
		set(&d, v)
		r, err := valve.Solve(d, valve.Options{Brief: true})
		if err != nil || !r.Provenance.Converged {
			t.Fatalf("at %g: %v %s", v, err, r.Provenance.Status)
		}
		for _, f := range r.Findings {
			if f.Code == "flail-limit" {
				clamped++
			}
		}
		now := float64(r.After.Regurgitation.EffectiveOrificeCM2)
		if k > 1 && math.Abs(now-last-step) > most {
			t.Errorf("at %g: the leak changes by %.4f cm² after %.4f", v, now-last, step)
		}
		step, last = now-last, now
	}
	return clamped
}

// A torn leaflet at its limit. Found by random moves of all sliders (seed 2): as a papillary muscle was drawn back the leak
// jumped up and down by up to 0.4 cm², because the limit was sought in steps of a fiftieth of the chords' length.
func TestFlailAtItsLimitIsSmooth(t *testing.T) {
	t.Parallel()
	c := load(t, "flail-p2")
	c.Patient.Chord.ElongatedMM = 8.5
	c.Repairs = []repair.Step{repair.Must(repair.FullRing), repair.Must(repair.Ventricle), repair.Must(repair.Papillary)}
	if smooth(t, c, 5, 6.5, func(c *casefile.Case, v float64) { c.Repairs[2] = c.Repairs[2].With("anterolateral_mm", v) }, 0.01) == 0 {
		t.Error("the leaflet never was at its limit: nothing was tested")
	}
}

// A clip at the end of its reach. Found by random moves (seed 2): judged in the annulus that it had itself drawn together, a
// clip held because it held, two answers to one case; the leak was 0.155 or 0.073 cm² and the septal-lateral diameter 31.7
// or 30.9 mm for the same calcified stretch. Clips are judged once, before they pull.
func TestClipAtTheEndOfItsReachIsSmooth(t *testing.T) {
	c := load(t, "flail-p2")
	c.Patient.Papillary.Anterolateral.LateralMM = 2.5
	c.Patient.Leaflet.CalcifiedFrom = -0.05
	c.Repairs = []repair.Step{repair.Must(repair.EdgeClip).With("reach_mm", 2.5).With("position", 0), repair.Must(repair.Ventricle),
		repair.Must(repair.EdgeStitch).With("position", 0.25), repair.Must(repair.Unloading).With("papillary_mm", 0.7)}
	smooth(t, c, -0.05, 0, func(c *casefile.Case, v float64) { c.Patient.Leaflet.CalcifiedTo = v }, 0.01)
}

// A small full ring does not fold the annulus of the invented patients at its default size, and one much narrower than the
// trigones lie apart says that it does.
func TestFoldsAreTold(t *testing.T) {
	told := func(c casefile.Case) bool {
		r, err := valve.Solve(c, valve.Options{Brief: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.Findings {
			if f.Code == "annulus-folds" {
				return true
			}
		}
		return false
	}
	names := []string{"functional", "flail-p2", "normal"}
	if raceDetector {
		names = names[:1]
	}
	for _, name := range names {
		c := load(t, name)
		c.Repairs = []repair.Step{repair.Must(repair.FullRing)}
		if told(c) {
			t.Errorf("%s: the default ring folds the annulus", name)
		}
	}
	c := load(t, "functional")
	c.Repairs = []repair.Step{repair.Must(repair.FullRing).With("size_mm", 24)}
	if !told(c) {
		t.Error("a ring of 24 mm folds the annulus of 43 mm and nothing says so")
	}
}

// A trace of leak is another valve than a dry one: the fit takes contact away at the jet. Found by random moves (seed 351): with
// chords torn since, the leak jumped by 0.14 cm² as the stated orifice left 0. The report says so on the one side and not on
// the other.
func TestTraceLeakIsTold(t *testing.T) {
	c := load(t, "normal")
	c.Patient.Measured.DepthMM, c.Patient.Measured.ContactMM = 5, 4
	c.Patient.Chord.RupturedMM = 20
	var leak [2]float64
	for i, e := range []float64{0, 1e-5} {
		c.Patient.Measured.EffectiveOrificeCM2 = e
		r, err := valve.Solve(c, valve.Options{Brief: true})
		if err != nil {
			t.Fatal(err)
		}
		told := false
		for _, f := range r.Findings {
			told = told || f.Code == "trace-leak"
		}
		if told != (i == 1) {
			t.Errorf("stated orifice %g cm²: told %v", e, told)
		}
		leak[i] = float64(r.After.Regurgitation.EffectiveOrificeCM2)
	}
	if math.Abs(leak[1]-leak[0]) < 0.02 {
		t.Errorf("leaks %.3f and %.3f cm²: no jump is left, and the finding may go", leak[0], leak[1])
	}
	t.Logf("leak %.3f dry, %.3f cm² with a trace", leak[0], leak[1])
}

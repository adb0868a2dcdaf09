package beat

import (
	"math"
	"testing"

	"annuloscope/sim/units"
)

func solve(t *testing.T, p Params) Result {
	t.Helper()
	r, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if r.Status != Converged {
		t.Fatalf("status %v after %d beats, residual %g", r.Status, r.Beats, r.Residual)
	}
	return r
}

func inside(t *testing.T, what string, got, lo, hi float64) {
	t.Helper()
	if !(got >= lo && got <= hi) {
		t.Errorf("%s: %.4g outside %g to %g", what, got, lo, hi)
	}
}

// physics.md H: plausibility bands of the healthy adult.
func TestRestingAdultLiesInTheBands(t *testing.T) {
	r := solve(t, Resting())
	inside(t, "LA mean, S48", r.LAMeanMMHg, 6, 12)
	inside(t, "LV end-diastolic, S49", r.LVEDPMMHg, 4, 12)
	inside(t, "a wave, from memory", r.LAAWaveMMHg, 4, 16)
	inside(t, "v wave, from memory", r.LAVWaveMMHg, 6, 21)
	inside(t, "aortic systolic, S48", r.AorticSystolic, 100, 140)
	inside(t, "aortic diastolic, S48", r.AorticDiastolic, 70, 90)
	inside(t, "LV systolic, S48", r.LVPeakMMHg, 100, 140)
	inside(t, "E, S54", r.EWaveCMS, 77.7-14.8, 77.7+14.8)
	inside(t, "A, S54", r.AWaveCMS, 59.2-13.9, 59.2+13.9)
	inside(t, "E/A, S54", r.EWaveCMS/r.AWaveCMS, 1.39-0.46, 1.39+0.46)
	inside(t, "IVRT, S54", r.IVRTS, 0.0946-0.0146, 0.0946+0.0146)
	inside(t, "E deceleration, S55", r.EDecelerationS, 0.160, 0.240)
	inside(t, "EF, textbook, from memory", r.EF, 0.55, 0.72)
	inside(t, "mean gradient, normal valve, below B2 mild", r.MeanGradientMMHg, 0.2, 3)
}

// physics.md C3 (S32): directions, the marked values of total stroke and leak fraction with wide bands, and H (S51,
// ±15 mmHg).
func TestStagesOfTheLeak(t *testing.T) {
	normal, acute := solve(t, Resting()), solve(t, AcuteLeak())
	chronic, failing := solve(t, ChronicLeak()), solve(t, Decompensated())
	for _, c := range []struct {
		what        string
		lower, than float64
	}{
		{"acute: EDV up", normal.EDVML, acute.EDVML},
		{"acute: ESV down", acute.ESVML, normal.ESVML},
		{"acute: EF up", normal.EF, acute.EF},
		{"acute: forward stroke down", acute.ForwardStrokeML, normal.ForwardStrokeML},
		{"acute: LA pressure up", normal.LAMeanMMHg, acute.LAMeanMMHg},
		{"chronic: EDV further up", acute.EDVML, chronic.EDVML},
		{"chronic: forward stroke recovers", acute.ForwardStrokeML, chronic.ForwardStrokeML},
		{"chronic: LA pressure falls back", chronic.LAMeanMMHg, acute.LAMeanMMHg},
		{"chronic: v wave falls back", chronic.LAVWaveMMHg, acute.LAVWaveMMHg},
		{"decompensated: ESV up", chronic.ESVML, failing.ESVML},
		{"decompensated: EDV up", chronic.EDVML, failing.EDVML},
		{"decompensated: EF down", failing.EF, chronic.EF},
		{"decompensated: forward stroke down", failing.ForwardStrokeML, chronic.ForwardStrokeML},
		{"decompensated: LA pressure up again", chronic.LAMeanMMHg, failing.LAMeanMMHg},
	} {
		if !(c.lower < c.than) {
			t.Errorf("%s: %.4g not below %.4g", c.what, c.lower, c.than)
		}
	}
	inside(t, "acute RF, C3 0.50", acute.RegurgitantFrac, 0.45, 0.55)
	inside(t, "chronic RF, C3 0.50", chronic.RegurgitantFrac, 0.45, 0.55)
	inside(t, "acute total stroke, C3 140", acute.TotalStrokeML, 126, 154)
	inside(t, "chronic total stroke, C3 190", chronic.TotalStrokeML, 171, 209)
	inside(t, "acute LA mean, S51", acute.LAMeanMMHg, 24.1-15, 24.1+15)
	inside(t, "acute v, S51", acute.LAVWaveMMHg, 41.2-15, 41.2+15)
	inside(t, "chronic LA mean, S51", chronic.LAMeanMMHg, 17.9-15, 17.9+15)
	inside(t, "chronic v, S51", chronic.LAVWaveMMHg, 32.0-15, 32.0+15)
	t.Logf("EDV/ESV normal %.0f/%.0f acute %.0f/%.0f chronic %.0f/%.0f failing %.0f/%.0f (C3: 150/50 170/30 240/50 260/110)",
		normal.EDVML, normal.ESVML, acute.EDVML, acute.ESVML, chronic.EDVML, chronic.ESVML, failing.EDVML, failing.ESVML)
	t.Logf("LA mean %.1f %.1f %.1f %.1f mmHg (C3: 10 25 15 25)", normal.LAMeanMMHg, acute.LAMeanMMHg, chronic.LAMeanMMHg, failing.LAMeanMMHg)
}

// physics.md H, S52: the v wave of a leak falls with atrial compliance.
func TestVWaveFallsWithAtrialCompliance(t *testing.T) {
	last := math.Inf(1)
	for _, size := range []float64{0.6, 1, 1.6, 2.5} {
		r := solve(t, AcuteLeak().AtriumGrown(size))
		if !(r.LAVWaveMMHg < last) {
			t.Errorf("atrium ×%g: v %.1f not below %.1f", size, r.LAVWaveMMHg, last)
		}
		last = r.LAVWaveMMHg
	}
}

func TestLeakGrowsWithTheOrifice(t *testing.T) {
	last := solve(t, Resting())
	for _, a := range []units.EffectiveCM2{0.1, 0.2, 0.3, 0.4, 0.6, 1} {
		r := solve(t, Resting().Leaking(a))
		if !(r.RegurgitantML > last.RegurgitantML && r.RegurgitantFrac > last.RegurgitantFrac &&
			r.ForwardStrokeML < last.ForwardStrokeML && r.LAMeanMMHg > last.LAMeanMMHg && r.EDVML > last.EDVML) {
			t.Errorf("leak %g cm²: RVol %.1f, RF %.2f, forward %.1f, LA %.1f, EDV %.1f do not follow the smaller leak",
				a, r.RegurgitantML, r.RegurgitantFrac, r.ForwardStrokeML, r.LAMeanMMHg, r.EDVML)
		}
		last = r
	}
}

// physics.md B2 (S19): mean gradient and grade at 60 to 80/min, and the rise with rate (same cardiac volume).
func TestStenosisAndRate(t *testing.T) {
	for _, c := range []struct{ area, lo, hi float64 }{{2, 0, 5}, {1.25, 5, 10}, {0.85, 10, 25}} {
		p := Resting()
		p.Mitral.AreaCM2 = units.EffectiveCM2(c.area)
		inside(t, "mean gradient", solve(t, p).MeanGradientMMHg, c.lo, c.hi)
	}
	for _, area := range []units.EffectiveCM2{1, 1.5, 2.5, 5} {
		last := 0.0
		for rate := 50.0; rate <= 110; rate += 10 {
			p := Resting()
			p.Mitral.AreaCM2, p.RatePerMin = area, rate
			r := solve(t, p)
			if !(r.MeanGradientMMHg > last) {
				t.Errorf("area %g, rate %g: gradient %.2f not above %.2f", area, rate, r.MeanGradientMMHg, last)
			}
			last = r.MeanGradientMMHg
		}
	}
}

// Directions from memory of textbooks: effort raises output and the gradient of a narrowed valve; a vasodilator turns
// leak into forward flow.
func TestExerciseAndUnloading(t *testing.T) {
	rest, effort := solve(t, Resting()), solve(t, Resting().Exercising(1))
	inside(t, "output on effort / at rest", effort.CardiacOutputLPMin/rest.CardiacOutputLPMin, 1.5, 3)
	p := Resting()
	p.Mitral.AreaCM2 = 1.5
	if a, b := solve(t, p).MeanGradientMMHg, solve(t, p.Exercising(1)).MeanGradientMMHg; !(b > 1.5*a) {
		t.Errorf("gradient at rest %.1f, on effort %.1f", a, b)
	}
	a, b := solve(t, AcuteLeak()), solve(t, AcuteLeak().Unloaded(0.3))
	if !(b.ForwardStrokeML > a.ForwardStrokeML && b.RegurgitantML < a.RegurgitantML && b.LAMeanMMHg < a.LAMeanMMHg &&
		b.AorticMean < a.AorticMean) {
		t.Errorf("unloading: forward %.1f→%.1f, leak %.1f→%.1f, LA %.1f→%.1f", a.ForwardStrokeML, b.ForwardStrokeML,
			a.RegurgitantML, b.RegurgitantML, a.LAMeanMMHg, b.LAMeanMMHg)
	}
	inside(t, "dilated ventricle: EF", solve(t, DilatedVentricle()).EF, 0.25, 0.35)
}

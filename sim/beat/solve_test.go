package beat

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"annuloscope/sim/units"
)

// numbers lists every float of a result but the waves and the search's own figures.
func numbers(r *Result) (names []string, values []float64) {
	v := reflect.ValueOf(*r)
	for i := range v.NumField() {
		n := v.Type().Field(i).Name
		if v.Field(i).Kind() == reflect.Float64 && n != "Residual" && n != "ConservationErrorML" {
			names, values = append(names, n), append(values, v.Field(i).Float())
		}
	}
	return names, values
}

func courseLeak() Params {
	p := AcuteLeak()
	p.Leak.Course = Course{1.3, 0.9, 0.7, 0.9, 1.3}
	p.Leak.PressureExponent, p.Leak.PressureReferenceMMHg = -0.2, 100
	p.Leak.VolumeSlope, p.Leak.VolumeReferenceML = 0.5, 100
	p.Mitral.Shape = Course{1, 1, 0.8, 1, 0.9}
	return p
}

func TestVolumeIsConservedAndAccounted(t *testing.T) {
	for _, p := range []Params{Resting(), AcuteLeak(), Decompensated(), courseLeak(), Resting().Exercising(1)} {
		p.Steps = 2 * defaultSteps // the sums below are over samples; at the default they miss the leak's onset by 0.1 mL
		r := solve(t, p)
		if !(r.ConservationErrorML < 1e-6) {
			t.Errorf("conservation error %g mL", r.ConservationErrorML)
		}
		if d := math.Abs(r.TotalStrokeML - (r.EDVML - r.ESVML)); d > 0.1 {
			t.Errorf("forward + leak departs from EDV − ESV by %.3f mL", d)
		}
		in, leak, out := 0.0, 0.0, 0.0
		h := 60 / p.RatePerMin / float64(len(r.Waves.Time))
		for i := range r.Waves.Time {
			in += h * r.Waves.MitralForward[i]
			leak += h * r.Waves.LeakFlow[i]
			out += h * r.Waves.AorticFlow[i]
			// The leak obeys the orifice law (physics.md B, true-density constant) wherever it flows freely.
			if dp := r.Waves.LV[i] - r.Waves.LA[i]; dp > 20 {
				want := units.JetSpeedPerRootMMHg * r.Waves.LeakArea[i] * math.Sqrt(dp)
				if math.Abs(r.Waves.LeakFlow[i]-want) > 1e-3*(1+want) {
					t.Fatalf("leak flow %g, orifice law %g", r.Waves.LeakFlow[i], want)
				}
			}
		}
		for what, d := range map[string]float64{"leak": leak - r.RegurgitantML, "forward": out - r.ForwardStrokeML,
			"mitral inflow": in - r.TotalStrokeML} {
			if math.Abs(d) > 0.1 {
				t.Errorf("integral of the %s wave is off by %.3f mL", what, d)
			}
		}
	}
}

func TestColdIsDeterministic(t *testing.T) {
	a, b := solve(t, courseLeak()), solve(t, courseLeak())
	if !reflect.DeepEqual(a, b) {
		t.Error("two cold runs differ")
	}
}

// Warm and cold answers agree: 1e-3 of each number's own unit (mL, mmHg, cm/s; the search stops at 1e-5 mL).
func TestWarmAgreesWithCold(t *testing.T) {
	w := NewWorkspace()
	for _, p := range []Params{Resting(), AcuteLeak(), courseLeak(), Decompensated(), Resting().Exercising(1), Resting()} {
		cold := solve(t, p)
		warm, err := w.Solve(&p)
		if err != nil || warm.Status != Converged {
			t.Fatalf("warm: %v, status %v", err, warm.Status)
		}
		names, c := numbers(&cold)
		_, v := numbers(warm)
		for i := range c {
			if math.Abs(c[i]-v[i]) > 1e-3 {
				t.Errorf("%s: cold %.6f, warm %.6f", names[i], c[i], v[i])
			}
		}
	}
}

func TestWarmDoesNotAllocate(t *testing.T) {
	w := NewWorkspace()
	p := courseLeak()
	w.Solve(&p)
	i := 0
	if n := testing.AllocsPerRun(5, func() { i++; p.Leak.AreaCM2 = leaks[i%len(leaks)]; w.Solve(&p) }); n != 0 {
		t.Errorf("%g allocations per warm solve", n)
	}
}

// A course of ones is a constant leak; halving it halves the area; the tethered form moves flow to early and late
// systole (issue 4, dynamic orifice).
func TestCourses(t *testing.T) {
	plain := solve(t, AcuteLeak())
	p := AcuteLeak()
	p.Leak.Course = Course{1, 1, 1}
	ones := solve(t, p)
	if d := math.Abs(plain.RegurgitantML - ones.RegurgitantML); d > 1e-3 {
		t.Errorf("a course of ones changes the leak by %g mL", d)
	}
	p.Leak.Course = Course{1.5, 1, 0.6, 1, 1.5}
	tethered := solve(t, p)
	if !(tethered.LeakMidCM2 < tethered.LeakMeanCM2 && tethered.LeakMeanCM2 < tethered.LeakPeakCM2) {
		t.Errorf("tethered: mid %.3f, mean %.3f, peak %.3f", tethered.LeakMidCM2, tethered.LeakMeanCM2, tethered.LeakPeakCM2)
	}
	p.Leak.Course = Course{0, 0, 0.2, 1, 1.5}
	late := solve(t, p)
	if !(late.LeakMidCM2 < 0.5*tethered.LeakMidCM2 && late.RegurgitantML < tethered.RegurgitantML) {
		t.Errorf("late leak: mid %.3f, volume %.1f", late.LeakMidCM2, late.RegurgitantML)
	}
	// Pressure that closes: factor 1 at the reference, so a reference at the mean drop changes little, a low
	// reference shrinks the leak.
	p = AcuteLeak()
	p.Leak.PressureExponent, p.Leak.PressureReferenceMMHg = -0.3, 20
	if r := solve(t, p); !(float64(r.LeakMidCM2) < 0.75*0.45) {
		t.Errorf("closing pressure leaves %.3f cm²", r.LeakMidCM2)
	}
	p = AcuteLeak()
	p.Leak.VolumeSlope, p.Leak.VolumeReferenceML = 1, 200
	r := solve(t, p)
	want := 0.45 * r.Waves.LVVolume[r.Phases.MidSystoleIndex] / 200
	if math.Abs(float64(r.LeakMidCM2)-want) > 0.01 {
		t.Errorf("volume factor: %.4f cm², want near %.4f", r.LeakMidCM2, want)
	}
}

func TestPhasesAreInOrder(t *testing.T) {
	for _, p := range []Params{Resting(), AcuteLeak(), ChronicLeak(), Resting().Exercising(1)} {
		r := solve(t, p)
		T := 60 / p.RatePerMin
		since := func(x float64) float64 { return math.Mod(x-r.Phases.MitralClose+T, T) }
		last := 0.0
		for _, x := range []float64{r.Phases.AorticOpen, r.Phases.MidSystole, r.Phases.AorticClose, r.Phases.MitralOpen, r.Phases.MidDiastole} {
			if s := since(x); !(s > last && s < T) {
				t.Errorf("phases out of order: %+v", r.Phases)
			} else {
				last = s
			}
		}
	}
}

// Observed convergence of the adult's numbers with the steps: volumes and pressures of the default grid against 16
// times finer.
func TestGridOfTheAdult(t *testing.T) {
	for _, p := range []Params{Resting(), AcuteLeak()} {
		p.Steps = 16 * defaultSteps
		fine := solve(t, p)
		var worst [3]float64
		for k, n := range []int{defaultSteps / 2, defaultSteps, 2 * defaultSteps} {
			p.Steps = n
			r := solve(t, p)
			for _, d := range []float64{r.EDVML - fine.EDVML, r.ESVML - fine.ESVML, r.RegurgitantML - fine.RegurgitantML,
				r.LAMeanMMHg - fine.LAMeanMMHg, r.AorticMean - fine.AorticMean, r.MeanGradientMMHg - fine.MeanGradientMMHg} {
				worst[k] = max(worst[k], math.Abs(d))
			}
		}
		t.Logf("largest error (mL, mmHg) at %d·{½,1,2} steps: %.3g", defaultSteps, worst)
		if worst[1] > 0.1 || worst[2] > worst[0] {
			t.Errorf("grid error %v", worst)
		}
	}
}

// Random parameters round the presets: always finite, and converged but for a stated share.
func TestRandomParameters(t *testing.T) { randomParameters(t, 100) }

func randomParameters(t *testing.T, n int) {
	rng := rand.New(rand.NewPCG(1, 2))
	presets := []Params{Resting(), AcuteLeak(), ChronicLeak(), Decompensated(), DilatedVentricle(), courseLeak()}
	w := NewWorkspace()
	failed, blocked := 0, 0
	for i := range n {
		p := presets[i%len(presets)]
		f := func(x *float64, spread float64) { *x *= math.Exp(spread * (2*rng.Float64() - 1)) }
		p.RatePerMin = 40 + 120*rng.Float64()
		f(&p.LV.EndSystolicElastance, 0.7)
		f(&p.LV.PassiveStiffnessPML, 0.4)
		f(&p.SystemicResistance, 0.7)
		f(&p.StressedVolumeML, 0.4)
		f(&p.LA.ComplianceMLPMMHg, 0.8)
		p.Leak.AreaCM2 = units.EffectiveCM2(1.2 * rng.Float64() * rng.Float64())
		p.Mitral.AreaCM2 = units.EffectiveCM2(0.6 + 5*rng.Float64())
		r, err := w.Solve(&p)
		if err != nil {
			t.Fatal(err)
		}
		names, v := numbers(r)
		for k := range v {
			if math.IsNaN(v[k]) || math.IsInf(v[k], 0) {
				t.Fatalf("set %d: %s is %g", i, names[k], v[k])
			}
		}
		switch r.Status {
		case NotConverged:
			failed++
			t.Logf("set %d: not converged, residual %g after %d beats: %+v", i, r.Residual, r.Beats, p)
		case NoOpening:
			blocked++
		}
	}
	t.Logf("%d sets: %d not converged, %d with a valve that stays shut or open", n, failed, blocked)
	if failed > 0 {
		t.Errorf("%d of %d sets did not converge", failed, n)
	}
}

func TestCheckNamesFieldValueRangeAndFix(t *testing.T) {
	p := Resting()
	p.SystemicResistance = 40
	_, err := Solve(p)
	for _, part := range []string{"SystemicResistance", "40", "0.05 to 10", "lower it"} {
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Fatalf("error %v lacks %q", err, part)
		}
	}
	for _, bad := range []func(*Params){
		func(p *Params) { p.RatePerMin = math.NaN() },
		func(p *Params) { p.Mitral.AreaCM2 = 0 },
		func(p *Params) { p.Leak.Course = Course{1, -1} },
		func(p *Params) { p.Mitral.Shape = Course{0} },
		func(p *Params) { p.Steps = 3 },
		func(p *Params) { p.Leak.VolumeSlope = 1 },
	} {
		p := Resting()
		bad(&p)
		if _, err := Solve(p); err == nil {
			t.Error("bad input passed")
		}
	}
}

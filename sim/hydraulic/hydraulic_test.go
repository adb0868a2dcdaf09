package hydraulic_test

import (
	"fmt"
	"math"
	"testing"

	"annuloscope/sim/hydraulic"
	"annuloscope/sim/units"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, tol)
	}
}

// physics.md A1, "v and 4v²": effective areas and flows → speed and gradient.
func TestGradientOfArea(t *testing.T) {
	areas := []units.EffectiveCM2{1.5, 2.25, 3.0}
	rows := map[float64][]float64{200: {7.111, 3.160, 1.778}, 250: {11.111, 4.938, 2.778}, 300: {16.00, 7.111, 4.000}}
	for q, want := range rows {
		for i, a := range areas {
			dp := hydraulic.Gradient(a, q)
			near(t, fmt.Sprintf("%v mL/s through %v cm²", q, a), dp, want[i], 1e-3)
			near(t, "speed", hydraulic.JetSpeed(dp), q/float64(a), 1e-9)
			near(t, "flow back", hydraulic.Flow(a, dp), q, 1e-9)
		}
	}
	near(t, "250 mL/s, 1.5 cm² speed", hydraulic.JetSpeed(11.11111), 166.67, 1e-2)
}

// physics.md A1, "Mean gradient vs effective area": 80 mL in 0.45 s, steady.
func TestSteadyGradientRow(t *testing.T) {
	want := map[float64]float64{6: 0.351, 4: 0.790, 3.6: 0.975, 3: 1.405, 2: 3.160, 1.5: 5.619, 1: 12.642}
	for a, dp := range want {
		near(t, fmt.Sprint(a), hydraulic.Gradient(units.EffectiveCM2(a), 80/0.45), dp, 1e-3)
		f := hydraulic.Fill(hydraulic.FillingInput{Opening: units.EffectiveCM2(a), ForwardML: 80, FillingS: 0.45})
		near(t, "pulsatile/steady", f.MeanGradientMMHg/hydraulic.Gradient(units.EffectiveCM2(a), 80/0.45), hydraulic.FormFactor, 1e-12)
	}
}

// physics.md A1, "Two holes share one Δp": the flows add and divide as the areas, and the gradient sees the sum.
func TestTwoHolesShareOnePressure(t *testing.T) {
	for _, f := range []float64{0.5, 0.6, 2. / 3, 0.9} {
		a := units.EffectiveCM2(2.25)
		a1, a2 := a*units.EffectiveCM2(f), a*units.EffectiveCM2(1-f)
		dp := 3.7
		q1, q2 := hydraulic.Flow(a1, dp), hydraulic.Flow(a2, dp)
		near(t, "flow ratio", q1/q2, f/(1-f), 1e-9)
		near(t, "gradient of the sum", hydraulic.Gradient(a, q1+q2), dp, 1e-9)
	}
}

// physics.md B, "RVol from orifice": 0.4 cm², 100 mmHg, 0.30 s → 60 mL, velocity-time integral 150 cm.
func TestLeakVolume(t *testing.T) {
	l := hydraulic.Regurgitate(hydraulic.LeakInput{Orifice: 0.4, PressureMMHg: 100, DurationS: 0.3})
	near(t, "volume", l.VolumeML, 60, 1e-6)
	near(t, "velocity-time integral", l.VelocityTimeCM, 150, 1e-9)
	near(t, "jet", l.JetSpeedCMPS, 500, 1e-9)
	// The integral over a wave: constant pressure, orifice falling linearly from 0.6 to 0.2 has the mean 0.4.
	v := hydraulic.LeakVolume([]float64{0, 0.1, 0.3}, []float64{100, 100, 100}, []units.EffectiveCM2{0.6, 0.6 - 0.4/3, 0.2})
	near(t, "wave", v, 60, 1e-9)
	near(t, "fraction", hydraulic.RegurgitantFraction(33.38, 62.83), 0.347, 5e-4) // physics.md B "Volumetric MR"
	near(t, "no flow", hydraulic.RegurgitantFraction(0, 0), 0, 0)
}

// The closed forms of the flow shape against a fine sum.
func TestFlowShapeClosedForms(t *testing.T) {
	const n = 200000
	var mean, square, peak float64
	for i := range n {
		v := hydraulic.FlowShape((float64(i) + 0.5) / n)
		mean, square, peak = mean+v/n, square+v*v/n, math.Max(peak, v)
	}
	near(t, "mean", mean, 1, 1e-6)
	near(t, "form factor", square, hydraulic.FormFactor, 1e-6)
	near(t, "peak", peak, hydraulic.PeakFactor, 1e-4)
}

// physics.md A3: 1.7±0.9 mmHg at 6.0 cm² and 4.1±2.2 mmHg at 3.6 cm² anatomic, with the same constants. The source
// gives no flow; assumed here for patients with severe leak: 72/min; before 60 mL forward + 45 mL leak, after
// 70 + 20 mL.
func TestPublishedPairs(t *testing.T) {
	tf := hydraulic.FillingTime(72)
	for _, c := range []struct{ area, forward, leak, mean, sd float64 }{{6.0, 60, 45, 1.7, 0.9}, {3.6, 70, 20, 4.1, 2.2}} {
		open := units.AnatomicCM2(c.area).Effective(hydraulic.Contraction)
		f := hydraulic.Fill(hydraulic.FillingInput{Opening: open, ForwardML: c.forward, LeakML: c.leak, FillingS: tf})
		t.Logf("%.1f cm² anatomic, %.0f+%.0f mL in %.3f s: mean gradient %.2f mmHg, published %.1f ± %.1f",
			c.area, c.forward, c.leak, tf, f.MeanGradientMMHg, c.mean, c.sd)
		near(t, fmt.Sprint(c.area), f.MeanGradientMMHg, c.mean, c.sd)
	}
}

// physics.md H, S54 (n=594): E 77.7±14.8, A 59.2±13.9 cm/s. Normal valve assumed 80 mL, 65/min, 5.0 cm² anatomic
// (S18 in B2: normal 4–5 cm²).
func TestNormalSpeeds(t *testing.T) {
	f := hydraulic.Fill(hydraulic.FillingInput{Opening: units.AnatomicCM2(5).Effective(hydraulic.Contraction),
		ForwardML: 80, FillingS: hydraulic.FillingTime(65)})
	t.Logf("E %.1f A %.1f cm/s", f.EarlySpeedCMPS, f.AtrialSpeedCMPS)
	near(t, "E", f.EarlySpeedCMPS, 77.7, 14.8)
	near(t, "A", f.AtrialSpeedCMPS, 59.2, 13.9)
}

// Filling time against the worked inputs of physics.md B (0.40 s at 75/min, 0.36 s at 80/min), and the gradient
// rises with rate for the same stroke volume (issue 4).
func TestFillingTime(t *testing.T) {
	near(t, "75/min", hydraulic.FillingTime(75), 0.40, 0.015)
	near(t, "80/min", hydraulic.FillingTime(80), 0.36, 0.015)
	last := 0.0
	for rate := 40.0; rate <= 180; rate += 5 {
		g := hydraulic.Fill(hydraulic.FillingInput{Opening: 3, ForwardML: 70, FillingS: hydraulic.FillingTime(rate)}).MeanGradientMMHg
		if g <= last {
			t.Errorf("gradient %v at %v/min not above %v", g, rate, last)
		}
		last = g
	}
}

func TestEdges(t *testing.T) {
	if g := hydraulic.Gradient(0, 0); g != 0 {
		t.Errorf("no flow, no area: %v", g)
	}
	if g := hydraulic.Gradient(0, 1); !math.IsInf(g, 1) {
		t.Errorf("flow through nothing: %v", g)
	}
	if q := hydraulic.Flow(1, -4); q != -100 {
		t.Errorf("reverse flow %v", q)
	}
	defer func() {
		if recover() == nil {
			t.Error("a negative filling time must panic")
		}
	}()
	hydraulic.Fill(hydraulic.FillingInput{Opening: 1, FillingS: -1})
}

func ExampleFill() {
	open := units.AnatomicCM2(3.6).Effective(hydraulic.Contraction)
	f := hydraulic.Fill(hydraulic.FillingInput{Opening: open, ForwardML: 70, LeakML: 20, FillingS: hydraulic.FillingTime(72)})
	fmt.Printf("%.1f mmHg\n", f.MeanGradientMMHg)
	// Output: 3.2 mmHg
}

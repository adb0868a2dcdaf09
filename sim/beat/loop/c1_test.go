package loop

import (
	"math"
	"testing"
)

func span(a []float64) (lo, hi, mean float64) {
	lo, hi = a[0], a[0]
	for _, x := range a {
		lo, hi, mean = min(lo, x), max(hi, x), mean+x
	}
	return lo, hi, mean / float64(len(a))
}

// near fails unless got is within rel (a share of want) of want.
func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s: %.5g, want %.5g (off by %.2g of %.2g allowed)", what, got, want, math.Abs(got/want-1), rel)
	}
}

func periodic(t *testing.T, r *Ring, start func(*Solver)) *Solver {
	t.Helper()
	s := New(r)
	start(s)
	o := s.Periodic(Search{Warmup: 6, MaxBeats: 60, Tolerance: 1e-8, Margin: 1000})
	if !o.Converged {
		t.Fatalf("not periodic after %d beats: residual %g, stage failures %d", o.Beats, o.Residual, s.StageFailures)
	}
	return s
}

// physics.md C1, rows "Hill scale k" and "e(t/T)", tolerance 1e-4.
func TestHillShape(t *testing.T) {
	k, at := hillScale()
	near(t, "k", k, 1.67218, 1e-4)
	near(t, "peak phase", at, 0.42839, 1e-4)
	want := map[float64]float64{0.1: 0.31431, 0.2: 0.61243, 0.3: 0.83059, 0.4: 0.98242, 0.5: 0.64631, 0.55: 0.17162, 0.6: 0.03027}
	for x, e := range want {
		if got := k * hill(x, 1); math.Abs(got-e) > 1e-4 {
			t.Errorf("e(%g) = %.5f, want %.5f", x, got, e)
		}
	}
}

const c1Steps = 850

// physics.md C1, row "Periodic state, normal", tolerance 0.2 %.
func TestThreeNormal(t *testing.T) {
	s := periodic(t, Three(c1Steps, 0), StartThree)
	esv, edv, _ := span(s.V[0])
	_, lvMax, _ := span(s.P[0])
	aLo, aHi, aMean := span(s.P[1])
	vLo, vHi, vMean := span(s.P[2])
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"EDV", edv, 161.31}, {"ESV", esv, 85.07}, {"SV", edv - esv, 76.24}, {"EF", (edv - esv) / edv, 0.4726},
		{"CO", s.Forward[0] / hillPeriod * 60 / 1000, 5.381}, {"LV max", lvMax, 130.55},
		{"arterial max", aHi, 126.34}, {"arterial min", aLo, 82.57}, {"arterial mean", aMean, 106.21},
		{"venous mean", vMean, 6.651}, {"venous min", vLo, 5.107}, {"venous max", vHi, 9.375},
	} {
		near(t, c.what, c.got, c.want, 0.002)
	}
}

// physics.md C1, rows "Stored benchmark trace" (S30, 0.3 %) and "Homogeneity" (1e-4).
func TestThreeHomogeneity(t *testing.T) {
	base := periodic(t, Three(c1Steps, 0), StartThree)
	const scale = 318.63 / 318.243
	big := periodic(t, Three(c1Steps, 0), func(s *Solver) {
		StartThree(s)
		for i := range s.state {
			s.state[i] *= scale
		}
	})
	for c := range 3 {
		for i := range c1Steps {
			near(t, "pressure", big.P[c][i], scale*base.P[c][i], 1e-4)
			near(t, "volume", big.V[c][i], scale*base.V[c][i], 1e-4)
			if math.Abs(big.Q[c][i]-scale*base.Q[c][i]) > 1e-4*700 {
				t.Fatalf("flow %d[%d]: %g against %g", c, i, big.Q[c][i], scale*base.Q[c][i])
			}
		}
	}
	esv, edv, _ := span(big.V[0])
	_, lvMax, _ := span(big.P[0])
	_, art, _ := span(big.P[1])
	near(t, "EDV against the trace", edv, 161.511, 0.003)
	near(t, "ESV against the trace", esv, 85.178, 0.003)
	near(t, "LV pressure against the trace", lvMax, 130.70, 0.003)
	near(t, "arterial pressure against the trace", art, 126.49, 0.003)
}

// physics.md C1, row "Arterial decay in diastole", 1e-4: factor exp(−0.5/(1.11·1.13)) = 0.6712 after 0.5 s.
func TestArterialDecay(t *testing.T) {
	r := Three(c1Steps, 0)
	r.Period = 0.5
	r.Compartments[0].Activation = nil
	r.Compartments[2].Emin = 1e-9 // veins so large that their pressure stays at zero
	s := New(r)
	copy(s.State(), []float64{0, 100 * 1.13, 0})
	s.Beat(false)
	near(t, "factor", s.P[1][0]/100, math.Exp(-0.5/(1.11*1.13)), 1e-4)
	near(t, "factor", s.P[1][0]/100, 0.6712, 1e-4)
}

// physics.md C1, row "+ MR leak", tolerance 0.5 %.
func TestThreeLeak(t *testing.T) {
	for _, c := range []struct{ cq, edv, esv, rvol, rf, forward, ef, mean float64 }{
		{5, 166.60, 74.68, 21.12, 0.230, 70.80, 0.552, 99.8},
		{10, 171.50, 65.17, 40.60, 0.382, 65.73, 0.620, 93.9},
		{15, 175.94, 56.41, 58.45, 0.489, 61.09, 0.679, 88.4},
		{20, 179.75, 48.16, 74.58, 0.567, 57.01, 0.732, 83.6},
	} {
		s := periodic(t, Three(c1Steps, c.cq), StartThree)
		esv, edv, _ := span(s.V[0])
		_, _, mean := span(s.P[1])
		near(t, "EDV", edv, c.edv, 0.005)
		near(t, "ESV", esv, c.esv, 0.005)
		near(t, "RVol", s.Backward[2], c.rvol, 0.005)
		near(t, "RF", s.Backward[2]/(edv-esv), c.rf, 0.005)
		near(t, "forward SV", s.Forward[0], c.forward, 0.005)
		near(t, "EF", (edv-esv)/edv, c.ef, 0.005)
		near(t, "arterial mean", mean, c.mean, 0.005)
	}
}

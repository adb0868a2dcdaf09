package ring

import (
	"math"
	"testing"

	"annuloscope/sim/ring/specimen"
)

// Grid study: 64, 128, 256 annulus points (and 39, 78, 156 vein points) at fixed anatomy. The observed order is
// log₂ of the ratio of successive changes; a negative ratio or one not near 2ᵖ for 0.5 < p < 4 is "not in asymptotic
// range". The spread of the three answers is bounded; the order is only reported.
func TestGridStudy(t *testing.T) {
	for _, q := range []struct {
		name  string
		input func(*Input)
		read  func(*Result) float64
		tol   float64 // greatest change from 128 to 256 points
	}{
		{"band 15 mm: septal-lateral loss, mm", func(in *Input) { bandAt80(in, 15) }, func(r *Result) float64 { return r.SeptalLateralLoss() }, 0.02},
		{"band 15 mm: tension, N", func(in *Input) { bandAt80(in, 15) }, func(r *Result) float64 { return r.Band.TensionN }, 0.005},
		{"posterior band 15 %: septal-lateral loss, mm", func(in *Input) { in.Posterior = &PosteriorBand{DownsizingPercent: 15} }, func(r *Result) float64 { return r.SeptalLateralLoss() }, 0.02},
		{"rods 3 × 300: septal-lateral loss, mm", func(in *Input) { in.Rods = &Rods{ProximalMM: 8, DistalMM: 75, Count: 3, BendingNMM2: 300} }, func(r *Result) float64 { return r.SeptalLateralLoss() }, 0.05},
	} {
		var v [3]float64
		for k, n := range []int{64, 128, 256} {
			sp := specimen.Functional()
			sp.Points, sp.VeinPoints = n, n*78/128
			in := inputFrom(sp)
			q.input(in)
			r := solved(t, in)
			v[k] = q.read(&r)
		}
		d1, d2 := v[1]-v[0], v[2]-v[1]
		order := "not in asymptotic range"
		if ratio := d1 / d2; ratio > math.Sqrt2 && ratio < 16 {
			p := math.Log2(ratio)
			order = "observed order " + number(p) + ", grid convergence index of 256 points " + number(125*math.Abs(d2/v[2])/(ratio-1)) + " %"
		}
		t.Logf("%s: 64 → %.5f, 128 → %.5f, 256 → %.5f; %s", q.name, v[0], v[1], v[2], order)
		if math.Abs(d2) > q.tol {
			t.Errorf("%s: changes by %g from 128 to 256 points", q.name, d2)
		}
	}
}

package ring

import (
	"testing"

	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/spatial/r3"
)

// After the first solve of a size, warm solves allocate nothing.
func TestWarmSolvesDoNotAllocate(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 15)
	in.Band.DistalGripN = 5
	in.Loads = []Load{{Point: 96, Force: r3.Vec{Y: 0.1}}}
	var s Solver
	var r Result
	k := 0
	step := func() {
		k++
		in.Band.ShorteningMM = 15 + 0.1*float64(k%10)
		s.Solve(in, &r)
	}
	step()
	if got := testing.AllocsPerRun(20, step); got != 0 {
		t.Errorf("%g allocations per warm solve", got)
	}
}

// The same input gives the same bits from cold, and a Solver that has been elsewhere gives the same within WarmColdMM.
func TestColdIsDeterministicAndWarmAgrees(t *testing.T) {
	in := everything()
	a, b := Solve(in), Solve(in)
	for i := range a.Annulus {
		if a.Annulus[i] != b.Annulus[i] {
			t.Fatalf("point %d: two cold solves differ", i)
		}
	}
	var s Solver
	var r Result
	other := banded(inputFrom(specimen.Functional()), 25)
	s.Solve(other, &r)
	s.Solve(in, &r)
	for i := range a.Annulus {
		if d := r3.Norm(r3.Sub(a.Annulus[i], r.Annulus[i])); d > WarmColdMM {
			t.Fatalf("point %d: warm and cold differ by %g mm", i, d)
		}
	}
	s.Reset()
	s.Solve(in, &r)
	for i := range a.Annulus {
		if a.Annulus[i] != r.Annulus[i] {
			t.Fatalf("point %d: a reset Solver differs from a new one", i)
		}
	}
}

// Tension and septal-lateral diameter are continuous with continuous slopes in shortening and anchor stations: second
// differences shrink with the square of the step, as those of a C1 function with bounded second derivative do, and no
// slope jumps by more than a tenth from one step to the next.
func TestCableIsC1(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 12)
	var s Solver
	var r Result
	for name, p := range map[string]*float64{"shortening": &in.Band.ShorteningMM, "proximal": &in.Band.ProximalMM, "distal": &in.Band.DistalMM} {
		start := *p
		var v []float64
		const h = 0.05
		for k := range 60 {
			*p = start + h*float64(k)
			s.Solve(in, &r)
			v = append(v, r.After.SeptalLateralMM)
		}
		*p = start
		worst, slope := 0.0, 0.0
		for k := 2; k < len(v); k++ {
			worst = max(worst, abs(v[k]-2*v[k-1]+v[k-2])/h)
			slope = max(slope, abs(v[k]-v[k-1])/h)
		}
		t.Logf("%s: greatest slope %.4f, greatest change of slope over %g mm: %.5f", name, slope, h, worst)
		if worst > 0.1*max(slope, 0.05) {
			t.Errorf("%s: slope jumps by %g", name, worst)
		}
	}
}

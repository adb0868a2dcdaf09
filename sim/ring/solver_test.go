package ring

import (
	"testing"

	"annuloscope/sim/ring/specimen"
)

func TestExplore(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 0)
	if err := in.Check(); err != nil {
		t.Fatal(err)
	}
	t.Log(in.Vein.Station[77], in.Vein.Partner[0], in.Vein.Partner[77])
	for _, e := range []float64{0, 1, 5, 10, 15, 20, 25, 30} {
		in.Band.ShorteningMM = e
		r := Solve(in)
		t.Logf("S=%g %v it=%d res=%.1e T=%.3f ach=%.2f SL %.2f%% IC %.2f%% A %.2f%%", e, r.Status, r.Iterations, r.ResidualN, r.Band.TensionN, r.Band.AchievedMM,
			100*r.SeptalLateralLoss()/r.Before.SeptalLateralMM, 100*r.CommissuralLoss()/r.Before.CommissuralMM, 100*(1-r.After.AreaMM2/r.Before.AreaMM2))
	}
}

func BenchmarkSolveWarm(b *testing.B) {
	in := banded(inputFrom(specimen.Functional()), 15)
	var s Solver
	var r Result
	s.Solve(in, &r)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		in.Band.ShorteningMM = 15 + float64(i%2)
		s.Solve(in, &r)
	}
	b.ReportMetric(float64(r.Iterations), "iterations")
}

func BenchmarkSolveCold(b *testing.B) {
	in := banded(inputFrom(specimen.Functional()), 15)
	var s Solver
	var r Result
	b.ReportAllocs()
	for b.Loop() {
		s.Reset()
		s.Solve(in, &r)
	}
	b.ReportMetric(float64(r.Iterations), "iterations")
}

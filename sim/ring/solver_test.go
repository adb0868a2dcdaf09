package ring

import (
	"testing"

	"annuloscope/sim/ring/specimen"
)

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
func BenchmarkFactor(b *testing.B) {
	in := banded(inputFrom(specimen.Functional()), 15)
	var s Solver
	var r Result
	s.Solve(in, &r)

	for b.Loop() {
		s.chol.factor(&s.tangent)
	}
	b.ReportMetric(float64(s.tangent.width), "width")
}

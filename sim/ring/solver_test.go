package ring

import (
	"testing"

	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/mat"
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

// The same tangent matrix by a general dense factorisation, for the ratio (issue 7).
func BenchmarkFactorDense(b *testing.B) {
	in := banded(inputFrom(specimen.Functional()), 15)
	var s Solver
	var r Result
	s.Solve(in, &r)
	n := s.tangent.size
	dense := mat.NewSymDense(n, nil)
	for i := range n {
		for j := max(0, i-s.tangent.width); j <= i; j++ {
			dense.SetSym(i, j, s.tangent.data[i*(s.tangent.width+1)+s.tangent.width+j-i])
		}
	}
	var c mat.Cholesky
	for b.Loop() {
		if !c.Factorize(dense) {
			b.Fatal("not positive definite")
		}
	}
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

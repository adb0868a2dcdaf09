package ring

import (
	"math"
	"math/rand/v2"
	"testing"

	"annuloscope/sim/ring/specimen"
)

// everything is an input with every term of the energy at work.
func everything() *Input {
	in := banded(inputFrom(specimen.Functional()), 15)
	st := in.Vein.Station
	in.Rods = &Rods{ProximalMM: 15, DistalMM: 0.7 * st[len(st)-1], Count: 2, BendingNMM2: 500}
	in.Posterior = &PosteriorBand{DownsizingPercent: 5, Cover: 0.8}
	in.FullRing = &FullRing{SizeMM: 40, HeightShare: 0.8}
	in.Ties = []Tie{{A: 32, B: 96, ShorteningMM: 2}}
	return in
}

// Gradient and Hessian against central differences of the energy and the gradient, at a random displaced state.
func TestDerivativesAgainstDifferences(t *testing.T) {
	in := everything()
	var s Solver
	s.prepare(in)
	rng := rand.New(rand.NewPCG(3, 7))
	for i := range s.u {
		s.u[i] = rng.Float64() - 0.5
	}
	size := len(s.u)
	s.energy(s.u, s.grad)
	grad := append([]float64(nil), s.grad...)
	s.tangent.copyFrom(&s.quad)
	s.springStiffness(s.x, &s.tangent, false)
	s.rodStiffness(s.x, &s.tangent, false)
	s.cableStiffness(s.x, &s.tangent)
	dir, hd := make([]float64, size), make([]float64, size)
	for trial := range 20 {
		for i := range dir {
			dir[i] = rng.NormFloat64()
		}
		s.tangent.mul(hd, dir)
		for k := range s.ranks {
			f := s.rank[k] * dot(s.path[k], dir)
			for i, v := range s.path[k] {
				hd[i] += f * v
			}
		}
		const h = 1e-5
		up, down := make([]float64, size), make([]float64, size)
		for i := range dir {
			up[i], down[i] = s.u[i]+h*dir[i], s.u[i]-h*dir[i]
		}
		gu, gd := make([]float64, size), make([]float64, size)
		eu, ed := s.energy(up, gu), s.energy(down, gd)
		if got, want := dot(grad, dir), (eu-ed)/(2*h); math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
			t.Errorf("trial %d: directional derivative %.9g, difference %.9g", trial, got, want)
		}
		worst, size2 := 0.0, 0.0
		for i := range hd {
			worst = math.Max(worst, math.Abs(hd[i]-(gu[i]-gd[i])/(2*h)))
			size2 = math.Max(size2, math.Abs(hd[i]))
		}
		if worst > 1e-6*size2 {
			t.Errorf("trial %d: Hessian times direction off by %g of %g", trial, worst, size2)
		}
	}
}

// The band Cholesky against the matrix it factors.
func TestCholeskySolves(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 11))
	var a, l band
	a.resize(60, 9)
	for i := range a.size {
		for j := max(0, i-9); j < i; j++ {
			a.add(i, j, rng.Float64()-0.5)
		}
		a.add(i, i, 12)
	}
	if !l.factor(&a) {
		t.Fatal("a diagonally dominant matrix was called indefinite")
	}
	x, y := make([]float64, 60), make([]float64, 60)
	for i := range x {
		x[i] = rng.NormFloat64()
	}
	a.mul(y, x)
	l.solve(y)
	for i := range x {
		if math.Abs(x[i]-y[i]) > 1e-12 {
			t.Fatalf("row %d: %g, want %g", i, y[i], x[i])
		}
	}
	a.add(30, 30, -100)
	if l.factor(&a) {
		t.Error("an indefinite matrix was factored")
	}
}

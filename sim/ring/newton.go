package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// place writes the positions rest + u.
func (s *Solver) place(x []r3.Vec, u []float64) {
	for id, p := range s.rest {
		r := s.first[id]
		x[id] = r3.Vec{X: p.X + u[r], Y: p.Y + u[r+1], Z: p.Z + u[r+2]}
	}
}

// energy returns the total energy at u and, unless grad is nil, writes its gradient. It leaves positions in s.x.
func (s *Solver) energy(u, grad []float64) float64 {
	s.place(s.x, u)
	s.quad.mul(s.work, u)
	e := 0.0
	for i, k := range s.work {
		e += u[i] * (k/2 - s.push[i])
		if grad != nil {
			grad[i] = k - s.push[i]
		}
	}
	return e + s.springEnergy(s.x, grad) + s.rodEnergy(s.x, grad) + s.cableEnergy(s.x, grad)
}

// factorAt factors the banded part of the stiffness at the positions in s.x: exactly if that is positive definite,
// else with the compressed cords' softening left out (clamped). It reports failure of both.
func (s *Solver) factorAt() (ok, clamped bool) {
	for _, clamp := range []bool{false, true} {
		s.tangent.copyFrom(&s.quad)
		s.springStiffness(s.x, &s.tangent, clamp)
		s.rodStiffness(s.x, &s.tangent, clamp)
		s.cableStiffness(s.x, &s.tangent)
		if s.chol.factor(&s.tangent) {
			return true, clamp
		}
	}
	return false, true
}

// newtonStep writes −H⁻¹g into s.step, H being the banded part plus Σ rank·path·pathᵀ (Sherman-Morrison-Woodbury).
func (s *Solver) newtonStep() {
	for i, g := range s.grad {
		s.step[i] = -g
	}
	s.chol.solve(s.step)
	n := s.ranks
	var a [maxRank][maxRank + 1]float64
	for i := range n {
		copy(s.image[i], s.path[i])
		s.chol.solve(s.image[i])
		a[i][maxRank] = dot(s.path[i], s.step)
		for j := range n {
			a[j][i] = dot(s.path[j], s.image[i])
		}
		a[i][i] += 1 / s.rank[i]
	}
	for k := range n { // elimination without pivoting: the matrix is positive definite
		for i := range n {
			if i == k {
				continue
			}
			f := a[i][k] / a[k][k]
			for j := k; j < n; j++ {
				a[i][j] -= f * a[k][j]
			}
			a[i][maxRank] -= f * a[k][maxRank]
		}
	}
	for k := range n {
		f := a[k][maxRank] / a[k][k]
		for i, v := range s.image[k] {
			s.step[i] -= f * v
		}
	}
}

// minimise runs Newton from s.u and leaves the result there. It adds to iterations.
func (s *Solver) minimise(iterations *int) (Status, float64) {
	e := s.energy(s.u, s.grad)
	for range MaxIterations {
		residual := norm(s.grad)
		if math.IsNaN(residual) || math.IsInf(residual, 0) {
			return NotFinite, residual
		}
		if residual <= Tolerance {
			return Converged, residual
		}
		*iterations++
		ok, clamped := s.factorAt()
		if !ok {
			return NotFinite, residual
		}
		s.newtonStep()
		if norm(s.step) <= StepToleranceMM {
			return Converged, residual
		}
		slope := dot(s.grad, s.step)
		scale := 1.0
		if big := norm(s.step); big > MaxStepMM {
			scale = MaxStepMM / big
		}
		accepted := false
		for range 40 {
			for i := range s.trial {
				s.trial[i] = s.u[i] + scale*s.step[i]
			}
			et := s.energy(s.trial, s.grad)
			// Close to the minimum the fall of the energy drowns in rounding: there the residual decides.
			if et <= e+1e-4*scale*slope || math.Abs(scale*slope) < 1e-12*(1+math.Abs(e)) && norm(s.grad) < residual {
				e, accepted = et, true
				break
			}
			scale /= 2
		}
		if !accepted {
			s.energy(s.u, s.grad)
			if residual < 1e3*Tolerance {
				return Converged, residual // rounding floor
			}
			return Stalled, residual
		}
		s.u, s.trial = s.trial, s.u
		if clamped {
			e = s.stride(e, scale)
		}
	}
	return IterationLimit, norm(s.grad)
}

// stride goes on along the last step, four times as far at a time, while the energy falls. A clamped matrix is too stiff
// where the ring is about to snap, and its own steps would crawl away from a saddle point. It returns the energy at s.u
// and leaves the gradient there.
func (s *Solver) stride(e, scale float64) float64 {
	for range 8 {
		for i := range s.trial {
			s.trial[i] = s.u[i] + 3*scale*s.step[i]
		}
		scale *= 4
		if scale*norm(s.step) > MaxStepMM {
			break
		}
		et := s.energy(s.trial, nil)
		if !(et < e) {
			break
		}
		s.u, s.trial = s.trial, s.u
		e = et
	}
	return s.energy(s.u, s.grad)
}

func dot(a, b []float64) float64 {
	s := 0.0
	b = b[:len(a)]
	for i, v := range a {
		s += v * b[i]
	}
	return s
}

// norm is the largest absolute component; NaN if any is.
func norm(a []float64) float64 {
	m := 0.0
	for _, v := range a {
		if v := math.Abs(v); v > m || math.IsNaN(v) {
			m = v
		}
	}
	return m
}

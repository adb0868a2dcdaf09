package measured

import (
	"math"

	"annuloscope/sim/anatomy"

	"gonum.org/v1/gonum/mat"
)

// leastSquares moves the numbers at the paths so that the sum of squares of what rest returns is least: damped
// Gauss-Newton (Levenberg-Marquardt) with forward differences. Numbers stay within the program's ranges on the way; where
// the best place lies outside, the nearest allowed one is left and the residuals tell.
func leastSquares(p *anatomy.Patient, rest func(*anatomy.Patient) ([]float64, error), paths ...string) error {
	at := make([]anatomy.Parameter, len(paths))
	for k, path := range paths {
		q, ok := anatomy.Find(path)
		if !ok {
			panic("measured: no parameter " + path)
		}
		at[k] = q
		*q.At(p) = within(q, *q.At(p))
	}
	now, err := rest(p)
	if err != nil {
		return err
	}
	damp := 1e-3
	for range rounds {
		j := mat.NewDense(len(now), len(at), nil)
		for k, q := range at {
			x := q.At(p)
			keep, step := *x, stepShare*(q.Max-q.Min)
			if keep+step > q.Max {
				step = -step
			}
			*x = keep + step
			moved, err := rest(p)
			*x = keep
			if err != nil {
				return err
			}
			for i := range now {
				j.Set(i, k, (moved[i]-now[i])/step)
			}
		}
		better := false
		for range 8 {
			trial := *p
			size := step(&trial, at, j, now, damp)
			next, err := rest(&trial)
			if err == nil && squares(next) < squares(now) {
				*p, now, damp, better = trial, next, damp/10, size > 1e-9
				break
			}
			damp *= 10
		}
		if !better {
			return nil
		}
	}
	return nil
}

// step moves the numbers by the damped normal equations and returns the largest move.
func step(p *anatomy.Patient, at []anatomy.Parameter, j *mat.Dense, now []float64, damp float64) float64 {
	n := len(at)
	var a mat.SymDense
	a.SymOuterK(1, j.T())
	for k := range n {
		a.SetSym(k, k, a.At(k, k)*(1+damp)+1e-12)
	}
	var g, d mat.VecDense
	g.MulVec(j.T(), mat.NewVecDense(len(now), now))
	var c mat.Cholesky
	if !c.Factorize(&a) || c.SolveVecTo(&d, &g) != nil {
		return 0
	}
	most := 0.0
	for k, q := range at {
		x := q.At(p)
		next := within(q, *x-d.AtVec(k))
		most = math.Max(most, math.Abs(next-*x))
		*x = next
	}
	return most
}

func within(q anatomy.Parameter, v float64) float64 { return math.Min(math.Max(v, q.Min), q.Max) }

func squares(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return sum
}

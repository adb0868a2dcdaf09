package valve

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// aitken is Aitken's dynamic relaxation of a fixed point x = f(x): the step length follows from how the last two
// residuals differ (Irons and Tuck, Int J Numer Methods Eng 1969;1:275, from memory).
type aitken struct {
	omega float64
	last  []r3.Vec
}

// step moves x towards fx and returns the largest entry of the residual fx − x.
func (a *aitken) step(x, fx []r3.Vec) float64 {
	most := 0.0
	if len(a.last) == len(x) {
		var dot, square float64
		for i := range x {
			d := r3.Sub(r3.Sub(fx[i], x[i]), a.last[i])
			dot += r3.Dot(a.last[i], d)
			square += r3.Dot(d, d)
		}
		if square > 0 {
			a.omega = math.Min(2, math.Max(0.05, math.Abs(a.omega*dot/square)))
		}
	} else {
		a.last = make([]r3.Vec, len(x))
	}
	for i := range x {
		r := r3.Sub(fx[i], x[i])
		a.last[i] = r
		most = math.Max(most, r3.Norm(r))
		x[i] = r3.Add(x[i], r3.Scale(a.omega, r))
	}
	return most
}

package valve

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

const andersonDepth = 5

// anderson accelerates a fixed point x = f(x): the next x is the combination of the last few f(x) whose residuals
// cancel best in the least-squares sense (Anderson, J ACM 1965;12:547; type II, from memory).
type anderson struct {
	fx, res [andersonDepth][]r3.Vec // the last values and residuals, newest at head
	count   int
	head    int
}

// restart forgets the past.
func (a *anderson) restart() { a.count = 0 }

// step moves x towards the fixed point of which fx = f(x), and returns the largest entry of the residual.
func (a *anderson) step(x, fx []r3.Vec) float64 {
	a.head = (a.head + 1) % andersonDepth
	a.fx[a.head] = append(a.fx[a.head][:0], fx...)
	r := append(a.res[a.head][:0], fx...)
	most := 0.0
	for i := range r {
		r[i] = r3.Sub(fx[i], x[i])
		most = math.Max(most, r3.Norm(r[i]))
	}
	a.res[a.head] = r
	a.count = min(a.count+1, andersonDepth)
	copy(x, fx)
	if m := a.count - 1; m > 0 {
		a.combine(x, m)
	}
	return most
}

// at returns the value and residual of k steps ago.
func (a *anderson) at(k int) (fx, res []r3.Vec) {
	i := (a.head - k + 2*andersonDepth) % andersonDepth
	return a.fx[i], a.res[i]
}

// combine subtracts from x = f(x₀) the best mix of the last m differences: Σ γ_k (f_k − f_{k+1}), γ the least-squares
// solution of r₀ ≈ Σ γ_k (r_k − r_{k+1}), slightly regularised so that equal differences do no harm.
func (a *anderson) combine(x []r3.Vec, m int) {
	var normal [andersonDepth][andersonDepth + 1]float64
	_, r0 := a.at(0)
	trace := 0.0
	for j := 0; j < m; j++ {
		_, rj := a.at(j)
		_, rj1 := a.at(j + 1)
		for k := 0; k <= j; k++ {
			_, rk := a.at(k)
			_, rk1 := a.at(k + 1)
			sum := 0.0
			for i := range r0 {
				sum += r3.Dot(r3.Sub(rj[i], rj1[i]), r3.Sub(rk[i], rk1[i]))
			}
			normal[j][k], normal[k][j] = sum, sum
		}
		trace += normal[j][j]
		for i := range r0 {
			normal[j][m] += r3.Dot(r3.Sub(rj[i], rj1[i]), r0[i])
		}
	}
	for j := 0; j < m; j++ {
		normal[j][j] += 1e-12 * trace
	}
	gamma, ok := eliminate(&normal, m)
	if !ok {
		return
	}
	for j := 0; j < m; j++ {
		fj, _ := a.at(j)
		fj1, _ := a.at(j + 1)
		for i := range x {
			x[i] = r3.Sub(x[i], r3.Scale(gamma[j], r3.Sub(fj[i], fj1[i])))
		}
	}
}

// eliminate solves the m by m system with its right side in column m by Gaussian elimination; the matrix is symmetric
// and not negative, so no pivoting is needed.
func eliminate(n *[andersonDepth][andersonDepth + 1]float64, m int) (x [andersonDepth]float64, ok bool) {
	for p := 0; p < m; p++ {
		if !(n[p][p] > 0) {
			return x, false
		}
		for i := p + 1; i < m; i++ {
			f := n[i][p] / n[p][p]
			for k := p; k <= m; k++ {
				n[i][k] -= f * n[p][k]
			}
		}
	}
	for p := m - 1; p >= 0; p-- {
		x[p] = n[p][m]
		for k := p + 1; k < m; k++ {
			x[p] -= n[p][k] * x[k]
		}
		x[p] /= n[p][p]
	}
	return x, true
}

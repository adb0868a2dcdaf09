package contour

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// Smoothing is how a smoothing spline was chosen.
type Smoothing struct {
	Lambda  float64 // weight of the bending term, in the third power of the parameter's unit
	DoF     float64 // trace of the smoother: how many values per coordinate the curve spends
	GCV     float64 // generalised cross-validation score, mm²
	NoiseMM float64 // estimated error of one coordinate of one point (of weight 1), mm
}

// Smooth fits the smoothing spline to points p with weights w (nil: all 1) at the strictly rising parameters u. A closed
// spline returns to u[0] after period, which must exceed u[n−1] − u[0]; period 0 means open. lambda 0 chooses by
// generalised cross-validation. The error names the parameter that does not rise, or the number of points (3 to 2000).
func Smooth(u []float64, p []r3.Vec, w []float64, period, lambda float64) (Spline, Smoothing, error) {
	n := len(u)
	if len(p) != n || (w != nil && len(w) != n) {
		panic("contour: Smooth needs one point and one weight per parameter")
	}
	if n < 3 || n > 2000 {
		return Spline{}, Smoothing{}, fmt.Errorf("contour: %d points to smooth are outside 3 to 2000", n)
	}
	if !(lambda >= 0) || math.IsInf(lambda, 0) {
		return Spline{}, Smoothing{}, fmt.Errorf("contour: lambda = %g must be 0 (automatic) or positive", lambda)
	}
	closed := period != 0
	h := make([]float64, n)
	for i := range n - 1 {
		h[i] = u[i+1] - u[i]
	}
	h[n-1] = u[0] + period - u[n-1]
	for i, x := range h {
		if (i < n-1 || closed) && !(x > 0) {
			return Spline{}, Smoothing{}, fmt.Errorf("contour: parameter %d does not rise", i+1)
		}
	}
	if w == nil {
		w = make([]float64, n)
		for i := range w {
			w[i] = 1
		}
	}
	s := newSmoother(h, w, closed)
	if err := s.diagonalise(); err != nil {
		return Spline{}, Smoothing{}, err
	}
	s.project(p)
	if lambda == 0 {
		lambda = s.chooseLambda()
	}
	out := Spline{Knots: append([]float64(nil), u...), Points: make([]r3.Vec, n), Second: make([]r3.Vec, n), Closed: closed}
	if closed {
		out.Knots = append(out.Knots, u[0]+period)
	}
	s.curve(lambda, p, &out)
	dof, rss := s.trace(lambda), s.rss(lambda)
	fit := Smoothing{Lambda: lambda, DoF: dof, GCV: s.gcv(lambda)}
	if free := 3 * (float64(n) - dof); free > 1e-9 {
		fit.NoiseMM = math.Sqrt(rss / free)
	}
	return out, fit, nil
}

// smoother holds the matrices of one fit: second derivatives γ solve (R + λ·QᵀW⁻¹Q)γ = Qᵀp and the values are
// p − λW⁻¹Qγ (Green and Silverman 1994, Nonparametric regression, section 2.3, from memory). With R = LLᵀ and
// L⁻¹QᵀW⁻¹QL⁻ᵀ = V·diag(d)·Vᵀ everything about one λ is a sum over d.
type smoother struct {
	n, m   int
	w      []float64
	q      *mat.Dense // n × m
	r      *mat.SymDense
	l      mat.TriDense
	v      mat.Dense
	d      []float64
	coeffs [3][]float64 // Vᵀ·L⁻¹·Qᵀp per coordinate
}

func newSmoother(h, w []float64, closed bool) *smoother {
	n := len(h)
	s := &smoother{n: n, m: n - 2, w: w}
	if closed {
		s.m = n
	}
	s.q, s.r = mat.NewDense(n, s.m, nil), mat.NewSymDense(s.m, nil)
	for j := range s.m {
		i := j + 1
		if closed {
			i = j
		}
		before, after := (i+n-1)%n, (i+1)%n
		a, b := h[before], h[i]
		s.q.Set(before, j, s.q.At(before, j)+1/a)
		s.q.Set(i, j, s.q.At(i, j)-1/a-1/b)
		s.q.Set(after, j, s.q.At(after, j)+1/b)
		s.r.SetSym(j, j, s.r.At(j, j)+(a+b)/3)
		if k := j + 1; k < s.m {
			s.r.SetSym(j, k, s.r.At(j, k)+b/6)
		} else if closed && s.m > 1 {
			s.r.SetSym(j, 0, s.r.At(j, 0)+b/6)
		}
	}
	return s
}

func (s *smoother) diagonalise() error {
	var chol mat.Cholesky
	if !chol.Factorize(s.r) {
		return fmt.Errorf("contour: the points lie too unevenly to fit a spline: remove near duplicates")
	}
	chol.LTo(&s.l)
	scaled := mat.DenseCopyOf(s.q)
	for i := range s.n {
		for j := range s.m {
			scaled.Set(i, j, s.q.At(i, j)/math.Sqrt(s.w[i]))
		}
	}
	var half mat.Dense // L⁻¹QᵀW^(−1/2)
	if err := half.Solve(&s.l, scaled.T()); err != nil {
		return fmt.Errorf("contour: the points lie too unevenly to fit a spline: %w", err)
	}
	var c mat.SymDense
	c.SymOuterK(1, &half)
	var eigen mat.EigenSym
	if !eigen.Factorize(&c, true) {
		return fmt.Errorf("contour: the eigenvalues of the spline did not converge")
	}
	s.d = eigen.Values(nil)
	for i := range s.d {
		s.d[i] = math.Max(s.d[i], 0)
	}
	eigen.VectorsTo(&s.v)
	return nil
}

func (s *smoother) project(p []r3.Vec) {
	for k := range 3 {
		y := mat.NewVecDense(s.n, nil)
		for i, v := range p {
			y.SetVec(i, [3]float64{v.X, v.Y, v.Z}[k])
		}
		var qy, ly, g mat.VecDense
		qy.MulVec(s.q.T(), y)
		ly.SolveVec(&s.l, &qy) // well conditioned: R is diagonally dominant
		g.MulVec(s.v.T(), &ly)
		s.coeffs[k] = append([]float64(nil), g.RawVector().Data...)
	}
}

// trace is the trace of the smoother matrix.
func (s *smoother) trace(lambda float64) float64 {
	t := float64(s.n - s.m)
	for _, d := range s.d {
		t += 1 / (1 + lambda*d)
	}
	return t
}

// rss is the weighted residual sum of squares over the three coordinates.
func (s *smoother) rss(lambda float64) float64 {
	sum := 0.0
	for i, d := range s.d {
		f := lambda / (1 + lambda*d)
		for k := range 3 {
			g := f * s.coeffs[k][i]
			sum += d * g * g
		}
	}
	return sum
}

func (s *smoother) gcv(lambda float64) float64 {
	n := float64(s.n)
	free := 1 - s.trace(lambda)/n
	return s.rss(lambda) / (3 * n) / (free * free)
}

// chooseLambda looks for minima of the score on a logarithmic grid over all λ that matter, takes the smoothest one that is
// nearly as good as the best (with few points the score has several, and the roughest follows the noise), and refines it
// by golden section.
func (s *smoother) chooseLambda() float64 {
	largest, smallest := 0.0, math.Inf(1)
	for _, d := range s.d {
		largest = math.Max(largest, d)
	}
	for _, d := range s.d {
		if d > 1e-12*largest {
			smallest = math.Min(smallest, d)
		}
	}
	lo, hi := math.Log(1e-6/largest), math.Log(1e3/smallest)
	score := func(x float64) float64 { return s.gcv(math.Exp(x)) }
	step := (hi - lo) / gridSteps
	var scores [gridSteps + 1]float64
	best := math.Inf(1)
	for i := range scores {
		scores[i] = score(lo + step*float64(i))
		best = math.Min(best, scores[i])
	}
	at := lo
	for i, v := range scores {
		lowest := (i == 0 || v <= scores[i-1]) && (i == gridSteps || v <= scores[i+1])
		if lowest && v <= nearlyBest*best {
			at = lo + step*float64(i)
		}
	}
	a, b := at-step, at+step
	const golden = 0.6180339887498949
	for range 40 {
		x, y := b-golden*(b-a), a+golden*(b-a)
		if score(x) < score(y) {
			b = y
		} else {
			a = x
		}
	}
	return math.Exp((a + b) / 2)
}

// curve fills the values and second derivatives for λ.
func (s *smoother) curve(lambda float64, p []r3.Vec, out *Spline) {
	var values, seconds [3][]float64
	for k := range 3 {
		g := mat.NewVecDense(s.m, nil)
		for i, d := range s.d {
			g.SetVec(i, s.coeffs[k][i]/(1+lambda*d))
		}
		var vg, gamma, shift mat.VecDense
		vg.MulVec(&s.v, g)
		gamma.SolveVec(s.l.T(), &vg)
		shift.MulVec(s.q, &gamma)
		values[k], seconds[k] = shift.RawVector().Data, gamma.RawVector().Data
	}
	for i := range p {
		c := lambda / s.w[i]
		out.Points[i] = r3.Sub(p[i], r3.Vec{X: c * values[0][i], Y: c * values[1][i], Z: c * values[2][i]})
		j := i
		if s.m < s.n {
			j = i - 1
		}
		if j >= 0 && j < s.m {
			out.Second[i] = r3.Vec{X: seconds[0][j], Y: seconds[1][j], Z: seconds[2][j]}
		}
	}
}

package geometry

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// ClosedSpline is the periodic cubic spline through the points of a closed curve over its chord-length parameter. It is
// twice continuously differentiable; through n evenly spaced points of a smooth curve its error falls as n⁻⁴.
type ClosedSpline struct {
	knots  []float64 // n+1 chord lengths, knots[n] is the period
	points []r3.Vec
	second []r3.Vec // second derivatives at the knots
}

// NewClosedSpline interpolates n ≥ 3 points, neighbours distinct (it panics otherwise).
func NewClosedSpline(points []r3.Vec) *ClosedSpline {
	n := len(points)
	if n < 3 {
		panic("geometry: ClosedSpline needs at least 3 points")
	}
	s := &ClosedSpline{knots: make([]float64, n+1), points: append([]r3.Vec(nil), points...), second: make([]r3.Vec, n)}
	h := make([]float64, n)
	for i := range points {
		h[i] = r3.Norm(r3.Sub(points[(i+1)%n], points[i]))
		if !(h[i] > 0) {
			panic("geometry: ClosedSpline needs distinct neighbours")
		}
		s.knots[i+1] = s.knots[i] + h[i]
	}
	s.solve(h)
	return s
}

// solve finds the second derivatives from the cyclic tridiagonal system hᵢ₋₁Mᵢ₋₁ + 2(hᵢ₋₁+hᵢ)Mᵢ + hᵢMᵢ₊₁ = 6·jumpᵢ by the
// Sherman-Morrison split of the corner entries.
func (s *ClosedSpline) solve(h []float64) {
	n := len(h)
	diag, rhs, corner := make([]float64, n), make([]r3.Vec, n), make([]float64, n)
	for i := range n {
		im := (i + n - 1) % n
		diag[i] = 2 * (h[im] + h[i])
		a := r3.Scale(1/h[i], r3.Sub(s.points[(i+1)%n], s.points[i]))
		b := r3.Scale(1/h[im], r3.Sub(s.points[i], s.points[im]))
		rhs[i] = r3.Scale(6, r3.Sub(a, b))
	}
	// The matrix is T + g·u·uᵀ, u = (1, 0, …, 0, 1), with the corner h[n−1] = g.
	g := h[n-1]
	corner[0], corner[n-1] = 1, 1
	diag[0] -= g
	diag[n-1] -= g
	for i := 1; i < n; i++ { // elimination; off-diagonal between i−1 and i is h[i−1]
		w := h[i-1] / diag[i-1]
		diag[i] -= w * h[i-1]
		rhs[i] = r3.Sub(rhs[i], r3.Scale(w, rhs[i-1]))
		corner[i] -= w * corner[i-1]
	}
	for i := n - 1; i >= 0; i-- {
		if i < n-1 {
			rhs[i] = r3.Sub(rhs[i], r3.Scale(h[i], rhs[i+1]))
			corner[i] -= h[i] * corner[i+1]
		}
		rhs[i] = r3.Scale(1/diag[i], rhs[i])
		corner[i] /= diag[i]
	}
	f := g / (1 + g*(corner[0]+corner[n-1]))
	v := r3.Scale(f, r3.Add(rhs[0], rhs[n-1]))
	for i := range s.second {
		s.second[i] = r3.Sub(rhs[i], r3.Scale(corner[i], v))
	}
}

// Period returns the chord-length parameter of one turn (mm).
func (s *ClosedSpline) Period() float64 { return s.knots[len(s.knots)-1] }

// Knot returns the parameter of point i.
func (s *ClosedSpline) Knot(i int) float64 { return s.knots[i] }

// Eval returns the point and its first and second derivative at the parameter u, which wraps round.
func (s *ClosedSpline) Eval(u float64) (p, d, dd r3.Vec) {
	n := len(s.points)
	period := s.Period()
	u = math.Mod(u, period)
	if u < 0 {
		u += period
	}
	i := min(max(sort.SearchFloat64s(s.knots, u)-1, 0), n-1)
	j := (i + 1) % n
	h := s.knots[i+1] - s.knots[i]
	b := (u - s.knots[i]) / h
	a := 1 - b
	p = r3.Add(r3.Add(r3.Scale(a, s.points[i]), r3.Scale(b, s.points[j])),
		r3.Scale(h*h/6, r3.Add(r3.Scale(a*a*a-a, s.second[i]), r3.Scale(b*b*b-b, s.second[j]))))
	d = r3.Add(r3.Scale(1/h, r3.Sub(s.points[j], s.points[i])),
		r3.Scale(h/6, r3.Sub(r3.Scale(3*b*b-1, s.second[j]), r3.Scale(3*a*a-1, s.second[i]))))
	dd = r3.Add(r3.Scale(a, s.second[i]), r3.Scale(b, s.second[j]))
	return p, d, dd
}

// LengthMM returns the arc length of the spline, by five-point Gauss panels between knots.
func (s *ClosedSpline) LengthMM() float64 {
	sum := 0.0
	for i := range s.points {
		sum += s.arc(s.knots[i], s.knots[i+1])
	}
	return sum
}

func (s *ClosedSpline) arc(u0, u1 float64) float64 {
	sum := 0.0
	for _, g := range gauss5 {
		_, d, _ := s.Eval((u0+u1)/2 + (u1-u0)/2*g[0])
		sum += g[1] * r3.Norm(d)
	}
	return sum * (u1 - u0) / 2
}

// Resample fills dst with points equally spaced by the arc length of the spline, the first at the parameter from.
func (s *ClosedSpline) Resample(dst []r3.Vec, from float64) []r3.Vec {
	total := s.LengthMM()
	u, arc := from, 0.0
	step := s.Period() / float64(4*len(s.points)) // short panels, so that a Gauss panel may straddle a knot
	for i := range dst {
		target := total * float64(i) / float64(len(dst))
		for {
			l := s.arc(u, u+step)
			if arc+l >= target {
				break
			}
			arc += l
			u += step
		}
		v := u
		for range 8 {
			_, d, _ := s.Eval(v)
			dv := (target - arc - s.arc(u, v)) / r3.Norm(d)
			v += dv
			if math.Abs(dv) < 1e-12*step {
				break
			}
		}
		dst[i], _, _ = s.Eval(v)
	}
	return dst
}

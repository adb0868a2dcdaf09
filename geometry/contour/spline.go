package contour

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// Spline is a cubic spline in space given by values and second derivatives at its knots.
type Spline struct {
	Knots  []float64 // rising; a closed spline has one more knot than points, the period after the first
	Points []r3.Vec
	Second []r3.Vec
	Closed bool
}

// Period returns the length of the parameter range.
func (s *Spline) Period() float64 { return s.Knots[len(s.Knots)-1] - s.Knots[0] }

// Eval returns the point and its first two derivatives at u. u wraps round a closed spline; an open one goes on straight
// beyond its ends.
func (s *Spline) Eval(u float64) (p, d, dd r3.Vec) {
	n := len(s.Points)
	first, last := s.Knots[0], s.Knots[len(s.Knots)-1]
	beyond := 0.0
	if s.Closed {
		u = first + math.Mod(u-first, last-first)
		if u < first {
			u += last - first
		}
	} else {
		inside := math.Min(math.Max(u, first), last)
		beyond, u = u-inside, inside
	}
	i := min(max(sort.SearchFloat64s(s.Knots, u)-1, 0), len(s.Knots)-2)
	j := (i + 1) % n
	h := s.Knots[i+1] - s.Knots[i]
	b := (u - s.Knots[i]) / h
	a := 1 - b
	p = r3.Add(r3.Add(r3.Scale(a, s.Points[i]), r3.Scale(b, s.Points[j])),
		r3.Scale(h*h/6, r3.Add(r3.Scale(a*a*a-a, s.Second[i]), r3.Scale(b*b*b-b, s.Second[j]))))
	d = r3.Add(r3.Scale(1/h, r3.Sub(s.Points[j], s.Points[i])),
		r3.Scale(h/6, r3.Sub(r3.Scale(3*b*b-1, s.Second[j]), r3.Scale(3*a*a-1, s.Second[i]))))
	dd = r3.Add(r3.Scale(a, s.Second[i]), r3.Scale(b, s.Second[j]))
	if beyond != 0 {
		p, dd = r3.Add(p, r3.Scale(beyond, d)), r3.Vec{}
	}
	return p, d, dd
}

// dense samples the spline at n equal steps of its parameter: points and parameters (both ends of an open spline).
func (s *Spline) dense(n int) ([]r3.Vec, []float64) {
	points, u := make([]r3.Vec, n), make([]float64, n)
	parts := n - 1
	if s.Closed {
		parts = n
	}
	for i := range u {
		u[i] = s.Knots[0] + s.Period()*float64(i)/float64(parts)
		points[i], _, _ = s.Eval(u[i])
	}
	return points, u
}

// foot returns the parameter of the point of the spline nearest to p, looked for among the dense samples around the
// guess (a twelfth of the range either way), then by Newton.
func (s *Spline) foot(p r3.Vec, guess float64, dense []r3.Vec, at []float64) float64 {
	n := len(dense)
	step := at[1] - at[0]
	mid := int(math.Round((guess - at[0]) / step))
	best, k := math.Inf(1), 0
	for o := mid - n/12; o <= mid+n/12; o++ {
		i := o
		if s.Closed {
			i = ((o % n) + n) % n
		} else if o < 0 || o >= n {
			continue
		}
		if d := r3.Norm2(r3.Sub(dense[i], p)); d < best {
			best, k = d, i
		}
	}
	u := at[k]
	lo, hi := u-step, u+step
	if !s.Closed {
		lo, hi = math.Max(lo, s.Knots[0]), math.Min(hi, s.Knots[len(s.Knots)-1])
	}
	for range 12 {
		q, d, dd := s.Eval(u)
		r := r3.Sub(q, p)
		g, h := r3.Dot(r, d), r3.Dot(d, d)+r3.Dot(r, dd)
		if h <= 0 {
			h = r3.Dot(d, d)
		}
		next := math.Min(math.Max(u-g/h, lo), hi)
		if math.Abs(next-u) < 1e-13*s.Period() {
			return next
		}
		u = next
	}
	return u
}

// arcTable returns the arc length from the first knot to each dense parameter, by Simpson's rule between neighbours, and
// the whole length.
func (s *Spline) arcTable(at []float64) ([]float64, float64) {
	arc := make([]float64, len(at))
	speed := func(u float64) float64 { _, d, _ := s.Eval(u); return r3.Norm(d) }
	panel := func(a, b float64) float64 { return (b - a) / 6 * (speed(a) + 4*speed((a+b)/2) + speed(b)) }
	for i := 1; i < len(at); i++ {
		arc[i] = arc[i-1] + panel(at[i-1], at[i])
	}
	total := arc[len(arc)-1]
	if s.Closed {
		total += panel(at[len(at)-1], s.Knots[len(s.Knots)-1])
	}
	return arc, total
}

// arcAt returns the arc length at u from the table.
func (s *Spline) arcAt(u float64, at, arc []float64) float64 {
	first := s.Knots[0]
	if s.Closed {
		u = first + math.Mod(u-first, s.Period())
		if u < first {
			u += s.Period()
		}
	}
	return s.arcFrom(min(max(sort.SearchFloat64s(at, u)-1, 0), len(at)-1), u, at, arc)
}

// paramAt inverts arcAt.
func (s *Spline) paramAt(mm float64, at, arc []float64) float64 {
	i := min(max(sort.SearchFloat64s(arc, mm)-1, 0), len(arc)-1)
	u := at[i]
	for range 8 {
		_, d, _ := s.Eval(u)
		du := (mm - s.arcFrom(i, u, at, arc)) / r3.Norm(d)
		u += du
		if math.Abs(du) < 1e-10*s.Period() {
			break
		}
	}
	return u
}

// arcFrom returns the arc length at u counted from the table entry i before it.
func (s *Spline) arcFrom(i int, u float64, at, arc []float64) float64 {
	speed := func(u float64) float64 { _, d, _ := s.Eval(u); return r3.Norm(d) }
	a := at[i]
	return arc[i] + (u-a)/6*(speed(a)+4*speed((a+u)/2)+speed(u))
}

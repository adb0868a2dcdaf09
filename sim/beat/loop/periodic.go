package loop

import "math"

// Outcome of a search for the periodic state.
type Outcome struct {
	Converged bool
	Beats     int     // beats integrated
	Residual  float64 // largest change of a volume (mL) or inertial flow (mL/s) over the last beat
}

// Residual is the largest change over the last beat of a volume (mL) or inertial flow (mL/s).
func (s *Solver) Residual() float64 {
	w := 0.0
	for i := range s.state {
		w = max(w, math.Abs(s.end[i]-s.state[i]))
	}
	if math.IsNaN(w) {
		return math.Inf(1)
	}
	return w
}

// Advance sets the start of the next beat to the end of the last one.
func (s *Solver) Advance() { copy(s.state, s.end) }

// invert sets the inverse of the derivative of (end − start) from a beat integrated with tangent; false when singular.
// The total volume, which the beat map leaves alone, replaces the first equation.
func (s *Solver) invert() bool {
	m, n := s.dim, s.n
	for row := range m {
		for col := range m {
			d := 0.0
			if row < n {
				d = s.tv[col*n+row]
			} else {
				d = s.tq[col*n+s.linkOf(row)]
			}
			if row == col {
				d--
			}
			s.jac[row*m+col] = d
		}
	}
	for col := range m {
		s.jac[col] = 0
		if col < n {
			s.jac[col] = 1
		}
	}
	return invertDense(s.jac, s.inverse, m)
}

// defect fills f with end − start; the first entry is the change of the total, zero.
func (s *Solver) defect(f []float64) {
	for i := range f {
		f[i] = s.end[i] - s.state[i]
	}
	f[0] = 0
}

// update improves the inverse by Broyden's rank-one formula from the last step and the two defects around it.
func (s *Solver) update(f []float64) {
	m := s.dim
	den := 0.0
	for i := range m {
		h := 0.0
		for j := range m {
			h += s.inverse[i*m+j] * (f[j] - s.fOld[j])
		}
		s.hf[i] = h
		den += s.step[i] * h
	}
	if den == 0 {
		return
	}
	for j := range m {
		x := 0.0
		for i := range m {
			x += s.step[i] * s.inverse[i*m+j]
		}
		s.xh[j] = x / den
	}
	for i := range m {
		d := s.step[i] - s.hf[i]
		for j := range m {
			s.inverse[i*m+j] += d * s.xh[j]
		}
	}
}

// newton sets the start of the next beat by one step with the present inverse. It reports false, and advances
// plainly, when the step is not finite or would take a compartment below V0 − margin (mL).
func (s *Solver) newton(margin float64) bool {
	m := s.dim
	s.defect(s.fOld)
	for i := range m {
		x := 0.0
		for j := range m {
			x -= s.inverse[i*m+j] * s.fOld[j]
		}
		s.step[i] = x
	}
	for c := range s.n {
		if v := s.state[c] + s.step[c]; !(v > s.Ring.Compartments[c].V0-margin) || math.IsInf(v, 1) {
			s.Advance()
			return false
		}
	}
	for l, k := range s.index {
		if k < 0 {
			continue
		}
		if q := s.state[k] + s.step[k]; math.IsNaN(q) || math.IsInf(q, 0) {
			s.Advance()
			return false
		} else if s.Ring.Links[l].Valve && q < 0 {
			s.step[k] = -s.state[k]
		}
	}
	for i := range m {
		s.state[i] += s.step[i]
	}
	return true
}

func (s *Solver) linkOf(row int) int {
	for l, k := range s.index {
		if k == row {
			return l
		}
	}
	panic("loop: state row without a link")
}

// Refresher lays tables of the ring (leak and opening courses) again from the last beat before the next one, and
// returns how far they moved in units of its own tolerance (at most 1 = settled).
type Refresher interface{ Refresh() float64 }

// Search says how to look for the periodic state.
type Search struct {
	Warmup    int     // plain beats before the first Newton step
	MaxBeats  int     // beats allowed in all
	Tolerance float64 // mL and mL/s
	Margin    float64 // mL: a Newton step may not go further below an unstressed volume
	Reuse     bool    // start with the inverse derivative of the last search, if there is one
	Refresher Refresher
}

// Periodic finds the periodic state from State: plain beats first, then Newton steps with the exact derivative,
// continued by Broyden's updates as long as they shrink the defect well.
func (s *Solver) Periodic(c Search) Outcome {
	o := Outcome{Residual: math.Inf(1)}
	plain := c.Warmup
	stepped := false // the last beat started from a Newton step
	usable := c.Reuse && s.haveInverse
	s.haveInverse = false
	for o.Beats < c.MaxBeats {
		last, moved := o.Residual, 0.0
		if c.Refresher != nil {
			moved = c.Refresher.Refresh()
		}
		tangent := plain <= 0 && !usable
		s.Beat(tangent)
		o.Beats++
		o.Residual = s.Residual()
		if o.Residual <= c.Tolerance && moved <= 1 {
			o.Converged = s.StageFailures == 0
			s.haveInverse = usable
			return o
		}
		plain--
		switch {
		case plain >= 0:
			s.Advance()
			continue
		case tangent && stepped && o.Residual > insufficient*last:
			s.Advance()
			plain, stepped = 2, false
			continue
		case tangent:
			usable = s.invert()
		case stepped:
			s.defect(s.f)
			s.update(s.f)
		}
		worse := stepped && (o.Residual > last || moved <= 1 && o.Residual > slow*last)
		stepped = usable && s.newton(c.Margin)
		if !stepped {
			plain = 2
		}
		usable = stepped && (tangent || !worse)
	}
	return o
}

// invertDense sets inv to the inverse of the m×m row-major matrix a, which it destroys, by Gauss-Jordan elimination
// with row pivoting; false when singular or not finite.
func invertDense(a, inv []float64, m int) bool {
	clear(inv)
	for i := range m {
		inv[i*m+i] = 1
	}
	for k := range m {
		best := k
		for i := k + 1; i < m; i++ {
			if math.Abs(a[i*m+k]) > math.Abs(a[best*m+k]) {
				best = i
			}
		}
		p := a[best*m+k]
		if !(math.Abs(p) > 0) || math.IsInf(p, 0) {
			return false
		}
		for j := range m {
			a[k*m+j], a[best*m+j] = a[best*m+j], a[k*m+j]
			inv[k*m+j], inv[best*m+j] = inv[best*m+j], inv[k*m+j]
		}
		for j := range m {
			a[k*m+j] /= p
			inv[k*m+j] /= p
		}
		for i := range m {
			f := a[i*m+k]
			if i == k || f == 0 {
				continue
			}
			for j := range m {
				a[i*m+j] -= f * a[k*m+j]
				inv[i*m+j] -= f * inv[k*m+j]
			}
		}
	}
	return true
}

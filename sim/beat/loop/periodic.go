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

// Newton sets the start of the next beat by one Newton step on the beat map, from a beat integrated with tangent. The
// total volume, which the map leaves alone, replaces one equation. It reports false, and advances plainly, when the
// step is not finite or would empty a compartment below V0 − margin (mL).
func (s *Solver) Newton(margin float64) bool {
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
		s.step[row] = s.state[row] - s.end[row]
	}
	for col := range m {
		s.jac[col] = 0
		if col < n {
			s.jac[col] = 1
		}
	}
	s.step[0] = 0
	if !solveDense(s.jac, s.step, m) {
		s.Advance()
		return false
	}
	for c := range n {
		if v := s.state[c] + s.step[c]; !(v > s.Ring.Compartments[c].V0-margin) {
			s.Advance()
			return false
		}
	}
	for i := range m {
		s.state[i] += s.step[i]
	}
	for l, k := range s.index {
		if k >= 0 && s.Ring.Links[l].Valve && s.state[k] < 0 {
			s.state[k] = 0
		}
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
	Margin    float64 // see Newton, mL
	Refresher Refresher
}

// Periodic finds the periodic state from State: plain beats first, then Newton.
func (s *Solver) Periodic(c Search) Outcome {
	o := Outcome{Residual: math.Inf(1)}
	plain := c.Warmup
	stepped := false // the last beat started from a Newton step
	for o.Beats < c.MaxBeats {
		last, moved := o.Residual, 0.0
		if c.Refresher != nil {
			moved = c.Refresher.Refresh()
		}
		newton := plain <= 0
		s.Beat(newton)
		o.Beats++
		o.Residual = s.Residual()
		if o.Residual <= c.Tolerance && moved <= 1 {
			o.Converged = s.StageFailures == 0
			return o
		}
		plain--
		switch {
		case !newton:
			s.Advance()
		case stepped && o.Residual > sufficient*last:
			s.Advance()
			plain, stepped = 2, false
		default:
			stepped = s.Newton(c.Margin)
			if !stepped {
				plain = 2
			}
		}
	}
	return o
}

// solveDense solves the m×m row-major system a·x = b in place by Gaussian elimination with row pivoting; false when
// singular or not finite.
func solveDense(a, b []float64, m int) bool {
	for k := range m {
		best := k
		for i := k + 1; i < m; i++ {
			if math.Abs(a[i*m+k]) > math.Abs(a[best*m+k]) {
				best = i
			}
		}
		if !(math.Abs(a[best*m+k]) > 0) {
			return false
		}
		if best != k {
			for j := range m {
				a[k*m+j], a[best*m+j] = a[best*m+j], a[k*m+j]
			}
			b[k], b[best] = b[best], b[k]
		}
		inv := 1 / a[k*m+k]
		for i := k + 1; i < m; i++ {
			f := a[i*m+k] * inv
			if f == 0 {
				continue
			}
			for j := k + 1; j < m; j++ {
				a[i*m+j] -= f * a[k*m+j]
			}
			b[i] -= f * b[k]
		}
	}
	for i := m - 1; i >= 0; i-- {
		x := b[i]
		for j := i + 1; j < m; j++ {
			x -= a[i*m+j] * b[j]
		}
		b[i] = x / a[i*m+i]
		if math.IsNaN(b[i]) || math.IsInf(b[i], 0) {
			return false
		}
	}
	return true
}

package loop

import "math"

// Solver integrates one Ring. It owns all scratch; nothing is allocated after New. The waves hold the state at the
// start of each step (index i = time i·Period/Steps): V[c][i] mL, P[c][i] mmHg, Q[l][i] mL/s (flow out of c through
// link c).
type Solver struct {
	Ring    *Ring
	V, P, Q [][]float64
	// Forward and Backward: volume in mL, both ≥ 0, that passed each link each way in the last beat, summed as the
	// integrator does, so that they balance the volumes exactly.
	Forward, Backward []float64

	n, inertial, dim int
	index            []int // column of link l's flow in the state, or −1

	state, end       []float64 // state at the start and the end of the beat: volumes, then inertial flows
	vol, flow        []float64 // running volumes; running momentum flows of the links
	y, qs, p, e, g   []float64 // stage iterate
	histV, histQ     []float64
	rhs, diag, b     []float64
	dp, dv           []float64 // the last Newton step of a stage
	fac              cyclic
	tv, tq, t1v, t1q []float64 // derivatives [column][compartment or link]: at the step's start, and of stage one
	jac, inverse     []float64 // derivative of the defect and its inverse
	step, f, fOld    []float64 // last step; defects after and before it
	hf, xh           []float64
	haveInverse      bool
	StageFailures    int // stages of the last beat that missed the tolerance
}

// New makes a solver for the shape of r (numbers of compartments, steps, and which links have inertance must not
// change afterwards; all values may). It panics on a ring of fewer than three compartments or mismatched lengths.
func New(r *Ring) *Solver {
	n := len(r.Compartments)
	if n < 3 || len(r.Links) != n || r.Steps < 1 {
		panic("loop: need at least three compartments, as many links, and one step")
	}
	s := &Solver{Ring: r, n: n, index: make([]int, n), fac: newCyclic(n)}
	s.dim = n
	for l := range r.Links {
		s.index[l] = -1
		if r.Links[l].L > 0 {
			s.index[l] = s.dim
			s.dim++
		}
	}
	s.inertial = s.dim - n
	block := func(k int) []float64 { return make([]float64, k) }
	for range n {
		s.V, s.P, s.Q = append(s.V, block(r.Steps)), append(s.P, block(r.Steps)), append(s.Q, block(r.Steps))
	}
	s.Forward, s.Backward = block(n), block(n)
	s.state, s.end = block(s.dim), block(s.dim)
	s.vol, s.flow, s.y, s.qs, s.p, s.e, s.g = block(n), block(n), block(n), block(n), block(n), block(n), block(n)
	s.histV, s.histQ, s.rhs, s.diag, s.b = block(n), block(n), block(n), block(n), block(n)
	s.dp, s.dv = block(n), block(n)
	k := n * s.dim
	s.tv, s.tq, s.t1v, s.t1q = block(k), block(k), block(k), block(k)
	s.jac, s.inverse = block(s.dim*s.dim), block(s.dim*s.dim)
	s.step, s.f, s.fOld, s.hf, s.xh = block(s.dim), block(s.dim), block(s.dim), block(s.dim), block(s.dim)
	return s
}

// State is the state at the start of the beat: volumes in mL, then the flows in mL/s of the links with inertance, in
// order. The caller may write it to set a start.
func (s *Solver) State() []float64 { return s.state }

// Beat integrates one beat from State and fills the waves; the end state stays inside. With tangent it also carries
// the derivative of the end state with respect to the start.
func (s *Solver) Beat(tangent bool) {
	r, n := s.Ring, s.n
	copy(s.vol, s.state[:n])
	for l := range n {
		s.flow[l] = 0
		if k := s.index[l]; k >= 0 {
			s.flow[l] = s.state[k]
		}
	}
	if tangent {
		s.seedTangent()
	}
	s.StageFailures = 0
	clear(s.Forward)
	clear(s.Backward)
	h := r.Period / float64(r.Steps)
	copy(s.y, s.vol)
	for i := range r.Steps {
		copy(s.histV, s.vol)
		copy(s.histQ, s.flow)
		s.stage(stages*i, h)
		if tangent {
			s.tangentStage(s.tv, s.tq, s.t1v, s.t1q, h)
		}
		s.count((1 - Gamma) * h)
		for c := range n {
			s.histV[c] = s.vol[c] + extrapolate*(s.y[c]-s.vol[c])
			s.histQ[c] = s.flow[c] + extrapolate*(s.momentum(c, s.qs[c])-s.flow[c])
			if r.Links[c].Valve && s.histQ[c] < 0 {
				s.histQ[c] = 0
			}
		}
		if tangent {
			s.extrapolateTangent()
		}
		for c := range n {
			s.y[c] = s.vol[c] + (s.y[c]-s.vol[c])/Gamma
		}
		s.stage(stages*i+1, h)
		if tangent {
			s.tangentStage(s.t1v, s.t1q, s.tv, s.tq, h)
		}
		s.count(Gamma * h)
		at := i + 1
		if at == r.Steps {
			at = 0
		}
		for c := range n {
			s.y[c], s.vol[c] = s.y[c]+Gamma*(s.y[c]-s.vol[c]), s.y[c]
			s.flow[c] = s.momentum(c, s.qs[c])
			s.V[c][at], s.P[c][at], s.Q[c][at] = s.vol[c], s.p[c], s.qs[c]
		}
	}
	copy(s.end, s.vol)
	for l, k := range s.index {
		if k >= 0 {
			s.end[k] = s.flow[l]
		}
	}
}

// count adds the present flows over dt (s) to the passed volumes.
func (s *Solver) count(dt float64) {
	for l, q := range s.qs {
		if q > 0 {
			s.Forward[l] += dt * q
		} else {
			s.Backward[l] -= dt * q
		}
	}
}

// momentum is the part of a link's flow that inertance carries on: none in a link without inertance, none backwards
// through a valve's leak.
func (s *Solver) momentum(l int, q float64) float64 {
	if s.index[l] < 0 || (s.Ring.Links[l].Valve && q < 0) {
		return 0
	}
	return q
}

// evaluate fills p, e, qs, g at the iterate y and sample k and returns the largest volume residual (rhs = −residual).
func (s *Solver) evaluate(k int, gh float64) float64 {
	r, n := s.Ring, s.n
	for c := range n {
		f := 0.0
		if a := r.Compartments[c].Activation; a != nil {
			f = a[k]
		}
		s.p[c], s.e[c] = r.Compartments[c].pressure(s.y[c], f)
	}
	for c := range n {
		l := &r.Links[c]
		down := c + 1
		if down == n {
			down = 0
		}
		inv, leak := l.InvK2, l.LeakK
		if l.ForwardInvK2 != nil {
			inv = l.ForwardInvK2[k]
		}
		if l.Leak != nil {
			leak = l.Leak[k]
		}
		s.qs[c], s.g[c] = l.flow(s.p[c]-s.p[down], s.histQ[c], l.L/gh, inv, leak)
	}
	worst := 0.0
	up := n - 1
	for c := range n {
		s.rhs[c] = s.histV[c] + gh*(s.qs[up]-s.qs[c]) - s.y[c]
		worst = max(worst, math.Abs(s.rhs[c]))
		up = c
	}
	return worst
}

// factorise prepares the pressure system (1/E + γh·links) of the last evaluation.
func (s *Solver) factorise(gh float64) {
	up := s.n - 1
	for c := range s.n {
		s.b[c] = gh * s.g[c]
		s.diag[c] = 1/s.e[c] + gh*(s.g[up]+s.g[c])
		up = c
	}
	s.fac.factor(s.diag, s.b)
}

// along is the descent left along the last Newton direction: minus the derivative of the stage's convex potential.
func (s *Solver) along() float64 {
	d := 0.0
	for c := range s.n {
		d += s.rhs[c] * s.dp[c]
	}
	return d
}

// search shortens a Newton step that overshot (a valve snapped open or shut within it) by false position on the
// derivative along the step, which falls monotonically because the potential is convex.
func (s *Solver) search(k int, gh, slope float64) (worst float64) {
	lo, hi, at := 0.0, 1.0, 1.0
	dlo, dhi := slope, s.along()
	for range searchIterations {
		next := lo + (hi-lo)*dlo/(dlo-dhi)
		next = min(max(next, lo+0.1*(hi-lo)), hi-0.1*(hi-lo))
		for c := range s.n {
			s.y[c] += (next - at) * s.dv[c]
		}
		at = next
		worst = s.evaluate(k, gh)
		d := s.along()
		switch {
		case math.Abs(d) <= overshoot*slope:
			return worst
		case d > 0:
			lo, dlo = at, d
		default:
			hi, dhi = at, d
		}
	}
	return worst
}

// stage solves Y = hist + γh·f(Y) for sample k by Newton from the iterate y, and ends with volumes that follow from
// the flows, so that the total is conserved to rounding.
func (s *Solver) stage(k int, h float64) {
	gh := Gamma * h
	worst := s.evaluate(k, gh)
	for it := 0; it < stageIterations && !(worst <= stageTolerance); it++ {
		s.factorise(gh)
		copy(s.dp, s.rhs)
		s.fac.solve(s.dp)
		slope := 0.0
		for c := range s.n {
			slope += s.rhs[c] * s.dp[c]
			s.dv[c] = s.dp[c] / s.e[c]
			s.y[c] += s.dv[c]
		}
		worst = s.evaluate(k, gh)
		if worst > stageTolerance && s.along() < -overshoot*slope {
			worst = s.search(k, gh, slope)
		}
	}
	if !(worst <= stageTolerance) {
		s.StageFailures++
	}
	up := s.n - 1
	for c := range s.n {
		s.y[c] = s.histV[c] + gh*(s.qs[up]-s.qs[c])
		up = c
	}
}

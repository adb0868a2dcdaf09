package loop

// Derivatives of the state with respect to the start of the beat, one column per start component, carried through
// the same linear systems as the state itself.

func (s *Solver) seedTangent() {
	clear(s.tv)
	clear(s.tq)
	for c := range s.n {
		s.tv[c*s.n+c] = 1
	}
	for l, k := range s.index {
		if k >= 0 {
			s.tq[k*s.n+l] = 1
		}
	}
}

// tangentStage maps derivatives of the stage's history (inV, inQ) to those of its result (outV, outQ) at the values of
// the last evaluation.
func (s *Solver) tangentStage(inV, inQ, outV, outQ []float64, h float64) {
	n, gh := s.n, Gamma*h
	s.factorise(gh)
	for col := range s.dim {
		o := col * n
		hv, hq, x := inV[o:o+n], inQ[o:o+n], s.rhs
		copy(x, hv)
		for l, k := range s.index {
			if k < 0 {
				continue
			}
			push := s.Ring.Links[l].L * s.g[l] * hq[l]
			down := l + 1
			if down == n {
				down = 0
			}
			x[l] -= push
			x[down] += push
		}
		s.fac.solve(x)
		for c := range n {
			outV[o+c] = x[c] / s.e[c]
		}
		for l, k := range s.index {
			if k < 0 {
				continue
			}
			down := l + 1
			if down == n {
				down = 0
			}
			dq := s.g[l] * (x[l] - x[down] + s.Ring.Links[l].L/gh*hq[l])
			if s.Ring.Links[l].Valve && s.qs[l] <= 0 {
				dq = 0
			}
			outQ[o+l] = dq
		}
	}
}

// extrapolateTangent turns (start, stage one) into the derivatives of stage two's history, in t1v and t1q.
func (s *Solver) extrapolateTangent() {
	n := s.n
	for col := range s.dim {
		o := col * n
		for c := range n {
			s.t1v[o+c] = s.tv[o+c] + extrapolate*(s.t1v[o+c]-s.tv[o+c])
		}
		for l, k := range s.index {
			if k < 0 {
				continue
			}
			if s.Ring.Links[l].Valve && s.histQ[l] <= 0 {
				s.t1q[o+l] = 0
				continue
			}
			s.t1q[o+l] = s.tq[o+l] + extrapolate*(s.t1q[o+l]-s.tq[o+l])
		}
	}
}

package valve

import "annuloscope/sim/leaflet"

// solveShell solves and asks goOn between the iterations; false means that the work was called off.
func solveShell(s *leaflet.Solver, in *leaflet.Input, goOn func() bool) (*leaflet.Result, bool) {
	if err := s.Set(*in); err != nil {
		panic("valve: shell input: " + err.Error())
	}
	for s.Step(1) == leaflet.Running {
		if goOn != nil && !goOn() {
			s.Reset()
			return nil, false
		}
	}
	return s.Result(), true
}

// shellOverlap is the shell's signed overlap (contact less gap, mm) at n stations of the sections.
func shellOverlap(dst []float64, r *leaflet.Result, n int) []float64 {
	dst = resized(dst, n)
	last := len(r.Line) - 1
	for i := range dst {
		s := lineShare * (2*float64(i)/float64(n-1) - 1)
		at := (s + 1) / 2 * float64(last)
		k := min(int(at), last-1)
		t := at - float64(k)
		over := func(j int) float64 { return r.LineContactMM[j] - r.LineGapMM[j] }
		dst[i] = (1-t)*over(k) + t*over(k+1)
	}
	return dst
}

func resized(v []float64, n int) []float64 {
	if cap(v) < n {
		return make([]float64, n)
	}
	return v[:n]
}

// meanOf is the mean along the line by the trapezoid rule.
func meanOf(v []float64) float64 {
	sum := 0.0
	for i, x := range v {
		if i == 0 || i == len(v)-1 {
			x /= 2
		}
		sum += x
	}
	return sum / float64(len(v)-1)
}

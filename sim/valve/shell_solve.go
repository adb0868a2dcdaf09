package valve

import (
	"math"

	"annuloscope/sim/leaflet"
)

// solveShell solves and asks goOn between the iterations; false means that the work was called off. An input that the
// shell does not take gives an empty result, not converged.
func solveShell(s *leaflet.Solver, in *leaflet.Input, goOn func() bool) (*leaflet.Result, bool) {
	if err := s.Set(*in); err != nil {
		s.Reset()
		return &leaflet.Result{Status: leaflet.NotConverged, Line: []float64{-1, 1}, LineContactMM: make([]float64, 2), LineGapMM: make([]float64, 2),
			BondTensionN: make([]float64, len(in.Bonds))}, true
	}
	for s.Step(1) == leaflet.Running {
		if goOn != nil && !goOn() {
			return nil, false
		}
	}
	return s.Result(), true
}

// shellOverlap is the shell's signed overlap (contact less gap, mm) at n stations of the sections. Beyond shellTrusted
// the leaflets fold into the commissures in one of several ways, and which one depends on how the state was reached;
// there the mean of the stations just inside is taken, so that their changes count and the folds do not. With torn chords
// (whole) every station counts as it is: the stations just inside may lie in the torn stretch and say nothing of the rest.
func shellOverlap(dst []float64, r *leaflet.Result, n int, whole bool) []float64 {
	dst = resized(dst, n)
	last := len(r.Line) - 1
	var sum, count [2]float64
	for i := range dst {
		s := 2*float64(i)/float64(n-1) - 1
		at := (lineShare*s + 1) / 2 * float64(last)
		k := min(int(at), last-1)
		t := at - float64(k)
		over := func(j int) float64 { return r.LineContactMM[j] - r.LineGapMM[j] }
		dst[i] = (1-t)*over(k) + t*over(k+1)
		if side := 2 * i / n; math.Abs(s) >= shellInside && math.Abs(s) <= shellTrusted {
			sum[side] += dst[i]
			count[side]++
		}
	}
	for i := range dst {
		if s := 2*float64(i)/float64(n-1) - 1; math.Abs(s) > shellTrusted && !whole {
			dst[i] = sum[2*i/n] / max(count[2*i/n], 1)
		}
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

// shellDepth is where the coaptation begins below the septal-lateral line in the long-axis section: at the margins, less
// the contact reported there. The shell's own contact will not do: it knows nothing of the residual, so where the sections
// have a gap (a jet) it would take the forming of contact for a rise of the coaptation.
func shellDepth(r *leaflet.Result, contact []float64) float64 {
	return r.MarginDepthMM - contact[len(contact)/2]
}

// torn tells whether the patient has torn chords, in the baseline or since.
func (b *baseline) torn() bool {
	for _, f := range b.state(true, b.input.Line.LengthMM()).Faults {
		if f.Ruptured {
			return true
		}
	}
	return false
}

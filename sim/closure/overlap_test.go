package closure

import (
	"math"
	"testing"
)

// The overlaps of a solve give back its own contact, gap and orifice, with clips and without.
func TestAlongGivesTheSolveBack(t *testing.T) {
	in := testInput(37, 0)
	f, rep := Fit(in, functional)
	if !rep.Status.OK() {
		t.Fatal(rep.Status)
	}
	for _, clips := range [][]Clip{nil, {{Position: 0, WidthMM: 5, ReachMM: 8, Hold: 1}}} {
		var w Workspace
		var r Result
		w.Solve(f, in, clips, &r)
		n := len(in.Line.Stations)
		contact, gap := make([]float64, n), make([]float64, n)
		a := f.Along(&in.Line, r.OverlapMM, clips, r.Clips, contact, gap)
		if d := math.Abs(float64(a - r.AnatomicOrifice)); d > 1e-9 {
			t.Errorf("%d clips: orifice %v, solve %v", len(clips), a, r.AnatomicOrifice)
		}
		for i := range gap {
			if math.Abs(gap[i]-r.GapMM[i]) > 1e-9 || math.Abs(contact[i]-r.ContactMM[i]) > 1e-9 {
				t.Fatalf("%d clips, station %d: gap %g contact %g, solve %g %g", len(clips), i, gap[i], contact[i], r.GapMM[i], r.ContactMM[i])
			}
		}
		if got := in.Line.Regions(contact); got != r.Contact {
			t.Errorf("regions %v, solve %v", got, r.Contact)
		}
	}
}

package valve

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// What is seen of the closed shell and what is reported agree: at the middle of the line, where the functional patient
// leaks most, the leaflets in the picture are as far apart as the gap reported there, within 0.3 mm.
func TestTheShellIsSeenAsReported(t *testing.T) {
	t.Parallel()
	r, err := Solve(caseOf(t, "functional"), Options{Engine: ShellEngine, Coarse: true})
	if err != nil {
		t.Fatal(err)
	}
	if r.Provenance.Engine != ShellEngine {
		t.Fatalf("%+v", r.Engines)
	}
	s := &r.Scene.Before.Shell.Closed
	// The long-axis section: both leaflets where their columns pass the middle of the line, in fine steps from row to row.
	cut := func(from, to int) []r3.Vec {
		var out []r3.Vec
		for j := from; j < to; j++ {
			a, b := s.Points[j].X, s.Points[j+1].X
			if a*b > 0 {
				continue
			}
			point := func(i int) r3.Vec {
				return r3.Add(r3.Scale(b/(b-a), s.Points[i*s.Columns+j]), r3.Scale(-a/(b-a), s.Points[i*s.Columns+j+1]))
			}
			for i := range s.Rows - 1 {
				for k := range 10 {
					t := float64(k) / 10
					out = append(out, r3.Add(r3.Scale(1-t, point(i)), r3.Scale(t, point(i+1))))
				}
			}
			return out
		}
		t.Fatal("no column passes the middle")
		return nil
	}
	seen := math.Inf(1)
	for _, a := range cut(0, s.Columns/2-1) {
		for _, p := range cut(s.Columns/2, s.Columns-2) {
			seen = min(seen, r3.Norm(r3.Sub(a, p)))
		}
	}
	const touch = 1.1 // mm, leaflet.Result: contact is up to 1.1 times the thickness
	reported := r.Before.Coaptation.GapMM.A2P2
	widest := r.Before.Coaptation.GapMM.Max
	t.Logf("seen %.2f mm, reported: widest %.2f, mean of A2-P2 %.2f mm", seen-touch, widest, reported)
	if widest < 2 {
		t.Fatalf("no jet to look at: %.2f mm", widest)
	}
	if math.Abs(seen-touch-widest) > 0.3 {
		t.Errorf("the picture shows a gap of %.2f mm at the jet, reported are %.2f", seen-touch, widest)
	}
	for v, g := range s.GapMM {
		if j := v % s.Columns; j != 0 && 2*j != s.Columns && s.InContact[v] != (g <= touch) {
			t.Fatalf("vertex %d: gap %.2f mm, in contact %v", v, g, s.InContact[v])
		}
	}
}

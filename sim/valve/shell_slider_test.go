//go:build !race

// Some ten times slower under the race detector: .ci/run runs these without it.

package valve

import (
	"math"
	"slices"
	"testing"

	"annuloscope/sim/repair"
)

// sliderTolerance is by how much a number may depend on how a state was reached (up, down or cold; issue: 0.05 mm, for
// the others chosen), and how far it may leave the straight line between its neighbours along a slider.
var sliderTolerance = []struct {
	path        string
	same, bends float64
}{
	{"coaptation.contact_mm.mean", 0.05, 0.1}, {"coaptation.depth_mm", 0.05, 0.05}, {"coaptation.tenting_area_cm2", 0.02, 0.05},
	{"regurgitation.effective_orifice_cm2", 0.005, 0.01}, {"opening.anatomic_area_cm2", 0.12, 0.12},
}

func sliderNumbers(t *testing.T, r *Report) []float64 {
	t.Helper()
	if r.Provenance.Engine != ShellEngine {
		t.Fatalf("the shell did not settle: %s", r.Engines.Status)
	}
	var out []float64
	for _, q := range sliderTolerance {
		k, ok := FindQuantity(q.path)
		if !ok {
			t.Fatal(q.path)
		}
		out = append(out, k.Of(&r.After))
	}
	return out
}

// slide moves one number of one repair up and down in equal steps with the shell, each state from the one before, and
// checks that nothing jumps and that up, down and, at the first value, a cold solve agree.
func slide(t *testing.T, patient string, kind repair.Kind, key string, from, step float64, n int) {
	warm := NewSolver()
	at := func(s *Solver, k int, o Options) []float64 {
		c := caseOf(t, patient)
		c.Repairs = append(c.Repairs, repair.Must(kind).With(key, from+step*float64(k)))
		r, err := s.Solve(c, o)
		if err != nil {
			t.Fatal(err)
		}
		o.Coarse = true
		if !s.Settle(&r, o, nil) {
			t.Fatal("called off by nobody")
		}
		return sliderNumbers(t, &r)
	}
	compare := func(what string, k int, a, b []float64) {
		for i, q := range sliderTolerance {
			if math.Abs(a[i]-b[i]) > q.same {
				t.Errorf("%s %s %g, %s: %s %.4f and %.4f, allowed %.3f apart", patient, kind, from+step*float64(k), what, q.path, a[i], b[i], q.same)
			}
		}
	}
	up := make([][]float64, n)
	for k := range n {
		up[k] = at(warm, k, Options{Warm: true})
		t.Logf("%s %s %g: %.4f", patient, kind, from+step*float64(k), up[k])
	}
	for k := 1; k < n-1; k++ {
		for i, q := range sliderTolerance {
			if b := up[k][i] - (up[k-1][i]+up[k+1][i])/2; math.Abs(b) > q.bends {
				t.Errorf("%s %s %g: %s leaves the line between its neighbours by %.4f, allowed %.3f", patient, kind, from+step*float64(k), q.path, b, q.bends)
			}
		}
	}
	for k := n - 2; k >= 0; k-- {
		compare("up and down", k, up[k], at(warm, k, Options{Warm: true}))
	}
	compare("warm and cold", 0, up[0], at(NewSolver(), 0, Options{}))
}

// With torn chords the shell has two places of rest under a band (leak 0.19 and 0 cm² under 12 mm): the screen, which
// comes from the neighbouring value, and a command, which starts afresh, find the same one.
func TestShellTornDoesNotDependOnTheWay(t *testing.T) {
	t.Parallel()
	at := func(s *Solver, mm float64, o Options) []float64 {
		c := caseOf(t, "flail-p2")
		c.Repairs = append(c.Repairs, repair.Must(repair.SinusBand).With("shortening_mm", mm))
		r, err := s.Solve(c, o)
		if err != nil {
			t.Fatal(err)
		}
		o.Coarse = true
		if !s.Settle(&r, o, nil) {
			t.Fatal("called off by nobody")
		}
		if !slices.ContainsFunc(r.Findings, func(f Finding) bool { return f.Code == "shell-torn" }) {
			t.Errorf("%g mm: nothing says that there are two places of rest", mm)
		}
		return sliderNumbers(t, &r)
	}
	warm := NewSolver()
	at(warm, 7, Options{Warm: true})
	way, afresh := at(warm, 8, Options{Warm: true}), at(NewSolver(), 8, Options{})
	t.Logf("from 7 mm %.4f, afresh %.4f", way, afresh)
	for i, q := range sliderTolerance {
		if math.Abs(way[i]-afresh[i]) > q.same {
			t.Errorf("%s: %.4f from 7 mm and %.4f afresh, allowed %.3f apart", q.path, way[i], afresh[i], q.same)
		}
	}
}

// A band slider on the functional patient.
func TestShellSlider(t *testing.T) {
	t.Parallel()
	slide(t, "functional", repair.SinusBand, "shortening_mm", 8, 1, 3)
}

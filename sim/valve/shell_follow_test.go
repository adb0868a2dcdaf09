//go:build !race

// Some ten times slower under the race detector: .ci/run runs it without.

package valve

import (
	"math"
	"testing"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"

	"gonum.org/v1/gonum/spatial/r3"
)

// Under a slider the shell is there with the first answer, near to where it settles, and the next settling does not
// depend on it. Where it would have to start afresh there is none.
func TestShellFollowsASlider(t *testing.T) {
	t.Parallel()
	full, quick := NewSolver(), NewSolver()
	with := func(patient string, steps ...repair.Step) casefile.Case {
		c := caseOf(t, patient)
		c.Repairs = append(c.Repairs, steps...)
		return c
	}
	band := func(mm float64) repair.Step { return repair.Must(repair.SinusBand).With("shortening_mm", mm) }
	settle := func(s *Solver, c casefile.Case) Report {
		o := Options{Warm: true, Circulation: true}
		r, err := s.Solve(c, o)
		if err != nil {
			t.Fatal(err)
		}
		o.Coarse = true
		if !s.Settle(&r, o, nil) || r.Provenance.Engine != ShellEngine {
			t.Fatalf("not settled: %+v", r.Engines)
		}
		return r
	}
	follow := func(c casefile.Case) *ShellShapes {
		if _, err := quick.Solve(c, Options{Warm: true}); err != nil {
			t.Fatal(err)
		}
		return full.Follow(quick)
	}
	if follow(with("functional", band(8))) != nil {
		t.Error("a shell before anything was settled")
	}
	settle(full, with("functional", band(8)))
	sh := follow(with("functional", band(9)))
	if sh == nil {
		t.Fatal("no shell on its way from 8 to 9 mm")
	}
	after := settle(full, with("functional", band(9)))
	want := after.Scene.After.Shell.Closed
	sum := 0.0
	for i, p := range sh.Closed.Points {
		sum += r3.Norm2(r3.Sub(p, want.Points[i]))
	}
	rms := math.Sqrt(sum / float64(len(want.Points)))
	t.Logf("rms distance of the shell on its way from the settled one %.3f mm", rms)
	if rms > 0.1 || rms == 0 {
		t.Errorf("the shell on its way is %.3f mm from the settled one, at most 0.1 and not the same one", rms)
	}
	other := NewSolver()
	settle(other, with("functional", band(8)))
	straight := settle(other, with("functional", band(9)))
	for i, q := range [][2]float64{
		{after.After.Coaptation.ContactMM.Mean, straight.After.Coaptation.ContactMM.Mean}, {after.After.Coaptation.DepthMM, straight.After.Coaptation.DepthMM},
		{float64(after.After.Regurgitation.EffectiveOrificeCM2), float64(straight.After.Regurgitation.EffectiveOrificeCM2)},
	} {
		if math.Abs(q[0]-q[1]) > 0.02 {
			t.Errorf("number %d settles at %.4f after following, at %.4f without", i, q[0], q[1])
		}
	}
	if follow(with("functional", band(9), repair.Must(repair.EdgeClip))) != nil {
		t.Error("a new clip is a fresh start, but a shell followed")
	}
	if follow(with("normal", band(9))) != nil {
		t.Error("the shell of one patient shown for another")
	}
}

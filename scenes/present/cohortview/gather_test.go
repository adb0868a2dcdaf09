package cohortview

import (
	"errors"
	"slices"
	"testing"
	"time"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/cohort"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

func bandPlan(seed uint64, mm float64) cohort.Plan {
	return cohort.Plan{Seed: seed, Mix: cohort.EqualMix(), Repairs: []repair.Step{repair.Must(repair.SinusBand).With("shortening_mm", mm)}}
}

// Beside the screen: a plan changed while an answer is on its way starts anew, no patient of the old plan slips in, and
// every patient is that of a worker of the command line.
func TestGatherBesideTheScreen(t *testing.T) {
	a := study.NewAsync(NewCold())
	defer a.Close()
	g := gather{runner: a}
	until := func(p cohort.Plan, n int) {
		t.Helper()
		for end := time.Now().Add(60 * time.Second); len(g.members) < n; {
			if g.follow(p, n); time.Now().After(end) {
				t.Fatalf("%d of %d patients after a minute", len(g.members), n)
			}
			time.Sleep(time.Millisecond)
		}
	}
	until(bandPlan(1, 10), 2)
	g.follow(bandPlan(1, 10), 3) // hands one out
	g.follow(bandPlan(4, 20), 3)
	if len(g.members) > 1 {
		t.Fatalf("%d patients of the old plan are kept", len(g.members))
	}
	until(bandPlan(4, 20), 3)
	w := cohort.NewWorker(bandPlan(4, 20))
	for i := range g.members {
		if m, err := w.Member(i); err != nil || !slices.Equal(m.Row(), g.members[i].Row()) {
			t.Errorf("patient %d is another than the command line's (%v)", i, err)
		}
	}
	if g.follow(bandPlan(4, 20), 3) {
		t.Error("a full cohort still changes")
	}
}

// nothing refuses every case.
type nothing struct{}

func (nothing) Solve(casefile.Case) (valve.Report, error) {
	return valve.Report{}, errors.New("made-up refusal")
}

// A patient that cannot be is drawn again, and in the end said, not tried for ever.
func TestGatherGivesUp(t *testing.T) {
	g := gather{runner: study.NewSync(nothing{})}
	for i := 0; g.failed == nil; i++ {
		if i > 2000 {
			t.Fatal("it goes on for ever")
		}
		g.follow(bandPlan(1, 20), 1)
	}
	if len(g.members) != 0 || g.follow(bandPlan(1, 20), 1) {
		t.Errorf("%d patients after %v", len(g.members), g.failed)
	}
}

package study_test

import (
	"testing"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// twoTier answers at once, and better when asked again.
type twoTier struct{ refined int }

func (e *twoTier) Solve(casefile.Case) (valve.Report, error) { return valve.Report{}, nil }
func (e *twoTier) Refine(casefile.Case) (valve.Report, error) {
	e.refined++
	return valve.Report{Notice: "refined"}, nil
}

// In the page, where everything runs on one thread, the quick answer must be handed over before the slow one is begun,
// and a new change drops a refinement that has not begun.
func TestQuickAnswerIsShownFirst(t *testing.T) {
	e := &twoTier{}
	s := study.New(study.NewSync(e), normal())
	if !s.Poll() || e.refined != 0 || !s.Solved || !s.Updating() {
		t.Fatalf("after the first poll: refined %d times, solved %v, updating %v", e.refined, s.Solved, s.Updating())
	}
	if err := s.Turn(shortening, 3, false); err != nil {
		t.Fatal(err)
	}
	if !s.Poll() || e.refined != 0 {
		t.Errorf("a change during the quick answer refined %d times", e.refined)
	}
	if !s.Poll() || e.refined != 1 || s.Report.Notice != "refined" || s.Updating() || s.Poll() {
		t.Errorf("in the end refined %d times, updating %v", e.refined, s.Updating())
	}
}

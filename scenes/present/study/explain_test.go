package study

import (
	"testing"
	"time"

	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// why is an engine that explains in 20 steps.
type why struct {
	steps, ended int
	hold         chan bool // waited for at every step, if there is one
}

func (e *why) Solve(casefile.Case) (valve.Report, error) { return valve.Report{Notice: "first"}, nil }
func (e *why) Refine(casefile.Case) (valve.Report, error) {
	return valve.Report{Notice: "second"}, nil
}
func (e *why) Explain(_ casefile.Case, goOn func() bool) (valve.Report, bool, error) {
	for range 20 {
		e.steps++
		if e.hold != nil {
			<-e.hold
		}
		if !goOn() {
			e.ended++
			return valve.Report{}, false, nil
		}
	}
	return valve.Report{Notice: "explained"}, true, nil
}

// The refined numbers are shown before their explanation is begun; it comes in slices, and a new request ends it.
func TestExplainingInSlices(t *testing.T) {
	e := &why{}
	s := New(NewSync(e), casefile.Case{})
	s.Poll()
	if s.Explaining() || !s.Updating() {
		t.Error("the first answer is not to be explained")
	}
	s.Poll()
	if s.Report.Notice != "second" || !s.Explaining() || !s.Updating() || e.steps != 0 {
		t.Fatalf("%q explaining %v after %d steps", s.Report.Notice, s.Explaining(), e.steps)
	}
	s.Poll()
	if e.steps < 1 || e.steps > perCause {
		t.Errorf("one Poll did %d steps, at most %d are allowed", e.steps, perCause)
	}
	s.submit()
	if e.ended != 1 || s.Explaining() {
		t.Errorf("a new request ended %d explanations, want 1", e.ended)
	}
	s.Settle()
	if s.Report.Notice != "explained" || s.Explaining() || s.Updating() {
		t.Errorf("%q explaining %v", s.Report.Notice, s.Explaining())
	}
}

// Beside the screen, too: the numbers do not wait for the explanation, nor a new request for an old explanation.
func TestExplainingBeside(t *testing.T) {
	e := &why{hold: make(chan bool)}
	a := NewAsync(e)
	defer a.Close()
	s := New(a, casefile.Case{})
	until := func(what string, ok func() bool) {
		t.Helper()
		for end := time.Now().Add(20 * time.Second); !ok(); time.Sleep(time.Millisecond) {
			if time.Now().After(end) {
				t.Fatal("never ", what)
			}
			s.Poll()
		}
	}
	until("explaining", func() bool { return s.Explaining() && s.Report.Notice == "second" })
	s.submit()
	e.hold <- true // the old explanation sees that something newer waits
	close(e.hold)
	until("explained", func() bool { return !s.Updating() && s.Report.Notice == "explained" })
	if e.ended != 1 {
		t.Errorf("%d explanations ended, want 1", e.ended)
	}
}

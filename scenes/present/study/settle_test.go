package study

import (
	"testing"
	"time"

	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// deep is an engine whose third tier takes 20 steps.
type deep struct{ steps, ended int }

func (d *deep) Solve(casefile.Case) (valve.Report, error) { return valve.Report{Notice: "first"}, nil }
func (d *deep) Refine(casefile.Case) (valve.Report, error) {
	return valve.Report{Notice: "second"}, nil
}
func (d *deep) Settle(_ casefile.Case, goOn func() bool) (valve.Report, bool, error) {
	for range 20 {
		d.steps++
		if !goOn() {
			d.ended++
			return valve.Report{}, false, nil
		}
	}
	return valve.Report{Notice: "third"}, true, nil
}

// A synchronous runner does a bounded piece at each Poll, and a new request ends the old one.
func TestSettlingInSlices(t *testing.T) {
	e := &deep{}
	s := New(NewSync(e), casefile.Case{})
	s.SetShell(true)
	s.Poll()
	s.Poll()
	if s.Report.Notice != "second" || !s.Settling() || s.Updating() {
		t.Fatalf("%q settling %v updating %v", s.Report.Notice, s.Settling(), s.Updating())
	}
	before := e.steps
	s.Poll()
	if d := e.steps - before; d < 1 || d > perSlice {
		t.Errorf("one Poll did %d steps, at most %d are allowed", d, perSlice)
	}
	s.submit()
	if e.ended != 1 {
		t.Errorf("a new request ended %d settlings, want 1", e.ended)
	}
	s.Settle()
	if s.Report.Notice != "third" || s.Settling() {
		t.Errorf("%q settling %v", s.Report.Notice, s.Settling())
	}
	s.SetShell(false)
	s.Settle()
	if s.Report.Notice != "second" || s.Settling() {
		t.Errorf("switched off: %q settling %v", s.Report.Notice, s.Settling())
	}
}

// The runner beside the screen settles last, and only when asked.
func TestSettlingBeside(t *testing.T) {
	a := NewAsync(&deep{})
	defer a.Close()
	s := New(a, casefile.Case{})
	s.SetShell(true)
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end) && (s.Settling() || !s.Solved); time.Sleep(time.Millisecond) {
		s.Poll()
	}
	if s.Report.Notice != "third" {
		t.Errorf("%q", s.Report.Notice)
	}
}

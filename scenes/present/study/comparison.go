package study

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Column is one plan of a comparison and what came of it. The first column of a Comparison is the untreated valve; its
// plan has no name.
type Column struct {
	Plan    Plan
	Case    casefile.Case // the patient with the plan
	Report  valve.Report
	Solved  bool  // Report holds an answer, perhaps to an older patient
	Failure error // why the newest has none
	Stale   bool  // the answer to the newest case is still to come
	key     string
}

// Comparison solves the untreated valve and each plan on one patient, one at a time, with a Runner of its own, so that
// the screen never waits for it.
type Comparison struct {
	Columns []Column
	Version uint64 // rises with every change

	runner Runner
	asked  uint64
	flying string // key of the case that is being solved; empty: none
}

// NewComparison returns an empty comparison. The runner must answer with the closed loop.
func NewComparison(r Runner) *Comparison { return &Comparison{runner: r} }

// Follow makes the columns those of a patient with these plans, takes in an answer and asks for the next. It tells
// whether something changed.
func (c *Comparison) Follow(patient casefile.Case, plans []Plan) bool {
	changed := c.arrange(patient, plans)
	for {
		r, ok := c.runner.Poll()
		if !ok {
			break
		}
		if r.N == c.asked && r.Final && c.flying != "" {
			changed = c.take(r) || changed
			c.flying = ""
		}
	}
	c.ask()
	if changed {
		c.Version++
	}
	return changed
}

// arrange keeps the answers of columns that stay.
func (c *Comparison) arrange(patient casefile.Case, plans []Plan) (changed bool) {
	want := append([]Plan{{}}, plans[:min(len(plans), MostPlans)]...)
	next := make([]Column, len(want))
	for i, p := range want {
		cs := p.On(patient)
		key := casefile.Hash(cs)
		next[i] = Column{Plan: p, Case: cs, key: key, Stale: true}
		if i < len(c.Columns) { // the old answer stays in view until the new one comes
			old := c.Columns[i]
			if old.Plan.Name == p.Name || i == 0 {
				next[i].Report, next[i].Solved = old.Report, old.Solved
			}
			changed = changed || old.key != key || old.Plan.Name != p.Name
		}
		for _, old := range c.Columns {
			if old.key == key && !old.Stale {
				next[i].Report, next[i].Solved, next[i].Failure, next[i].Stale = old.Report, old.Solved, old.Failure, false
			}
		}
	}
	changed = changed || len(next) != len(c.Columns)
	if changed {
		c.Columns = next
	}
	return changed
}

func (c *Comparison) take(r Result) (changed bool) {
	for i := range c.Columns {
		k := &c.Columns[i]
		if k.key != c.flying || !k.Stale {
			continue
		}
		k.Stale, k.Failure, changed = false, r.Err, true
		if r.Err == nil {
			k.Report, k.Solved = r.Report, true
		} else {
			k.Solved = false
		}
	}
	return changed
}

// ask submits the first case without an answer. One that cannot be is refused without asking.
func (c *Comparison) ask() {
	if c.flying != "" {
		return
	}
	for i := range c.Columns {
		k := &c.Columns[i]
		if !k.Stale {
			continue
		}
		if err := k.Case.Validate(); err != nil {
			k.Stale, k.Solved, k.Failure = false, false, err
			c.Version++
			continue
		}
		c.flying = k.key
		c.asked++
		c.runner.Submit(c.asked, k.Case)
		return
	}
}

// Busy tells whether answers are still to come.
func (c *Comparison) Busy() bool {
	for i := range c.Columns {
		if c.Columns[i].Stale {
			return true
		}
	}
	return len(c.Columns) == 0
}

// Base is the untreated valve, or nil while it is not solved.
func (c *Comparison) Base() *valve.State {
	if len(c.Columns) == 0 || !c.Columns[0].Solved {
		return nil
	}
	return &c.Columns[0].Report.After
}

// Settle goes on until nothing is to come, with a runner that answers at once.
func (c *Comparison) Settle(patient casefile.Case, plans []Plan) {
	for i := 0; i < 4*(MostPlans+1) && (i == 0 || c.Busy()); i++ {
		c.Follow(patient, plans)
	}
}

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

	sections, settled *valve.Report // by either engine; nil: still to come
	shown             *valve.Report // the one of them that Report is
}

// Comparison solves the untreated valve and each plan on one patient, one at a time, with a Runner of its own, so that
// the screen never waits for it. Chosen by SetShell, the leaflets in three dimensions take the sections' place in all
// columns at once: numbers of two engines never stand beside each other.
type Comparison struct {
	Columns []Column
	Version uint64 // rises with every change

	runner Runner
	asked  uint64
	flying string // key of the case that is being solved; empty: none
	deep   bool   // what is being solved is to be settled
	shell  bool   // chosen
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
		if r.N == c.asked && r.Final && !r.Settling && c.flying != "" {
			changed = c.take(r) || changed
			c.flying = ""
		}
	}
	changed = c.show() || changed
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
				next[i].Report, next[i].Solved, next[i].sections, next[i].shown = old.Report, old.Solved, old.sections, old.shown
			}
			changed = changed || old.key != key || old.Plan.Name != p.Name
		}
		for _, old := range c.Columns {
			if old.key == key && !old.Stale {
				next[i] = old
				next[i].Plan, next[i].Case = p, cs
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
		switch {
		case k.key != c.flying:
		case c.deep && k.settled == nil:
			k.settled = &r.Report
		case !c.deep && k.Stale:
			k.Stale, k.Failure, changed = false, r.Err, true
			k.sections, k.settled, k.Solved = &r.Report, nil, r.Err == nil
		}
	}
	return changed
}

// ask submits the first case without an answer, and when all have one the first that is not settled. One that cannot be
// is refused without asking.
func (c *Comparison) ask() {
	for i := range c.Columns {
		k := &c.Columns[i]
		if !k.Stale {
			continue
		}
		if c.flying != "" && !c.deep { // a settling gives way
			return
		}
		if err := k.Case.Validate(); err != nil {
			k.Stale, k.Solved, k.Failure = false, false, err
			c.Version++
			continue
		}
		c.submit(k, false)
		return
	}
	if i := c.unsettled(); c.flying == "" && i >= 0 {
		c.submit(&c.Columns[i], true)
	}
}

func (c *Comparison) submit(k *Column, deep bool) {
	if d, ok := c.runner.(deepener); ok {
		d.Deepen(deep)
	}
	c.flying, c.deep = k.key, deep
	c.asked++
	c.runner.Submit(c.asked, k.Case)
}

// Busy tells whether answers are still to come.
func (c *Comparison) Busy() bool {
	for i := range c.Columns {
		if c.Columns[i].Stale {
			return true
		}
	}
	return len(c.Columns) == 0 || c.Settling()
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
	for i := 0; i < mostSlices && (i == 0 || c.Busy()); i++ {
		c.Follow(patient, plans)
	}
}

package study

import "annuloscope/sim/valve"

// SetShell chooses whether the leaflets are settled in three dimensions. A runner that cannot settle leaves the sections.
func (c *Comparison) SetShell(on bool) {
	if _, ok := c.runner.(deepener); !ok || c.shell == on {
		return
	}
	c.shell = on
	c.Version++
	c.show()
}

// Shell tells whether the leaflets are settled in three dimensions.
func (c *Comparison) Shell() bool { return c.shell }

// Settling tells whether the leaflets in three dimensions are still on their way.
func (c *Comparison) Settling() bool { return c.unsettled() >= 0 }

// Refused lists the columns in which the leaflets in three dimensions did not settle; all columns then keep the sections.
func (c *Comparison) Refused() []int {
	var out []int
	for i := range c.Columns {
		if r := c.Columns[i].settled; c.shell && r != nil && r.Provenance.Engine != valve.ShellEngine {
			out = append(out, i)
		}
	}
	return out
}

// unsettled is the first column whose settled answer is missing, or -1.
func (c *Comparison) unsettled() int {
	for i := range c.Columns {
		if k := &c.Columns[i]; c.shell && k.Solved && !k.Stale && k.settled == nil {
			return i
		}
	}
	return -1
}

// show puts into every column the answer of the engine that all of them have, and tells whether that changed one.
func (c *Comparison) show() (changed bool) {
	deep := c.shell && c.unsettled() < 0 && len(c.Refused()) == 0
	for i := range c.Columns {
		deep = deep && !c.Columns[i].Stale
	}
	for i := range c.Columns {
		k := &c.Columns[i]
		to := k.sections
		if deep && k.Solved {
			to = k.settled
		}
		if k.Solved && k.shown != to {
			k.Report, k.shown, changed = *to, to, true
		}
	}
	return changed
}

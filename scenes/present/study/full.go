package study

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Full is the Engine for sweeps, comparisons and everything else that is solved beside the case on screen: the same answer
// as Solver refines to and settles, so that a curve goes through the number shown.
type Full struct {
	Coarse bool // settle on the coarser mesh

	solver  *valve.Solver
	options valve.Options
	last    valve.Report // of Solve
}

// NewFull returns a Full without history. Each answer starts from the one before.
func NewFull() *Full {
	return &Full{solver: valve.NewSolver(), options: valve.Options{Warm: true, Circulation: true}}
}

// NewExplained returns a Full that also says where the shortening of a sinus device went.
func NewExplained() *Full {
	f := NewFull()
	f.options.Attribution = true
	return f
}

// NewCold returns a Full that explains and whose answers do not depend on what was solved before, as the command line does.
func NewCold() *Full {
	f := NewExplained()
	f.options.Warm = false
	return f
}

// Solve answers with the closed-loop circulation and the leaflets as sections.
func (f *Full) Solve(c casefile.Case) (valve.Report, error) {
	var err error
	f.last, err = f.solver.Solve(c, f.options)
	return f.last, err
}

// Settle answers with the leaflets in three dimensions, for the case last solved.
func (f *Full) Settle(_ casefile.Case, goOn func() bool) (valve.Report, bool, error) {
	r, o := f.last, f.options
	o.Coarse = f.Coarse
	ok := f.solver.Settle(&r, o, goOn)
	return r, ok, nil
}

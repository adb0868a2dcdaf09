package study

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Solver is the Engine of the program: the geometry at once, started from the last answer, and then the closed-loop
// circulation.
type Solver struct{ quick, full *valve.Solver }

// NewSolver returns a Solver without history.
func NewSolver() *Solver { return &Solver{valve.NewSolver(), valve.NewSolver()} }

// Solve answers with the circulation at rest by the orifice equation.
func (s *Solver) Solve(c casefile.Case) (valve.Report, error) {
	return s.quick.Solve(c, valve.Options{Warm: true})
}

// Refine answers with the closed-loop circulation, and says where the shortening went.
func (s *Solver) Refine(c casefile.Case) (valve.Report, error) {
	return s.full.Solve(c, valve.Options{Warm: true, Circulation: true, Attribution: true})
}

package study

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Solver is the Engine of the program: the geometry at once, started from the last answer, then the closed-loop
// circulation, and then where the shortening went.
type Solver struct {
	quick, full *valve.Solver
	last        valve.Report       // of Refine or Explain
	Coarse      bool               // settle on the coarser mesh
	shown       *valve.ShellShapes // by Follow since the last Solve
}

// NewSolver returns a Solver without history.
func NewSolver() *Solver { return &Solver{quick: valve.NewSolver(), full: valve.NewSolver()} }

// Solve answers with the circulation at rest by the orifice equation.
func (s *Solver) Solve(c casefile.Case) (valve.Report, error) {
	s.shown = nil
	return s.quick.Solve(c, valve.Options{Warm: true})
}

// Follow brings the leaflets in three dimensions to the annulus of the last Solve and shows the same ones with the better
// answers to that case.
func (s *Solver) Follow(r *valve.Report) {
	s.shown = s.full.Follow(s.quick)
	r.Scene.After.Shell = s.shown
}

// pictured is the last answer of Refine or Explain with the leaflets that Follow has shown.
func (s *Solver) pictured() valve.Report {
	r := s.last
	r.Scene.After.Shell = s.shown
	return r
}

// Refine answers with the closed-loop circulation.
func (s *Solver) Refine(c casefile.Case) (valve.Report, error) {
	var err error
	s.last, err = s.full.Solve(c, refined())
	return s.pictured(), err
}

// Explain adds where the shortening went to the last answer of Refine.
func (s *Solver) Explain(c casefile.Case, goOn func() bool) (valve.Report, bool, error) {
	ok, err := s.full.Explain(c, &s.last, goOn)
	return s.pictured(), ok, err
}

func refined() valve.Options { return valve.Options{Warm: true, Circulation: true} }

// Settle answers with the leaflets in three dimensions, for the case last refined.
func (s *Solver) Settle(_ casefile.Case, goOn func() bool) (valve.Report, bool, error) {
	r, o := s.last, refined()
	o.Coarse = s.Coarse
	ok := s.full.Settle(&r, o, goOn)
	return r, ok, nil
}

package command

import "annuloscope/scenes/present/study"

// runner solves in the page's one thread: the geometry with the change, the circulation when nothing else is asked.
func runner() study.Runner {
	s := study.NewSolver()
	s.Coarse = true
	return study.NewSync(s)
}

// sweeper solves one row of a chart at a time between pictures.
func sweeper() study.Runner { return nil }

// beside makes a further runner for a scene that solves cases of its own.
func beside() study.Runner { return study.NewSync(study.NewExplained()) }

package command

import (
	"annuloscope/scenes/present/cohortview"
	"annuloscope/scenes/present/study"
)

// runner solves beside the screen.
func runner() study.Runner { return study.NewAsync(study.NewSolver()) }

// sweeper solves the charts' rows beside the screen, with the closed-loop circulation.
func sweeper() study.Runner { return study.NewAsync(study.NewFull()) }

// beside makes a further runner for a scene that solves cases of its own.
func beside() study.Runner { return study.NewAsync(study.NewExplained()) }

// manyPatients solves the virtual patients of the cohort scene beside the screen.
func manyPatients() study.Runner { return study.NewAsync(cohortview.NewCold()) }

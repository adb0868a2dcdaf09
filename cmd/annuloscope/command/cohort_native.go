//go:build !js

package command

import (
	"annuloscope/scenes/present/cohortview"
	"annuloscope/scenes/present/study"
)

// manyPatients solves the virtual patients of the cohort scene beside the screen.
func manyPatients() study.Runner { return study.NewAsync(cohortview.NewCold()) }

//go:build !js

package command

import "annuloscope/scenes/present/study"

// runner solves beside the screen.
func runner() study.Runner { return study.NewAsync(study.NewSolver()) }

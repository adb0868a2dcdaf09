package pace

import (
	"time"

	"annuloscope/scenes/present"
)

// Times are the times from input to pictures: to the first one, and to the first at each stage of the answer, where the
// screen tells of stages (present.Staged).
type Times struct{ First, Geometry, Numbers, Causes, Settled Histogram }

// Summaries sum up Times.
type Summaries struct {
	First    Summary `json:"first"`
	Geometry Summary `json:"geometry"`
	Numbers  Summary `json:"numbers"`
	Causes   Summary `json:"causes"`
	Settled  Summary `json:"settled"`
}

// Summary sums up.
func (t *Times) Summary() Summaries {
	return Summaries{t.First.Summary(), t.Geometry.Summary(), t.Numbers.Summary(), t.Causes.Summary(), t.Settled.Summary()}
}

// Answer is what pictures have shown of the answer to one input; the zero value is of one that no picture has answered.
type Answer struct {
	painted bool
	stage   present.Stage
}

// Picture notes a picture of the screen, d after the input.
func (a *Answer) Picture(t *Times, s present.Screen, d time.Duration) {
	if !a.painted {
		a.painted = true
		t.First.Add(d)
	}
	staged, ok := s.(present.Staged)
	if !ok {
		return
	}
	of := [...]*Histogram{&t.Geometry, &t.Numbers, &t.Causes, &t.Settled}
	for now := staged.Stage(); a.stage < now; a.stage++ {
		of[a.stage].Add(d)
	}
}

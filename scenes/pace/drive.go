package pace

import (
	"time"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/raster"
)

// Drive runs a screen without a window: at each step it hands over the step's events, ticks and paints, and measures
// the time from the events to the finished picture (everything but the upload to the graphics card). Where the screen
// is present.Pending, settled measures the time until its answer is in the picture, waiting at most patience. It ends
// when step returns nil. Steps that change nothing are not counted.
func Drive(s present.Screen, w, h, scale float64, patience time.Duration, step func(i int) []input.Event) (first, settled Histogram) {
	painter := raster.New(2)
	painter.Partial = true
	defer painter.Close()
	var l draw.List
	start := time.Now()
	s.Handle(input.Event{Kind: input.Resize, X: w, Y: h})
	for i := 0; ; i++ {
		events := step(i)
		if events == nil {
			return first, settled
		}
		at := time.Now()
		for _, e := range events {
			s.Handle(e)
		}
		painted := false
		for {
			if s.Tick(time.Since(start).Seconds()) {
				s.Paint(&l, w, h)
				painter.Paint(&l, scale)
				if !painted {
					first.Add(time.Since(at))
				}
				painted = true
			}
			p, ok := s.(present.Pending)
			if !ok || !p.Pending() || time.Since(at) > patience {
				break
			}
			time.Sleep(200 * time.Microsecond)
		}
		if painted {
			settled.Add(time.Since(at))
		}
	}
}

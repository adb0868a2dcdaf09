package pace

import (
	"time"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/raster"
)

// Drive runs a screen without a window: at each step it hands over the step's events, ticks and paints, and measures
// the time from the events to the finished pictures (everything but the upload to the graphics card), waiting at most
// patience for the whole answer. It ends when step returns nil. Steps that change nothing are not counted.
func Drive(s present.Screen, w, h, scale float64, patience time.Duration, step func(i int) []input.Event) (t Times) {
	painter := raster.New(2)
	painter.Partial = true
	defer painter.Close()
	var l draw.List
	start := time.Now()
	s.Handle(input.Event{Kind: input.Resize, X: w, Y: h})
	for i := 0; ; i++ {
		events := step(i)
		if events == nil {
			return t
		}
		at := time.Now()
		for _, e := range events {
			s.Handle(e)
		}
		var a Answer
		for {
			if s.Tick(time.Since(start).Seconds()) {
				s.Paint(&l, w, h)
				painter.Paint(&l, scale)
				a.Picture(&t, s, time.Since(at))
			}
			p, ok := s.(present.Pending)
			if !ok || !p.Pending() || time.Since(at) > patience {
				break
			}
			time.Sleep(200 * time.Microsecond)
		}
	}
}

package pace

import (
	"time"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/raster"
)

// Times are the times from input to three pictures: the first one; the first whose numbers are final, where the screen
// tells that its causes may come later (present.Explaining); and the last.
type Times struct{ First, Numbers, Settled Histogram }

// Final tells whether the numbers of a screen that may be present.Pending and present.Explaining are final.
func Final(s present.Screen) bool {
	if e, ok := s.(present.Explaining); ok && e.Explaining() {
		return true
	}
	p, ok := s.(present.Pending)
	return !ok || !p.Pending()
}

// Drive runs a screen without a window: at each step it hands over the step's events, ticks and paints, and measures
// the time from the events to the finished pictures (everything but the upload to the graphics card), waiting at most
// patience for the last. It ends when step returns nil. Steps that change nothing are not counted.
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
		painted, final := false, false
		for {
			if s.Tick(time.Since(start).Seconds()) {
				s.Paint(&l, w, h)
				painter.Paint(&l, scale)
				if !painted {
					t.First.Add(time.Since(at))
				}
				painted = true
				if !final && Final(s) {
					final = true
					t.Numbers.Add(time.Since(at))
				}
			}
			p, ok := s.(present.Pending)
			if !ok || !p.Pending() || time.Since(at) > patience {
				break
			}
			time.Sleep(200 * time.Microsecond)
		}
		if painted {
			t.Settled.Add(time.Since(at))
		}
	}
}

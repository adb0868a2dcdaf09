package desk

import (
	"math"

	"annuloscope/scenes/present/relief"
	"annuloscope/sim/valve"
)

const (
	openRamp  = 0.05 // s from the opening of the valve until the leaflets may be wide; chosen
	leastOpen = 0.3  // opening between the two waves of filling; chosen
)

// Opening is how far the leaflets are open at a phase: from the waves of the circulation where they are at hand, with
// the valve's own times and the root of the inflow, else the chosen course.
func (d *Desk) Opening(phase float64) float64 { return OpeningOf(d.Beat(), phase) }

// OpeningOf is the same for the waves of another valve; nil where there are none.
func OpeningOf(b *valve.Beats, phase float64) float64 {
	if b = usable(b); b == nil {
		return relief.Opening(phase)
	}
	w := &b.Waves
	n := len(w.Time)
	period := w.Time[n-1]
	t := phase * period
	since := t - b.Phases.MitralOpen
	if b.Phases.MitralOpen < b.Phases.MitralClose {
		if t < b.Phases.MitralOpen || t > b.Phases.MitralClose {
			return 0
		}
	} else if t > b.Phases.MitralClose && t < b.Phases.MitralOpen {
		return 0
	} else if since < 0 {
		since += period
	}
	peak := 0.0
	for _, f := range w.MitralForward {
		peak = math.Max(peak, f)
	}
	if peak <= 0 {
		return 0
	}
	open := math.Max(leastOpen, math.Sqrt(Wave(w.Time, w.MitralForward, t)/peak))
	left := b.Phases.MitralClose - t
	if left < 0 {
		left += period
	}
	return open * math.Min(since/openRamp, 1) * math.Min(left/openRamp, 1)
}

// Beat returns the waves after treatment, or nil. While the circulation is being computed those of the last answer stay.
func (d *Desk) Beat() *valve.Beats { return usable(d.beatAfter) }

// BeatBefore returns the waves before treatment, or nil.
func (d *Desk) BeatBefore() *valve.Beats { return usable(d.beatBefore) }

func usable(b *valve.Beats) *valve.Beats {
	if b == nil || len(b.Waves.Time) < 2 || b.Waves.Time[len(b.Waves.Time)-1] <= 0 {
		return nil
	}
	return b
}

func (d *Desk) keepBeats() {
	s := &d.S.Report.Scene
	if s.After.Beat != nil {
		d.beatAfter = s.After.Beat
	}
	if s.Before.Beat != nil {
		d.beatBefore = s.Before.Beat
	}
}

// Wave reads a wave at a time within its samples.
func Wave(time, value []float64, t float64) float64 {
	n := min(len(time), len(value))
	if n == 0 {
		return math.NaN()
	}
	lo, hi := 0, n-1
	for hi-lo > 1 {
		if m := (lo + hi) / 2; time[m] <= t {
			lo = m
		} else {
			hi = m
		}
	}
	if d := time[hi] - time[lo]; d > 0 {
		f := math.Min(math.Max((t-time[lo])/d, 0), 1)
		return value[lo]*(1-f) + value[hi]*f
	}
	return value[lo]
}

// Package present is what the screens show and say, as plain data: labels, words and display lists, no window.
package present

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
)

// Screen is anything a shell (window, page or test) can run. A shell calls Handle for each event, Tick once a frame,
// and Paint only when Tick says that something changed.
type Screen interface {
	// Handle takes one event.
	Handle(e input.Event)
	// Tick moves time on to now (seconds since the start) and tells whether the picture must be painted again.
	Tick(now float64) bool
	// Paint writes the picture of w by h logical pixels into l, which it resets.
	Paint(l *draw.List, w, h float64)
}

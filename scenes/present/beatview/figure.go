package beatview

import "annuloscope/scenes/present/draw"

// Waves draws pressures, flows and the loop into r, for a figure.
func (v *View) Waves(r draw.Rect) {
	v.d.Sync()
	v.charts(r)
}

package beatview

import "annuloscope/scenes/present/draw"

// Waves draws pressures and flows, and below them the loop, into r, for a figure.
func (v *View) Waves(r draw.Rect) {
	v.d.Sync()
	top, low := r, r
	top.H = r.H * 0.66
	low.Y, low.H = r.Y+top.H, r.H-top.H
	v.waves(top)
	v.loop(low)
}

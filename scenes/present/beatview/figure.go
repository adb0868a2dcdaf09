package beatview

import "annuloscope/scenes/present/draw"

// Waves draws pressures and flows, and beside them the loop with its numbers, into r, for a figure.
func (v *View) Waves(r draw.Rect) {
	v.d.Sync()
	left, right := r, r
	left.W = r.W * 0.6
	right.X, right.W = r.X+left.W+v.d.U.S(16), r.W-left.W-v.d.U.S(16)
	v.waves(left)
	v.loop(right)
}

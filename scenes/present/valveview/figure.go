package valveview

import "annuloscope/scenes/present/draw"

// Cut draws the section at the station into r, without its slider, for a figure.
func (v *View) Cut(r draw.Rect) {
	v.d.Sync()
	v.section(r, v.d.V.Station)
}

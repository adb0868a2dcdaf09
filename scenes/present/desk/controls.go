package desk

import (
	"math"

	"annuloscope/scenes/present/theme"
)

// Band draws the switch of the sinus band and the sliders of the keys given; it returns the y below.
func (d *Desk) Band(x, y, width float64, keys ...string) float64 {
	u := d.U
	y += u.Switch("place/sinus-band", x, y, width, d.W().T("heading.band"), d.S.Placed("sinus-band"), true) + u.S(2)
	for _, key := range keys {
		y += d.Knob(x, y, width, "repair/sinus-band/"+key)
	}
	return y
}

// Clip draws the switch of the edge clip and its sliders; it returns the y below.
func (d *Desk) Clip(x, y, width float64) float64 {
	u := d.U
	y += u.Switch("place/edge-clip", x, y, width, d.W().T("heading.clip"), d.S.Placed("edge-clip"), true) + u.S(2)
	for _, key := range []string{"position", "width_mm"} {
		y += d.Knob(x, y, width, "repair/edge-clip/"+key)
	}
	return y
}

// Anatomy draws a heading and the sliders of the knobs given; it returns the y below.
func (d *Desk) Anatomy(x, y, width float64, ids ...string) float64 {
	u := d.U
	y += u.Para(x, y, width, d.W().T("heading.anatomy"), theme.Body, true, u.T.Ink) + u.S(4)
	for _, id := range ids {
		y += d.Knob(x, y, width, id)
	}
	return y
}

// Gap separates two groups of controls.
func (d *Desk) Gap(x, y, width float64) float64 {
	d.U.Rule(x, math.Round(y+d.U.S(2)), width)
	return y + d.U.S(8)
}

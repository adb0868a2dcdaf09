package strip

import (
	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/draw"
)

// Figure draws the unrolled sinus into r, without handles.
func (v *View) Figure(r draw.Rect) {
	v.refresh()
	v.bare = true
	v.strip(r)
}

// Charts draws what more shortening would do into r; Work must have gone through first.
func (v *View) Charts(r draw.Rect) {
	v.refresh()
	knob, _ := v.d.S.Knob("repair/sinus-band/shortening_mm")
	v.grid(r, v.d.W().T("strip.charts"), swept, v.curves.shortening,
		chart.Axis{Name: v.d.W().T("strip.shortening"), Min: 0, Max: 40, Ticks: 4}, knob.Value, true)
}

// Work solves one more value of the charts and tells whether one is left.
func (v *View) Work() (more bool) {
	v.curves.shortening.SetShell(v.d.S.Shell())
	v.curves.shortening.Follow(v.d.S.Case)
	return v.curves.shortening.Busy()
}

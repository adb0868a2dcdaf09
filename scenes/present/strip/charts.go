package strip

import (
	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// swept are the quantities shown against shortening.
var swept = [4]string{"annulus.septal_lateral_mm", "coaptation.contact_mm.mean", "regurgitation.effective_orifice_cm2", "artery.worst_view_narrowing_pct"}

// charts draws four small charts against shortening, with a mark at the shortening in force.
func (v *View) charts(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	title := w.T("strip.charts")
	th := u.Para(r.X, r.Y, r.W, title, theme.Body, true, u.T.Ink)
	if v.sweep.Busy() {
		th += u.Para(r.X, r.Y+th, r.W, w.T("state.updating"), theme.Small, false, u.T.Soft)
	}
	gap := u.S(14)
	columns, rows := 2, 2
	if r.W < u.S(320) {
		columns, rows = 1, 4
	}
	cw, ch := (r.W-gap*float64(columns-1))/float64(columns), (r.H-th-u.S(4)-gap*float64(rows-1))/float64(rows)
	knob, _ := v.d.S.Knob("repair/sinus-band/shortening_mm")
	for i, path := range swept {
		q, _ := valve.FindQuantity(path)
		cell := draw.Rect{X: r.X + float64(i%columns)*(cw+gap), Y: r.Y + th + u.S(4) + float64(i/columns)*(ch+gap), W: cw, H: ch}
		x, y := v.sweep.Curve(path)
		ax := chart.Axis{Min: 0, Max: 40, Ticks: 4}
		ay := chart.Axis{Ticks: 3, Zero: i > 0}
		ay.Span(y)
		if i/columns == rows-1 {
			ax.Name = w.T("strip.shortening")
		}
		name := tell.Label(w, q)
		if unit := w.Unit(q.Unit); unit != "" {
			name += " (" + unit + ")"
		}
		u.Info("quantity/"+path, cell, tell.Label(w, q), "")
		c := chart.Begin(u, cell, name, ax, ay)
		color := [4]draw.Color{u.T.Annulus, u.T.Contact, u.T.Gap, u.T.Artery}[i]
		c.Lines(chart.Series{X: x, Y: y, Color: color})
		if v.d.S.Solved {
			c.Cursor(knob.Value)
			c.Dot(knob.Value, q.Of(&v.d.S.Report.After), color)
		}
	}
}

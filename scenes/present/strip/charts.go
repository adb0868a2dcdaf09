package strip

import (
	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// The questions the chart card answers.
const (
	askShortening = iota // what more shortening would do
	askLosses            // where the shortening went
	askAnchor            // what another place of the far anchor would do
	askWeeks             // what the weeks after placement bring
	asks
)

// swept are the quantities shown against shortening.
var swept = []string{"annulus.septal_lateral_mm", "coaptation.contact_mm.mean", "regurgitation.effective_orifice_cm2", "artery.worst_view_narrowing_pct"}

// traded are the quantities weighed against each other when the far anchor moves, and over the weeks.
var traded = []string{"annulus.septal_lateral_mm", "regurgitation.effective_orifice_cm2", "artery.worst_view_narrowing_pct", "sinus.tension_n"}

// curves are the sweeps behind the charts, each with a runner of its own: charts show states and need no explanation.
type curves struct {
	shortening, anchor, weeks *study.Sweep
}

// Ranges of the charts. Chosen.
const (
	sweepSteps = 14
	sweepMost  = 39.0  // mm of shortening
	anchorLow  = 40.0  // mm, station of the far anchor
	anchorHigh = 118.0 // mm
	weekDays   = 180.0 // days after placement
)

func newCurves(runner func() study.Runner) curves {
	return curves{
		shortening: study.NewSweep(runner(), repair.SinusBand, "shortening_mm", 0, sweepMost, sweepSteps),
		anchor:     study.NewSweepOf(runner(), repair.SinusBand, sameShare, anchorLow, anchorHigh, sweepSteps),
		weeks:      study.NewSweep(runner(), repair.SinusBand, "day", 0, weekDays, sweepSteps),
	}
}

// sameShare moves the far anchor and keeps the shortening's share of the stretch between the anchors: at the same
// millimetres a short stretch would be pulled harder.
func sameShare(st repair.Step, distal float64) repair.Step {
	near, far := st.Value("proximal_mm"), st.Value("distal_mm")
	return st.With("distal_mm", distal).With("shortening_mm", st.Value("shortening_mm")*(distal-near)/(far-near))
}

// of returns the sweep behind a question; nil where there is none.
func (c *curves) of(ask int) *study.Sweep {
	return [asks]*study.Sweep{askShortening: c.shortening, askAnchor: c.anchor, askWeeks: c.weeks}[ask]
}

// charts draws the choice of a question and its answer.
func (v *View) charts(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	names := make([]string, asks)
	for i, key := range [asks]string{"shortening", "losses", "anchor", "weeks"} {
		names[i] = w.T("strip.ask." + key)
	}
	y := r.Y + u.Options("strip/ask", r.X, r.Y, r.W, w.T("strip.ask"), names, v.ask) + u.S(8)
	in := draw.Rect{X: r.X, Y: y, W: r.W, H: r.Y + r.H - y}
	switch v.ask {
	case askShortening:
		knob, _ := v.d.S.Knob("repair/sinus-band/shortening_mm")
		v.grid(in, w.T("strip.charts"), swept, v.curves.shortening, chart.Axis{Name: w.T("strip.shortening"), Min: 0, Max: 40, Ticks: 4}, knob.Value, true)
	case askLosses:
		v.losses(in)
	case askAnchor:
		knob, _ := v.d.S.Knob("repair/sinus-band/distal_mm")
		v.grid(in, w.T("strip.anchor"), traded, v.curves.anchor, chart.Axis{Name: w.T("strip.anchor.axis"), Min: anchorLow, Max: 120, Ticks: 4}, knob.Value, true)
	case askWeeks:
		day, _ := v.d.S.Knob("repair/sinus-band/day")
		half, _ := v.d.S.Knob("repair/sinus-band/delay_days")
		title := w.F("strip.weeks", "days", w.With(half.Value, 0, "d"))
		if half.Value == 0 {
			title = w.T("strip.weeks.none")
		}
		v.grid(in, title, traded, v.curves.weeks, chart.Axis{Name: w.T("strip.weeks.axis"), Min: 0, Max: weekDays, Ticks: 4}, day.Value, day.Value <= weekDays)
	}
}

// grid draws four small charts of quantities against one number, with a mark at its value in force.
func (v *View) grid(r draw.Rect, title string, paths []string, s *study.Sweep, ax chart.Axis, at float64, mark bool) {
	u, w := v.d.U, v.d.W()
	name := ax.Name
	if r.H < u.S(260) { // too little room for the axis' name under each chart
		title, name = title+" · "+name, ""
	}
	if s.Busy() {
		title += " · " + w.T("state.updating")
	}
	th := u.Para(r.X, r.Y, r.W, title, theme.Body, true, u.T.Ink)
	gap := u.S(10)
	columns, rows := 2, 2
	if r.W < u.S(320) {
		columns, rows = 1, 4
	}
	cw, ch := (r.W-gap*float64(columns-1))/float64(columns), (r.H-th-u.S(4)-gap*float64(rows-1))/float64(rows)
	for i, path := range paths {
		q, _ := valve.FindQuantity(path)
		cell := draw.Rect{X: r.X + float64(i%columns)*(cw+gap), Y: r.Y + th + u.S(4) + float64(i/columns)*(ch+gap), W: cw, H: ch}
		x, y := s.Curve(path)
		ay := chart.Axis{Ticks: 3, Zero: i > 0}
		ay.Span(y)
		ax.Name = ""
		if i/columns == rows-1 {
			ax.Name = name
		}
		label := tell.Label(w, q)
		if unit := w.Unit(q.Unit); unit != "" {
			label += " (" + unit + ")"
		}
		u.Info("quantity/"+path, cell, tell.Label(w, q), "")
		c := chart.Begin(u, cell, label, ax, ay)
		color := v.color(path)
		c.Lines(chart.Series{X: x, Y: y, Color: color})
		if v.d.S.Solved && mark {
			c.Cursor(at)
			c.Dot(at, q.Of(&v.d.S.Report.After), color)
		}
	}
}

// color is that of the part a quantity belongs to.
func (v *View) color(path string) draw.Color {
	t := v.d.U.T
	switch path {
	case "annulus.septal_lateral_mm":
		return t.Annulus
	case "coaptation.contact_mm.mean":
		return t.Contact
	case "regurgitation.effective_orifice_cm2":
		return t.Gap
	case "artery.worst_view_narrowing_pct":
		return t.Artery
	}
	return t.Device
}

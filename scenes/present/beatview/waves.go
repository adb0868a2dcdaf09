package beatview

import (
	"math"

	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// treated tells whether there is a state before to compare with.
func (v *View) treated() bool { return v.d.BeatBefore() != nil && len(v.d.S.Case.Repairs) > 0 }

// waves are pressures, flows and the leaking orifice over one beat, with a line at the moment shown.
func (v *View) waves(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	b := v.d.Beat()
	if b == nil {
		u.Centred(r, w.T("beat.wait"), theme.Body, false, u.T.Soft)
		return
	}
	waves := &b.Waves
	period := waves.Time[len(waves.Time)-1]
	now := v.d.V.Phase * period
	gap := u.S(10)
	line := v.orificeLine()
	foot := u.Height(line, theme.Small, false, r.W)
	h := (r.H - 2*gap - foot - u.S(4)) / 3
	free := chart.Axis{Min: 0, Max: period, Ticks: 4}
	time := free
	time.Name = w.T("beat.time")
	rooms := []string{w.T("beat.lv"), w.T("beat.la"), w.T("beat.aorta"), w.T("beat.inflow"), w.T("beat.leak"), w.T("beat.out"), w.T("table.before"), w.T("table.after")} // one room, so that the times stand under each other

	y := chart.Axis{Ticks: 3}
	y.Span(waves.LV, waves.LA, waves.Aorta)
	c := chart.Begin(u, draw.Rect{X: r.X, Y: r.Y, W: r.W, H: h}, w.T("beat.pressure"), free, y, rooms...)
	c.Lines(chart.Series{Name: w.T("beat.lv"), X: waves.Time, Y: waves.LV, Color: u.T.Ink}, chart.Series{Name: w.T("beat.la"), X: waves.Time, Y: waves.LA, Color: u.T.Contact},
		chart.Series{Name: w.T("beat.aorta"), X: waves.Time, Y: waves.Aorta, Color: u.T.Worse, Dash: true})
	c.Cursor(now)

	y = chart.Axis{Ticks: 3}
	y.Span(waves.MitralForward, waves.LeakFlow, waves.AorticFlow)
	c = chart.Begin(u, draw.Rect{X: r.X, Y: r.Y + h + gap, W: r.W, H: h}, w.T("beat.flow"), free, y, rooms...)
	c.Lines(chart.Series{Name: w.T("beat.inflow"), X: waves.Time, Y: waves.MitralForward, Color: u.T.Contact}, chart.Series{Name: w.T("beat.leak"), X: waves.Time, Y: waves.LeakFlow, Color: u.T.Gap},
		chart.Series{Name: w.T("beat.out"), X: waves.Time, Y: waves.AorticFlow, Color: u.T.Ink, Dash: true})
	c.Cursor(now)

	v.orifice(draw.Rect{X: r.X, Y: r.Y + 2*(h+gap), W: r.W, H: h}, time, now, rooms)
	u.Para(r.X, r.Y+r.H-foot, r.W, line, theme.Small, false, u.T.Soft)
}

// orificeLine tells the leaking orifice in mid-systole, on the average and at its peak.
func (v *View) orificeLine() string {
	w, g := v.d.W(), &v.d.S.Report.After.Regurgitation
	return w.F("beat.orifice.line", "mid", w.Num(float64(g.EffectiveOrificeCM2), 2), "mean", w.Num(float64(g.EffectiveOrificeMeanCM2), 2),
		"peak", w.With(float64(g.EffectiveOrificePeakCM2), 2, "cm²"))
}

// orifice is the course of the leaking orifice; the dot is the mid-systolic one, which is graded.
func (v *View) orifice(r draw.Rect, time chart.Axis, now float64, rooms []string) {
	u, w := v.d.U, v.d.W()
	b, before := v.d.Beat(), v.d.BeatBefore()
	after := leakArea(b)
	y := chart.Axis{Ticks: 3, Zero: true}
	if v.treated() {
		y.Span(after, leakArea(before), []float64{0, 0.05})
	} else {
		y.Span(after, []float64{0, 0.05})
	}
	c := chart.Begin(u, r, w.T("beat.orifice"), time, y, rooms...)
	if v.treated() {
		c.Lines(chart.Series{Name: w.T("table.before"), X: before.Waves.Time, Y: leakArea(before), Color: u.T.Ghost, Dash: true},
			chart.Series{Name: w.T("table.after"), X: b.Waves.Time, Y: after, Color: u.T.Gap})
	} else {
		c.Lines(chart.Series{X: b.Waves.Time, Y: after, Color: u.T.Gap})
	}
	c.Dot(b.Phases.MidSystole, after[b.Phases.MidSystoleIndex], u.T.Gap)
	c.Cursor(now)
}

// leakArea is the orifice while the valve is closed under pressure, NaN in the rest of the beat.
func leakArea(b *valve.Beats) []float64 {
	t := b.Waves.Time
	out := make([]float64, len(t))
	from, to := b.Phases.LeakFrom, b.Phases.LeakTo
	for i, x := range t {
		inside := x >= from && x <= to
		if from > to {
			inside = x >= from || x <= to
		}
		out[i] = math.NaN()
		if inside {
			out[i] = b.Waves.LeakArea[i]
		}
	}
	return out
}

// loopNumbers are those told below the loops.
var loopNumbers = []string{"beat.edv_ml", "beat.esv_ml", "beat.forward_sv_ml", "regurgitation.volume_ml", "beat.la_mean_mmhg", "opening.mean_gradient_mmhg"}

// loop is pressure against volume of the ventricle, before and after, with the numbers it holds.
func (v *View) loop(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	b := v.d.Beat()
	if b == nil {
		u.Centred(r, w.T("beat.wait"), theme.Body, false, u.T.Soft)
		return
	}
	rows := v.numbersHeight(r.W, loopNumbers)
	waves := &b.Waves
	before := v.d.BeatBefore()
	x, y := chart.Axis{Ticks: 4, Name: w.T("beat.volume")}, chart.Axis{Ticks: 4}
	all, ally := [][]float64{waves.LVVolume}, [][]float64{waves.LV}
	if v.treated() {
		all, ally = append(all, before.Waves.LVVolume), append(ally, before.Waves.LV)
	}
	x.Span(all...)
	y.Span(ally...)
	c := chart.Begin(u, draw.Rect{X: r.X, Y: r.Y, W: r.W, H: math.Max(r.H-rows-u.S(12), u.S(120))}, w.T("beat.loop"), x, y, w.T("table.before"), w.T("table.after"))
	if v.treated() {
		c.Lines(chart.Series{Name: w.T("table.before"), X: before.Waves.LVVolume, Y: before.Waves.LV, Color: u.T.Ghost, Dash: true},
			chart.Series{Name: w.T("table.after"), X: waves.LVVolume, Y: waves.LV, Color: u.T.Ink})
	} else {
		c.Lines(chart.Series{X: waves.LVVolume, Y: waves.LV, Color: u.T.Ink})
	}
	now := v.d.V.Phase * waves.Time[len(waves.Time)-1]
	c.Dot(desk.Wave(waves.Time, waves.LVVolume, now), desk.Wave(waves.Time, waves.LV, now), u.T.Accent)
	v.numbers(r.X, r.Y+r.H-rows, r.W, loopNumbers)
}

// numbers lists quantities before and after, one a line, and returns the y below.
func (v *View) numbers(x, y, width float64, paths []string) float64 {
	for _, path := range paths {
		y = v.number(x, y, width, path, false)
	}
	return y
}

func (v *View) numbersHeight(width float64, paths []string) float64 {
	h := 0.0
	for _, path := range paths {
		h += v.number(0, 0, width, path, true)
	}
	return h
}

// number is one line, or with measure its height alone.
func (v *View) number(x, y, width float64, path string, measure bool) float64 {
	u, w := v.d.U, v.d.W()
	q, ok := valve.FindQuantity(path)
	if !ok {
		panic("beatview: no quantity " + path)
	}
	r := &v.d.S.Report
	a, b := q.Of(&r.Before), q.Of(&r.After)
	name, value := tell.Label(w, q), w.With(b, q.Decimals, q.Unit)
	if len(v.d.S.Case.Repairs) > 0 {
		value = w.Num(a, q.Decimals) + " → " + value
	}
	room := u.Wide(value, theme.Body, true) + u.S(10)
	h := u.Height(name, theme.Body, false, width-room) + u.S(6)
	if measure {
		return h
	}
	u.Info("quantity/"+path, draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(8), H: h}, name, value)
	u.Para(x, y+u.S(3), width-room, name, theme.Body, false, u.T.Ink)
	ink := u.T.Ink
	if v.d.S.Stale() {
		ink = u.T.Soft
	}
	u.Text(draw.Rect{X: x + width - room, Y: y + u.S(3), W: room, H: u.LineHeight(theme.Body)}, value, theme.Body, true, draw.End, ink)
	u.Rule(x, y+h, width)
	return y + h
}

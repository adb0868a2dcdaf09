package cohortview

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// Layout limits in logical pixels at 100 %.
const (
	wideFrom    = 940.0
	tallFrom    = 480.0
	leastChart  = 180.0 // height of the scatter where it scrolls
	mostChart   = 300.0
	leastHisto  = 150.0
	narrowHisto = 430.0 // width below which the histograms lie under each other
)

// Build lays the scene out in r: choices on the left, the charts in the middle, numbers on the right.
func (v *View) Build(r draw.Rect) {
	v.d.Small = true
	v.count()
	u := v.d.U
	if r.W < wideFrom*u.Scale || r.H < tallFrom*u.Scale {
		v.tabs(r)
		return
	}
	gap, side := u.S(theme.Grid), u.S(252)
	if r.W > u.S(1240) {
		side = u.S(316)
	}
	v.d.Panel("cohort choices", draw.Rect{X: r.X, Y: r.Y, W: side, H: r.H}, 12, v.choices)
	mid := draw.Rect{X: r.X + side + gap, Y: r.Y, W: r.W - 2*side - 2*gap, H: r.H}
	u.Card(mid)
	v.charts(mid.Inset(u.S(12)))
	v.d.Panel("cohort numbers", draw.Rect{X: mid.X + mid.W + gap, Y: r.Y, W: side, H: r.H}, 12, v.numbers)
}

// tabs shows one third at a time.
func (v *View) tabs(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	v.d.Tabs("cohort", w.T("cohort.parts"), r, []string{w.T("tab.chart"), w.T("cohort.numbers"), w.T("cohort.choices")}, v.tab, func(x, y, width, room float64) float64 {
		switch v.tab {
		case 1:
			return v.numbers(x, y, width)
		case 2:
			return v.choices(x, y, width)
		}
		h := max(min(room, u.S(mostChart)), u.S(leastChart)) + u.S(leastHisto) + u.S(12)
		if width <= u.S(narrowHisto) {
			h += u.S(leastHisto) + u.S(12)
		}
		h = max(h, room)
		v.charts(draw.Rect{X: x, Y: y, W: width, H: h})
		return v.patient(x, y+h+u.S(8), width)
	})
}

// choices draws who, how many, and the axes; it returns the y below.
func (v *View) choices(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	head := func(key string) {
		y += u.Para(x, y, width, w.T(key), theme.Body, true, u.T.Ink) + u.S(3)
	}
	var names []string
	for _, g := range groups {
		names = append(names, w.T("cohort.group."+g))
	}
	head("cohort.group")
	y += u.Options("cohort/group", x, y, width, w.T("cohort.group"), names, v.group) + u.S(8)
	head("cohort.size")
	names = nil
	for _, n := range sizes {
		names = append(names, w.Num(float64(n), 0))
	}
	y += u.Options("cohort/size", x, y, width, w.T("cohort.size"), names, v.size) + u.S(6)
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	u.Button("cohort/other", f.Next(w.T("cohort.other")), w.T("cohort.other"), "", widget.Quiet, false)
	y += f.Height() + u.S(10)
	names = nil
	for _, k := range measures {
		names = append(names, w.T("cohort.m."+k.name))
	}
	for k, id := range []string{"cohort.across", "cohort.up"} {
		head(id)
		y += u.Options([]string{"cohort/x", "cohort/y"}[k], x, y, width, w.T(id), names, v.axis[k]) + u.S(8)
	}
	return y
}

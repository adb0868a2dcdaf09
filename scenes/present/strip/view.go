package strip

import (
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// View is the scene. Use New.
type View struct {
	d      *desk.Desk
	curves curves
	tab    int
	ask    int
	data   strip
	seen   uint64
	bare   bool // a figure: no handles
}

// New returns the scene; runner makes the runners of its charts.
func New(d *desk.Desk, runner func() study.Runner) *View {
	return &View{d: d, curves: newCurves(runner), seen: ^uint64(0)}
}

// Tick goes on with the chart and tells whether it changed. While the report itself is being computed it waits.
func (v *View) Tick() bool {
	if v.d.S.Updating() {
		return false
	}
	s := v.curves.of(v.ask)
	if s == nil {
		return false
	}
	s.SetShell(v.d.S.Shell())
	return s.Follow(v.d.S.Case)
}

// Layout limits in logical pixels at 100 %.
const (
	wideFrom = 940.0
	tallFrom = 520.0
)

// refresh takes the newest report in.
func (v *View) refresh() {
	v.d.Sync()
	if v.seen != v.d.S.Version && v.d.S.Solved {
		v.seen, v.data = v.d.S.Version, newStrip(&v.d.S.Report.Scene.After, v.d.S)
	}
}

// Build lays the scene out in r.
func (v *View) Build(r draw.Rect) {
	v.refresh()
	u := v.d.U
	gap := u.S(theme.Grid)
	v.d.Small = true // the small picture has no buttons of its own here
	if r.W < wideFrom*u.Scale || r.H < tallFrom*u.Scale {
		v.narrow(r)
		return
	}
	left := u.S(272)
	if r.W > u.S(1240) {
		left = u.S(304)
	}
	v.d.Panel("strip controls", draw.Rect{X: r.X, Y: r.Y, W: left, H: r.H}, 12, v.controls)
	right := draw.Rect{X: r.X + left + gap, Y: r.Y, W: r.W - left - gap, H: r.H}
	top := right
	top.H = (r.H - gap) * 0.52
	u.Card(top)
	v.strip(top.Inset(u.S(12)))
	low := draw.Rect{X: right.X, Y: top.Y + top.H + gap, W: right.W, H: r.H - top.H - gap}
	pic := low
	pic.W = min(low.H*1.1, low.W*0.36)
	u.Card(pic)
	v.d.Picture(pic.Inset(u.S(4)))
	ch := draw.Rect{X: pic.X + pic.W + gap, Y: low.Y, W: low.W - pic.W - gap, H: low.H}
	u.Card(ch)
	v.charts(ch.Inset(u.S(12)))
}

func (v *View) narrow(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	v.d.Tabs("strip", w.T("tab.panel"), r, []string{w.T("tab.strip"), w.T("tab.panel"), w.T("tab.chart")}, v.tab, func(x, y, width, room float64) float64 {
		switch v.tab {
		case 0:
			h := max(u.S(300), room)
			v.strip(draw.Rect{X: x, Y: y, W: width, H: h})
			return y + h
		case 1:
			return v.controls(x, y, width)
		}
		h := u.S(420)
		v.charts(draw.Rect{X: x, Y: y, W: width, H: h})
		return y + h
	})
}

func (v *View) controls(x, y, width float64) float64 {
	d := v.d
	y = d.Gap(x, d.Band(x, y, width, "shortening_mm", "proximal_mm", "distal_mm", "grip_n", "slack_mm", "delay_days", "day"), width)
	y = d.Gap(x, v.rods(x, y, width), width)
	return d.Anatomy(x, y, width, "group/elevation", "group/distance", "anatomy/sinus.cover_from_mm", "anatomy/sinus.cover_to_mm",
		"anatomy/artery.crossing_mm", "anatomy/artery.deep_from_mm", "anatomy/artery.deep_to_mm", "anatomy/artery.separation_mm", "anatomy/artery.diameter_mm",
		"anatomy/heart.mean_arterial_mmhg")
}

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	switch a.ID {
	case "strip/tab":
		v.tab = a.Index
	case "strip/ask":
		v.ask = a.Index
	case "handle/proximal", "handle/distal":
		if a.Verb == widget.Changed {
			key := map[string]string{"handle/proximal": "proximal_mm", "handle/distal": "distal_mm"}[a.ID]
			v.d.Refuse(v.d.S.Turn("repair/sinus-band/"+key, a.Value, a.Continue))
		}
	default:
		return a.Verb == widget.Pressed && v.decide(a.ID)
	}
	return true
}

// Describe tells the scene in words.
func (v *View) Describe() string {
	w := v.d.W()
	p := &v.d.S.Case.Patient
	return w.F("strip.tell", "high", w.With(p.Sinus.ElevationMM.Middle, 1, "mm"), "far", w.With(p.Sinus.DistanceMM.Middle, 1, "mm"),
		"cross", w.With(p.Artery.CrossingMM, 0, "mm")) + " " + tell.State(w, v.d.S, v.d.V)
}

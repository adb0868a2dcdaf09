package beatview

import (
	"math"

	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// View is the scene. Use New.
type View struct {
	d   *desk.Desk
	tab int
}

// New returns the scene.
func New(d *desk.Desk) *View { return &View{d: d} }

// Layout limits in logical pixels at 100 %.
const (
	wideFrom = 860.0
	tallFrom = 460.0
)

// Build lays the scene out in r.
func (v *View) Build(r draw.Rect) {
	v.d.Sync()
	v.d.Jet = true
	defer func() { v.d.Jet = false }()
	u := v.d.U
	gap := u.S(theme.Grid)
	if r.W < wideFrom*u.Scale || r.H < tallFrom*u.Scale {
		v.narrow(r)
		return
	}
	v.d.Small = false
	side := math.Max(math.Min(u.S(400), r.W*0.4), math.Min(u.S(620), r.W*0.34))
	left := draw.Rect{X: r.X, Y: r.Y, W: r.W - side - gap, H: r.H}
	u.Card(left)
	h := v.barHeight(left.W - u.S(24))
	v.d.Picture(draw.Rect{X: left.X + u.S(4), Y: left.Y + u.S(4), W: left.W - u.S(8), H: left.H - h - u.S(24)})
	v.bar(left.X+u.S(12), left.Y+left.H-h-u.S(12), left.W-u.S(24))
	right := draw.Rect{X: left.X + left.W + gap, Y: r.Y, W: side, H: r.H}
	u.Card(right)
	v.charts(right.Inset(u.S(12)))
}

func (v *View) narrow(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	v.d.Small = true
	gap := u.S(theme.Grid)
	p := draw.Rect{X: r.X, Y: r.Y, W: (r.W - gap) * 0.44, H: r.H}
	u.Card(p)
	v.d.Picture(p.Inset(u.S(4)))
	c := draw.Rect{X: r.X + p.W + gap, Y: r.Y, W: r.W - p.W - gap, H: r.H}
	u.Card(c)
	in := c.Inset(u.S(8))
	tabs := []string{w.T("tab.move"), w.T("tab.chart")}
	x, y, width := u.BeginPanel("beat"+tabs[v.tab], draw.Rect{X: in.X - u.S(4), Y: in.Y, W: in.W + u.S(8), H: in.H})
	x, y, width = x+u.S(4), y+u.S(4), width-u.S(8)
	y += u.Options("beat/tab", x, y, width, w.T("tab.panel"), tabs, v.tab) + u.S(8)
	if v.tab == 0 {
		y += v.bar(x, y, width)
	} else {
		h := u.S(480)
		v.charts(draw.Rect{X: x, Y: y, W: width, H: h})
		y += h
	}
	u.EndPanel(y)
}

func (v *View) barHeight(width float64) float64 {
	u, w := v.d.U, v.d.W()
	h := u.OptionsHeight(width, w.T("mode.systole"), w.T("mode.beat"), w.T("mode.diastole")) + u.S(8)
	half := (width - u.S(16)) / 2
	if width < u.S(420) {
		return h + v.sliderHeight(width, "beat.phase") + v.sliderHeight(width, "settings.speed") + u.S(8)
	}
	return h + math.Max(v.sliderHeight(half, "beat.phase"), v.sliderHeight(half, "settings.speed"))
}

func (v *View) sliderHeight(width float64, key string) float64 {
	u := v.d.U
	return u.Height(v.d.W().T(key), theme.Body, false, width-u.S(90)) + u.S(24)
}

// bar is the row that moves the beat: hold or beat, the phase, the speed.
func (v *View) bar(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	h := v.d.ModeChoice(x, y, width) + u.S(8)
	phase := widget.SliderSpec{ID: "phase", Name: w.T("beat.phase"), Value: math.Round(v.d.V.Phase*1000) / 10, Min: 0, Max: 100, Step: 1, Mark: math.NaN(), Unit: "%"}
	phase.Value = math.Round(phase.Value)
	speed := widget.SliderSpec{ID: "set/speed", Name: w.T("settings.speed"), Value: math.Round(v.d.V.Speed * 100), Min: 5, Max: 200, Step: 5, Mark: 100, Unit: "%"}
	if width < u.S(420) {
		h += u.Slider(x, y+h, width, phase) + u.S(8)
		return h + u.Slider(x, y+h, width, speed)
	}
	half := (width - u.S(16)) / 2
	a := u.Slider(x, y+h, half, phase)
	b := u.Slider(x+half+u.S(16), y+h, half, speed)
	return h + math.Max(a, b)
}

// charts are pressures, flows and the loop.
func (v *View) charts(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	b := v.d.Beat()
	if b == nil {
		u.Centred(r, w.T("beat.wait"), theme.Body, false, u.T.Soft)
		return
	}
	period := b.Waves.Time[len(b.Waves.Time)-1]
	now := v.d.V.Phase * period
	gap := u.S(10)
	h := (r.H - 2*gap) / 3
	time := chart.Axis{Min: 0, Max: period, Ticks: 4, Name: w.T("beat.time")}
	waves := &b.Waves

	rooms := []string{w.T("beat.lv"), w.T("beat.la"), w.T("beat.aorta"), w.T("beat.inflow"), w.T("beat.leak"), w.T("beat.out")} // one room, so that the times stand under each other
	names := []string{w.T("beat.lv"), w.T("beat.la"), w.T("beat.aorta")}
	y := chart.Axis{Ticks: 3}
	y.Span(waves.LV, waves.LA, waves.Aorta)
	c := chart.Begin(u, draw.Rect{X: r.X, Y: r.Y, W: r.W, H: h}, w.T("beat.pressure"), chart.Axis{Min: 0, Max: period, Ticks: 4}, y, rooms...)
	c.Lines(chart.Series{Name: names[0], X: waves.Time, Y: waves.LV, Color: u.T.Ink}, chart.Series{Name: names[1], X: waves.Time, Y: waves.LA, Color: u.T.Contact},
		chart.Series{Name: names[2], X: waves.Time, Y: waves.Aorta, Color: u.T.Worse, Dash: true})
	c.Cursor(now)

	names = []string{w.T("beat.inflow"), w.T("beat.leak"), w.T("beat.out")}
	y = chart.Axis{Ticks: 3}
	y.Span(waves.MitralForward, waves.LeakFlow, waves.AorticFlow)
	c = chart.Begin(u, draw.Rect{X: r.X, Y: r.Y + h + gap, W: r.W, H: h}, w.T("beat.flow"), time, y, rooms...)
	c.Lines(chart.Series{Name: names[0], X: waves.Time, Y: waves.MitralForward, Color: u.T.Contact}, chart.Series{Name: names[1], X: waves.Time, Y: waves.LeakFlow, Color: u.T.Gap},
		chart.Series{Name: names[2], X: waves.Time, Y: waves.AorticFlow, Color: u.T.Ink, Dash: true})
	c.Cursor(now)

	x := chart.Axis{Ticks: 4, Name: w.T("beat.volume")}
	y = chart.Axis{Ticks: 3}
	all, ally := [][]float64{waves.LVVolume}, [][]float64{waves.LV}
	before := v.d.BeatBefore()
	treated := before != nil && len(v.d.S.Case.Repairs) > 0
	if treated {
		all, ally = append(all, before.Waves.LVVolume), append(ally, before.Waves.LV)
	}
	x.Span(all...)
	y.Span(ally...)
	c = chart.Begin(u, draw.Rect{X: r.X, Y: r.Y + 2*(h+gap), W: r.W, H: h}, w.T("beat.loop"), x, y, w.T("table.before"), w.T("table.after"))
	if treated {
		c.Lines(chart.Series{Name: w.T("table.before"), X: before.Waves.LVVolume, Y: before.Waves.LV, Color: u.T.Ghost, Dash: true},
			chart.Series{Name: w.T("table.after"), X: waves.LVVolume, Y: waves.LV, Color: u.T.Ink})
	} else {
		c.Lines(chart.Series{X: waves.LVVolume, Y: waves.LV, Color: u.T.Ink})
	}
	c.Dot(desk.Wave(waves.Time, waves.LVVolume, now), desk.Wave(waves.Time, waves.LV, now), u.T.Accent)
}

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	switch a.ID {
	case "beat/tab":
		v.tab = a.Index
	case "phase":
		if a.Verb == widget.Changed { // scrubbing stops the beat
			v.d.V.Mode = desk.Scrub
			v.d.V.Phase = a.Value / 100
			v.d.Pose()
		}
	default:
		return false
	}
	return true
}

// Describe tells the scene in words.
func (v *View) Describe() string {
	w, b := v.d.W(), v.d.Beat()
	text := tell.State(w, v.d.S, v.d.V)
	if b == nil {
		return w.T("beat.wait") + " " + text
	}
	peak := func(x []float64) float64 {
		m := 0.0
		for _, p := range x {
			m = math.Max(m, p)
		}
		return m
	}
	return w.F("beat.tell", "lv", w.With(peak(b.Waves.LV), 0, "mmHg"), "la", w.With(peak(b.Waves.LA), 0, "mmHg"), "flow", w.With(peak(b.Waves.LeakFlow), 0, "mL/s")) + " " + text
}

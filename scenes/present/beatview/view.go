package beatview

import (
	"math"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"
)

// View is the scene. Use New.
type View struct {
	d      *desk.Desk
	tab    string   // name of the tab chosen; empty: the first
	listed []string // the tabs shown last
	lab    *valve.Laboratory
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
	v.d.Jet, v.d.Near = true, true
	defer func() { v.d.Jet, v.d.Near = false, false }()
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
	v.panel(right.Inset(u.S(12)))
}

// tabs of the panel beside the picture, by the end of their word.
func tabs() []string { return []string{"waves", "loop", "laboratory", "rules", "heart"} }

// choice draws the tabs and returns the name of the one chosen and the height they take.
func (v *View) choice(x, y, width float64, names []string) (string, float64) {
	u, w := v.d.U, v.d.W()
	v.listed = names
	var shown []string
	at := 0
	for i, n := range names {
		shown = append(shown, w.T("beat.tab."+n))
		if n == v.tab {
			at = i
		}
	}
	return names[at], u.Options("beat/tab", x, y, width, w.T("tab.panel"), shown, at) + u.S(8)
}

// panel is the choice of the tabs and the one chosen.
func (v *View) panel(r draw.Rect) {
	name, h := v.choice(r.X, r.Y, r.W, tabs())
	v.content(name, draw.Rect{X: r.X, Y: r.Y + h, W: r.W, H: r.H - h})
}

// content is one tab in r; what may be longer scrolls.
func (v *View) content(name string, r draw.Rect) {
	switch name {
	case "waves":
		v.waves(r)
		return
	case "loop":
		v.loop(r)
		return
	}
	u := v.d.U
	x, y, width := u.BeginPanel("beat/"+name, draw.Rect{X: r.X - u.S(6), Y: r.Y, W: r.W + u.S(6), H: r.H})
	x, width = x+u.S(6), width-u.S(6)
	switch name {
	case "laboratory":
		y = v.laboratory(x, y, width)
	case "rules":
		y = v.rules(x, y, width)
	case "heart":
		y = v.heart(x, y, width)
	}
	u.EndPanel(y)
}

func (v *View) narrow(r draw.Rect) {
	u := v.d.U
	v.d.Small = true
	gap := u.S(theme.Grid)
	p := draw.Rect{X: r.X, Y: r.Y, W: (r.W - gap) * 0.44, H: r.H}
	u.Card(p)
	v.d.Picture(p.Inset(u.S(4)))
	c := draw.Rect{X: r.X + p.W + gap, Y: r.Y, W: r.W - p.W - gap, H: r.H}
	u.Card(c)
	in := c.Inset(u.S(8))
	names := append([]string{"move"}, tabs()...)
	x, y, width := u.BeginPanel("beat/"+v.tab, draw.Rect{X: in.X - u.S(4), Y: in.Y, W: in.W + u.S(8), H: in.H})
	x, y, width = x+u.S(4), y+u.S(4), width-u.S(8)
	name, h := v.choice(x, y, width, names)
	y += h
	switch name {
	case "move":
		y += v.bar(x, y, width)
	case "waves":
		v.waves(draw.Rect{X: x, Y: y, W: width, H: u.S(480)})
		y += u.S(480)
	case "loop":
		v.loop(draw.Rect{X: x, Y: y, W: width, H: u.S(320)})
		y += u.S(320)
	case "laboratory":
		y = v.laboratory(x, y, width)
	case "rules":
		y = v.rules(x, y, width)
	case "heart":
		y = v.heart(x, y, width)
	}
	u.EndPanel(y)
}

func (v *View) barHeight(width float64) float64 {
	u, w := v.d.U, v.d.W()
	h := u.OptionsHeight(width-v.pauseWidth()-u.S(8), w.T("mode.systole"), w.T("mode.beat"), w.T("mode.diastole")) + u.S(8)
	half := (width - u.S(16)) / 2
	if width < u.S(420) {
		return h + v.sliderHeight(width, "beat.phase") + v.sliderHeight(width, "settings.speed") + u.S(8)
	}
	return h + math.Max(v.sliderHeight(half, "beat.phase"), v.sliderHeight(half, "settings.speed"))
}

// pauseWidth is the room of the button that holds the beat where it is or lets it go on.
func (v *View) pauseWidth() float64 {
	u, w := v.d.U, v.d.W()
	a, _ := u.ButtonSize(w.T("beat.pause"))
	b, _ := u.ButtonSize(w.T("beat.go"))
	return math.Max(a, b)
}

func (v *View) sliderHeight(width float64, key string) float64 {
	u := v.d.U
	return u.Height(v.d.W().T(key), theme.Body, false, width-u.S(90)) + u.S(24)
}

// bar is the row that moves the beat: hold or beat, the phase, the speed.
func (v *View) bar(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	room := v.pauseWidth()
	label := w.T("beat.pause")
	if v.d.V.Mode != desk.Beat {
		label = w.T("beat.go")
	}
	_, bh := u.ButtonSize(label)
	u.Button("beat/pause", draw.Rect{X: x + width - room, Y: y, W: room, H: bh}, label, "", widget.Quiet, false)
	h := v.d.ModeChoice(x, y, width-room-u.S(8)) + u.S(8)
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

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	switch a.ID {
	case "beat/tab":
		v.tab = v.listed[a.Index]
	case "beat/pause":
		if v.d.V.Mode == desk.Beat {
			v.d.V.Mode = desk.Scrub
		} else {
			v.d.V.Mode = desk.Beat
		}
		v.d.Pose()
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
	return w.F("beat.tell", "lv", w.With(peak(b.Waves.LV), 0, "mmHg"), "la", w.With(peak(b.Waves.LA), 0, "mmHg"), "flow", w.With(peak(b.Waves.LeakFlow), 0, "mL/s")) + " " + v.orificeLine() + " " + text
}

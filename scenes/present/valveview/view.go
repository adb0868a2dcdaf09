package valveview

import (
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"
)

// View is the scene. Use New.
type View struct {
	d    *desk.Desk
	tab  int
	all  bool // every number, not only the main ones
	rows []valve.Change
	seen uint64
}

// New returns the scene.
func New(d *desk.Desk) *View { return &View{d: d, seen: ^uint64(0)} }

// Layout limits in logical pixels at 100 %; below them the columns become tabs.
const (
	wideFrom = 940.0
	tallFrom = 520.0
)

// Build lays the scene out in r.
func (v *View) Build(r draw.Rect) {
	v.d.Sync()
	if v.seen != v.d.S.Version {
		v.seen, v.rows = v.d.S.Version, v.d.S.Report.Changes()
	}
	u := v.d.U
	v.d.Small = r.W < wideFrom*u.Scale || r.H < tallFrom*u.Scale
	if !v.d.Small {
		v.wide(r)
		return
	}
	v.narrow(r)
}

func (v *View) wide(r draw.Rect) {
	u := v.d.U
	gap := u.S(theme.Grid)
	left, right := u.S(272), u.S(320)
	if r.W > u.S(1240) {
		left, right = u.S(304), u.S(384)
	}
	v.controls(draw.Rect{X: r.X, Y: r.Y, W: left, H: r.H}, false)
	mid := draw.Rect{X: r.X + left + gap, Y: r.Y, W: r.W - left - right - 2*gap, H: r.H}
	v.picture(mid)
	cutH := u.S(268)
	if r.H > u.S(760) {
		cutH = u.S(360)
	}
	x := mid.X + mid.W + gap
	v.cutCard(draw.Rect{X: x, Y: r.Y, W: right, H: cutH})
	v.numbersCard(draw.Rect{X: x, Y: r.Y + cutH + gap, W: right, H: r.H - cutH - gap})
}

// narrow shows the picture beside one tabbed panel, or above it when the screen is upright.
func (v *View) narrow(r draw.Rect) {
	u := v.d.U
	gap := u.S(theme.Grid)
	p, c := r, r
	if r.W > r.H {
		p.W = (r.W - gap) * 0.42
		c.X, c.W = r.X+p.W+gap, r.W-p.W-gap
	} else {
		p.H = (r.H - gap) * 0.4
		c.Y, c.H = r.Y+p.H+gap, r.H-p.H-gap
	}
	u.Card(p)
	v.d.Picture(p.Inset(u.S(4)))
	v.controls(c, true)
}

func (v *View) picture(r draw.Rect) {
	u := v.d.U
	u.Card(r)
	// The rows of buttons are laid out from below; their height depends on the language.
	h := v.choiceHeight(r.W - u.S(24))
	v.d.Picture(draw.Rect{X: r.X + u.S(4), Y: r.Y + u.S(4), W: r.W - u.S(8), H: r.H - h - u.S(28)})
	v.d.ViewChoice(r.X+u.S(12), r.Y+r.H-h-u.S(12), r.W-u.S(24))
}

func (v *View) choiceHeight(width float64) float64 {
	u, w := v.d.U, v.d.W()
	a := u.OptionsHeight(width, w.T("view.atrium"), w.T("view.ventricle"), w.T("view.side"), w.T("view.axis"))
	return a + u.S(6) + u.OptionsHeight(width, w.T("mode.systole"), w.T("mode.beat"), w.T("mode.diastole"))
}

// controls is the panel of sliders; tabbed adds the tabs that take the other columns' place on a narrow screen.
func (v *View) controls(r draw.Rect, tabbed bool) {
	u, w := v.d.U, v.d.W()
	u.Card(r)
	tabs := []string{w.T("tab.main"), w.T("tab.more")}
	if tabbed {
		tabs = append(tabs, w.T("tab.numbers"), w.T("tab.cut"))
	} else if v.tab > 1 {
		v.tab = 0
	}
	in := r.Inset(u.S(12))
	if tabbed && r.H < u.S(300) { // little room: the tabs scroll with the rest
		x, y, width := u.BeginPanel("controls", in)
		h := u.Options("tab", x+u.S(4), y+u.S(4), width-u.S(8), w.T("tab.panel"), tabs, v.tab)
		u.EndPanel(v.tabContent(x+u.S(4), y+h+u.S(12), width-u.S(8)))
		return
	}
	h := u.Options("tab", in.X, in.Y, in.W, w.T("tab.panel"), tabs, v.tab)
	x, y, width := u.BeginPanel("controls"+tabs[v.tab], draw.Rect{X: in.X - u.S(4), Y: in.Y + h + u.S(8), W: in.W + u.S(8), H: in.H - h - u.S(8)})
	u.EndPanel(v.tabContent(x+u.S(4), y+u.S(4), width-u.S(8)))
}

func (v *View) tabContent(x, y, width float64) float64 {
	u := v.d.U
	switch v.tab {
	case 1:
		return v.more(x, y, width)
	case 2:
		return v.numbers(x, y, width)
	case 3:
		y += v.d.ViewChoice(x, y, width) + u.S(8)
		y += v.d.TurnButtons(x, y) + u.S(12)
		return v.cut(draw.Rect{X: x, Y: y, W: width, H: u.S(210)}) + u.S(8)
	}
	return v.main(x, y, width)
}

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	switch a.ID {
	case "tab":
		v.tab = a.Index
	case "numbers/all":
		v.all = a.Value > 0
	case "clip/add":
		for _, ref := range []string{"edge-clip", "edge-clip#2", "edge-clip#3"} {
			if !v.d.S.Placed(ref) {
				v.d.Refuse(v.d.S.Place(ref, true))
				break
			}
		}
	default:
		return false
	}
	return true
}

// Describe tells the scene in words.
func (v *View) Describe() string { return tell.State(v.d.W(), v.d.S, v.d.V) }

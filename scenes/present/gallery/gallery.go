package gallery

import (
	"slices"

	"annuloscope/scenes/present/beatview"
	"annuloscope/scenes/present/compareview"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/strip"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/valveview"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
)

// What a figure can show.
const (
	Valve    = "valve"    // in three dimensions
	Cut      = "cut"      // a section at the station of the view
	Strip    = "strip"    // the unrolled sinus
	Orifices = "orifices" // the open valve, flat
	Charts   = "charts"   // numbers against shortening
	Waves    = "waves"    // pressures and flows of a beat
	Compare  = "compare"  // the plans side by side
	Screen   = "screen"   // as the person sees it; drawn by the program
)

// Kinds lists what a figure can show, in the order in which it is offered.
func Kinds() []string {
	return []string{Valve, Cut, Strip, Orifices, Charts, Waves, Compare, Screen}
}

// sizes are those of figures in logical pixels. Chosen: readable on half a slide at scale 1.
var sizes = map[string][2]float64{Valve: {960, 640}, Cut: {960, 560}, Strip: {1120, 680}, Orifices: {800, 600}, Charts: {960, 640},
	Waves: {960, 720}, Compare: {1280, 880}, Screen: {1280, 800}}

// Size is the size of a figure in logical pixels.
func Size(kind string) (w, h float64) {
	s, ok := sizes[kind]
	if !ok {
		panic("gallery: no figure " + kind)
	}
	return s[0], s[1]
}

// Gallery draws figures of one study. Use New.
type Gallery struct {
	d       *desk.Desk
	cut     *valveview.View
	strip   *strip.View
	beat    *beatview.View
	compare *compareview.View
	film    bool         // frames of a film: a short heading that does not move
	camera  *draw.Camera // kept over the frames of a film
	runners []study.Runner
}

// New returns a gallery that looks at a study as view and settings say. beside makes runners that answer with the closed
// loop, for charts and plans.
func New(s *study.Study, view study.View, settings study.Settings, beside func() study.Runner) *Gallery {
	th, ok := theme.Named(settings.Theme)
	if !ok {
		th = theme.Light()
	}
	d := desk.New(widget.New(th, words.For(words.Language(settings.Language))), s)
	d.P, d.V = settings, view
	g := &Gallery{d: d, cut: valveview.New(d), beat: beatview.New(d)}
	own := func() study.Runner {
		r := beside()
		g.runners = append(g.runners, r)
		return r
	}
	g.strip, g.compare = strip.New(d, own), compareview.New(d, own())
	return g
}

// Close ends the runners that the gallery made.
func (g *Gallery) Close() {
	for _, r := range g.runners {
		if c, ok := r.(interface{ Close() }); ok {
			c.Close()
		}
	}
	g.runners = nil
}

// Study is what is drawn.
func (g *Gallery) Study() *study.Study { return g.d.S }

// Comparison gives the solved plans.
func (g *Gallery) Comparison() *study.Comparison { return g.compare.Columns() }

// Work does one step of what a figure needs besides the report and tells whether more is left.
func (g *Gallery) Work(kind string) (more bool) {
	switch kind {
	case Charts:
		return g.strip.Work()
	case Compare:
		return g.compare.Work()
	}
	return false
}

// Title names a figure.
func (g *Gallery) Title(kind string) string {
	w := g.d.W()
	if kind == Cut {
		return tell.Title(w, g.d.S.Case) + " · " + w.F("heading.cut", "place", tell.Place(w, g.d.V.Station))
	}
	return tell.Title(w, g.d.S.Case) + " · " + w.T("figure."+kind)
}

// Alt tells a figure in words.
func (g *Gallery) Alt(kind string) string {
	switch kind {
	case Compare:
		return g.Title(kind) + ". " + g.compare.Describe()
	case Strip, Charts:
		return g.Title(kind) + ". " + g.strip.Describe()
	case Waves:
		return g.Title(kind) + ". " + g.beat.Describe()
	}
	return g.Title(kind) + ". " + tell.State(g.d.W(), g.d.S, g.d.V)
}

// Draw draws a figure of w by h logical pixels into l. The caution belongs to the caption strip that package figure adds.
func (g *Gallery) Draw(l *draw.List, kind string, w, h float64) {
	if !slices.Contains(Kinds(), kind) || kind == Screen {
		panic("gallery: no figure " + kind)
	}
	u := g.d.U
	u.Begin(l, w, h)
	g.d.Sync()
	g.d.Pose()
	l.Title = g.Title(kind)
	pad := u.S(12)
	y := pad + g.heading(pad, pad, w-2*pad, kind)
	r := draw.Rect{X: pad, Y: y + pad/2, W: w - 2*pad, H: h - y - 1.5*pad}
	switch kind {
	case Valve:
		g.valve(r)
	case Cut:
		g.cut.Cut(r)
	case Strip:
		g.strip.Figure(r)
	case Orifices:
		g.orifices(r)
	case Charts:
		g.strip.Charts(r)
	case Waves:
		g.beat.Waves(r)
	case Compare:
		g.compare.Figure(r, !g.film)
	}
	if kind != Valve && kind != Compare { // those mark each of their pictures
		g.d.Mark(r)
	}
	u.Controls, u.Focus, u.Hover = u.Controls[:0], "", ""
	u.End()
}

// heading writes what the figure says on top: the sentence, or for a film a line that keeps its place.
func (g *Gallery) heading(x, y, width float64, kind string) float64 {
	u, w := g.d.U, g.d.W()
	if g.film {
		h := u.Para(x, y, width, g.Title(kind), theme.Lead, true, u.T.Ink)
		if kind == Compare { // the line tells of one valve
			return h
		}
		s := &g.d.S.Report.After
		line := w.F("figure.numbers", "eroa", w.With(float64(s.Regurgitation.EffectiveOrificeCM2), 2, "cm²"),
			"sl", w.With(s.Annulus.SeptalLateralMM, 1, "mm"), "open", w.With(float64(s.Opening.AnatomicAreaCM2), 2, "cm²"))
		if c := g.d.S.Last; c.Deed == study.Turned {
			if k, ok := g.d.S.Knob(c.ID); ok {
				line = tell.FullName(w, k) + " " + w.With(k.Value, k.Decimals, k.Unit) + " · " + line
			}
		}
		return h + u.Para(x, y+h, width, line, theme.Body, false, u.T.Ink)
	}
	h := u.Para(x, y, width, g.Title(kind), theme.Body, true, u.T.Soft)
	text := tell.Caption(w, g.d.S)
	if kind == Compare {
		text = g.compare.Sentence()
	}
	return h + u.Para(x, y+h, width, text, theme.Lead, false, u.T.Ink)
}

// valve draws the valve in three dimensions with its labels. In a film the camera stays where it was in the first frame.
func (g *Gallery) valve(r draw.Rect) {
	if !g.film {
		g.d.Plain(r)
		return
	}
	d, u, w := g.d, g.d.U, g.d.W()
	o := d.Options()
	if g.camera == nil {
		c := d.Model.Camera(r, d.V.Azimuth, d.V.Elevation, d.V.Zoom, u.S(48))
		g.camera = &c
	}
	u.List.PushClip(r)
	u.List.Solid(r, *g.camera, d.Model.Pose(d.Open, u.T, o))
	p := d.Placer(r, *g.camera)
	key := "mode.between"
	switch d.Open {
	case 0:
		key = "mode.solved.systole"
	case 1:
		key = "mode.solved.diastole"
	}
	text := w.T(key)
	p.Block(draw.Rect{X: r.X, Y: r.Y, W: u.Wide(text, theme.Small, false), H: u.LineHeight(theme.Small)})
	d.Model.Labels(p, w, d.Open, o)
	u.Para(r.X, r.Y, r.W, text, theme.Small, false, u.T.Soft)
	u.List.PopClip()
	d.Mark(r)
}

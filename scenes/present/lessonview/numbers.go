package lessonview

import (
	"fmt"
	"math"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// column is one state of a table.
type column struct {
	title string
	state *valve.State
	ghost bool // before treatment
}

// columns lists the states of a table: one before for all plans where their numbers before are the same, else one each.
func (v *View) columns(l *lesson.Lesson, t *lesson.Table, res lesson.Results, paths ...string) []column {
	w := v.d.W()
	var out []column
	single := true
	for _, n := range t.Plans {
		for _, path := range paths {
			q, ok := valve.FindQuantity(path)
			single = single && (!ok || w.Num(q.Of(&res[n].Before), q.Decimals) == w.Num(q.Of(&res[t.Plans[0]].Before), q.Decimals))
		}
	}
	for i, n := range t.Plans {
		p, _ := l.Plan(n)
		title := w.Table("", p.Title)
		treated := len(p.Case.Repairs) > 0
		switch {
		case !treated:
			out = append(out, column{title, &res[n].Before, true})
		case !single:
			out = append(out, column{w.F("lesson.before", "title", title), &res[n].Before, true})
		case i == 0:
			out = append(out, column{w.T("table.before"), &res[n].Before, true})
		}
		if treated {
			out = append(out, column{title, &res[n].After, false})
		}
	}
	return out
}

// bars draws one quantity of all states as bars from zero.
func (v *View) bars(l *lesson.Lesson, t *lesson.Table, res lesson.Results, x, y, width float64) float64 {
	q, ok := valve.FindQuantity(t.Chart)
	if !ok {
		return y
	}
	u, w := v.d.U, v.d.W()
	var cols []column
	for _, c := range v.columns(l, t, res, t.Chart) {
		if !math.IsNaN(q.Of(c.state)) { // what does not apply has no bar
			cols = append(cols, c)
		}
	}
	most := 0.0
	var said []string
	for _, c := range cols {
		x := q.Of(c.state)
		if x < 0 {
			return y
		}
		most = math.Max(most, x)
		said = append(said, c.title+" "+w.With(x, q.Decimals, q.Unit))
	}
	if most == 0 {
		return y
	}
	start := y
	title := tell.Label(w, q)
	lh, bar := u.LineHeight(theme.Body), u.S(14)
	rows := u.Height(title, theme.Body, true, width) + u.S(6)
	for _, c := range cols {
		rows += u.Height(c.title, theme.Body, false, width) + bar + u.S(8)
	}
	v.info("lesson/bars", draw.Rect{X: x, Y: start, W: width, H: rows}, title, strings.Join(said, ", "))
	y += u.Para(x, y, width, title, theme.Body, true, u.T.Ink) + u.S(6)
	value := 0.0
	for _, c := range cols {
		value = math.Max(value, u.Wide(w.With(q.Of(c.state), q.Decimals, q.Unit), theme.Body, true))
	}
	for _, c := range cols {
		y += u.Para(x, y, width, c.title, theme.Body, false, u.T.Ink)
		a := q.Of(c.state)
		bw := math.Max((width-value-u.S(10))*a/most, 1)
		fill := u.T.Accent
		if c.ghost {
			fill = u.T.Ghost
		}
		u.List.FillRect(draw.Rect{X: x, Y: y, W: bw, H: bar}, fill)
		u.Text(draw.Rect{X: x + bw + u.S(6), Y: y + bar/2 - lh/2, W: value, H: lh}, w.With(a, q.Decimals, q.Unit), theme.Body, true, draw.Start, u.T.Ink)
		y += bar + u.S(8)
	}
	return y + u.S(8)
}

// table writes the quantities of all states, in columns where there is room, else under each other.
func (v *View) table(l *lesson.Lesson, t *lesson.Table, res lesson.Results, x, y, width float64) float64 {
	if len(t.Quantities) == 0 {
		return y
	}
	u, w := v.d.U, v.d.W()
	cols := v.columns(l, t, res, t.Quantities...)
	cw := math.Min(u.S(112), (width*0.68)/float64(len(cols)))
	grid := cw >= u.S(74)
	name := width
	if grid {
		name = width - cw*float64(len(cols)) - u.S(8)
		hh := 0.0
		for _, c := range cols {
			hh = math.Max(hh, u.Height(c.title, theme.Body, true, cw-u.S(6)))
		}
		for i, c := range cols {
			for k, line := range u.Lines(c.title, theme.Body, true, cw-u.S(6)) {
				u.Text(draw.Rect{X: x + width - cw*float64(len(cols)-i), Y: y + float64(k)*u.LineHeight(theme.Body), W: cw, H: u.LineHeight(theme.Body)}, line, theme.Body, true, draw.End, u.T.Ink)
			}
		}
		y += hh + u.S(4)
		u.Rule(x, y, width)
		y += u.S(4)
	}
	for _, path := range t.Quantities {
		q, ok := valve.FindQuantity(path)
		if !ok {
			continue
		}
		label := tell.Label(w, q)
		if unit := w.Unit(q.Unit); unit != "" {
			label += " (" + unit + ")"
		}
		var said []string
		for _, c := range cols {
			said = append(said, c.title+": "+w.With(q.Of(c.state), q.Decimals, q.Unit))
		}
		h := u.Height(label, theme.Body, !grid, name)
		if !grid {
			for _, s := range said {
				h += u.Height(s, theme.Body, false, width-u.S(12))
			}
		}
		u.Info("quantity/"+path, draw.Rect{X: x - u.S(4), Y: y - u.S(2), W: width + u.S(6), H: math.Max(h+u.S(4), u.S(24))}, tell.Label(w, q), strings.Join(said, "; "))
		py := y + u.Para(x, y, name, label, theme.Body, !grid, u.T.Ink)
		if grid {
			for i, c := range cols {
				u.Text(draw.Rect{X: x + width - cw*float64(len(cols)-i), Y: y, W: cw, H: u.LineHeight(theme.Body)}, w.Num(q.Of(c.state), q.Decimals), theme.Body, !c.ghost, draw.End, u.T.Ink)
			}
		} else {
			for _, s := range said {
				py += u.Para(x+u.S(12), py, width-u.S(12), s, theme.Body, false, u.T.Ink)
			}
		}
		y += math.Max(h, u.S(20)) + u.S(6)
		u.Rule(x, y-u.S(4), width)
	}
	return y + u.S(10)
}

const flatZoom = 1.3 // nearer, for the views of the valve from its edge; chosen by eye

const roomy = 320.0 // width of a picture from which it has labels, logical pixels at 100 %

// pictures draws one plan before and after.
func (v *View) pictures(l *lesson.Lesson, t *lesson.Table, res lesson.Results, x, y, width float64) float64 {
	p, ok := l.Plan(t.Picture)
	r := res[t.Picture]
	if !ok || r == nil {
		return y
	}
	u, w := v.d.U, v.d.W()
	if k := l.Name + p.Name + key(p.Case); v.drawn != k {
		v.drawn = k
		v.before.Load(r.Scene.Before, nil)
		v.after.Load(r.Scene.After, r.After.Clips)
	}
	treated := len(p.Case.Repairs) > 0
	gap := u.S(8)
	pw := width
	if treated {
		pw = (width - gap) / 2
	}
	share := 0.95 // height over width
	if t.View == "side" || t.View == "axis" {
		share = 0.6
	}
	if !treated {
		share *= 0.65
	}
	ph := math.Round(math.Min(pw*share, u.S(300)))
	title := w.Table("", p.Title)
	heads := []string{w.T("table.before"), title}
	if !treated {
		heads = []string{title}
	}
	hh := 0.0
	for _, s := range heads {
		hh = math.Max(hh, u.Height(s, theme.Body, true, pw))
	}
	states := []*valve.State{&r.Before, &r.After}
	models := []*relief.Model{&v.before, &v.after}
	for i, s := range heads {
		px := x + float64(i)*(pw+gap)
		box := draw.Rect{X: px, Y: y + hh + u.S(2), W: pw, H: ph}
		v.info(fmt.Sprintf("lesson/picture/%d", i+1), draw.Rect{X: px, Y: y, W: pw, H: hh + ph}, w.F("lesson.picture", "what", s), v.tells(states[i], t))
		u.Para(px, y, pw, s, theme.Body, true, u.T.Ink)
		v.draw(models[i], box, t)
	}
	return y + hh + ph + u.S(12)
}

// tells says a picture in words.
func (v *View) tells(s *valve.State, t *lesson.Table) string {
	w := v.d.W()
	paths := []string{"annulus.septal_lateral_mm", "coaptation.gap_mm.max", "regurgitation.effective_orifice_cm2"}
	if t.Diastole {
		paths = []string{"opening.anatomic_area_cm2", "opening.mean_gradient_mmhg"}
	}
	var out []string
	for _, p := range paths {
		q, _ := valve.FindQuantity(p)
		out = append(out, tell.Label(w, q)+" "+w.With(q.Of(s), q.Decimals, q.Unit))
	}
	return strings.Join(out, ", ")
}

func (v *View) draw(m *relief.Model, r draw.Rect, t *lesson.Table) {
	u := v.d.U
	if m.Empty() {
		return
	}
	open := 0.0
	if t.Diastole {
		open = 1
	}
	name := t.View
	if name == "" {
		name = "atrium"
	}
	view, _ := relief.FindView(name)
	o := relief.Options{Vessels: !view.Cut, Contact: true, Areas: true}
	if view.Cut {
		o.Cut, o.CutX = true, m.JunctionAt(0).X+0.01
	}
	cam := m.Camera(r, view.Azimuth, view.Elevation, view.Zoom, u.S(10))
	switch name { // these are much wider than high: the picture is filled
	case "axis":
		cam = m.CameraNear(r, view.Azimuth, view.Elevation, view.Zoom*flatZoom, u.S(10))
	case "side":
		cam = m.Camera(r, view.Azimuth, view.Elevation, view.Zoom*flatZoom, u.S(10))
	}
	u.List.PushClip(r)
	u.List.Solid(r, cam, m.Pose(open, u.T, o))
	if r.W >= u.S(roomy) {
		m.Labels(v.d.Placer(r, cam), v.d.W(), open, o)
	}
	u.List.PopClip()
}

package compareview

import (
	"fmt"
	"math"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the pictures in logical pixels at 100 %; chosen.
const (
	picMargin  = 14.0  // round the valve, for labels
	leastNamed = 330.0 // narrower pictures leave the leaflets without names
)

// deeds are the buttons of a plan.
var deeds = [...]string{"edit", "update", "remove"}

// headHeight is the height of a column's name, repairs and buttons, the same for all so that pictures stand in a row.
func (v *View) headHeight(columns []int, width float64) float64 {
	u, w := v.d.U, v.d.W()
	text := 0.0
	for _, i := range columns {
		text = math.Max(text, u.Height(tell.Repairs(w, v.c.Columns[i].Plan.Repairs), theme.Small, false, width))
	}
	h := u.S(32) + u.S(4) + text + u.S(4)
	if !v.bare && len(columns) > 1 {
		h += v.buttons(-1, 0, 0, width) + u.S(6)
	}
	return h
}

// buttons draws the buttons of plan i, or for −1 only measures them; it returns their height.
func (v *View) buttons(i int, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	for _, deed := range deeds {
		label := w.T("compare." + deed)
		r := f.Next(label)
		if i > 0 {
			name := w.F("compare."+deed+".spoken", "name", v.name(i))
			off := deed == "update" && v.asPresent(i)
			u.Button(fmt.Sprintf("compare/%s/%d", deed, i-1), r, label, name, widget.Quiet, off)
		}
	}
	return f.Height()
}

// asPresent tells whether a plan's repairs are those of the present valve.
func (v *View) asPresent(i int) bool {
	return study.Plan{Repairs: v.c.Columns[i].Plan.Repairs}.String() == study.Plan{Repairs: v.d.S.Case.Repairs}.String()
}

// column draws one plan into r.
func (v *View) column(i int, r draw.Rect, head float64) {
	u, w := v.d.U, v.d.W()
	u.Card(r)
	in := r.Inset(u.S(8))
	y := in.Y
	if i == 0 || v.bare {
		u.Text(draw.Rect{X: in.X + u.S(4), Y: y, W: in.W - u.S(4), H: u.S(32)}, v.name(i), theme.Lead, true, draw.Start, u.T.Ink)
	} else {
		u.Line(fmt.Sprintf("compare/name/%d", i-1), in.X, y, in.W, w.F("compare.name", "number", i), v.name(i))
	}
	y += u.S(36)
	y += u.Para(in.X+u.S(4), y, in.W-u.S(8), tell.Repairs(w, v.c.Columns[i].Plan.Repairs), theme.Small, false, u.T.Soft) + u.S(4)
	if i > 0 && !v.bare {
		v.buttons(i, in.X, in.Y+head-v.buttons(-1, 0, 0, in.W)-u.S(6), in.W)
	}
	v.picture(i, draw.Rect{X: in.X, Y: in.Y + head, W: in.W, H: in.H - head})
}

// picture draws the valve of one column. All pictures share the camera, and the scale of the untreated valve.
func (v *View) picture(i int, r draw.Rect) {
	u, w, k := v.d.U, v.d.W(), &v.c.Columns[i]
	if !v.bare {
		id := "picture"
		if i > 0 {
			id = fmt.Sprintf("picture/%d", i)
		}
		u.Picture(id, r, w.F("compare.picture", "name", v.name(i)))
	}
	m := &v.models[i]
	switch {
	case k.Failure != nil:
		u.Centred(r.Inset(u.S(8)), w.F("say.failed", "why", v.d.Why(k.Failure)), theme.Body, false, u.T.Worse)
		return
	case m.Empty():
		u.Centred(r.Inset(u.S(8)), w.T("say.wait"), theme.Body, false, u.T.Soft)
		return
	}
	one := &v.models[0]
	if one.Empty() {
		one = m
	}
	cam := one.Camera(r, v.d.V.Azimuth, v.d.V.Elevation, v.d.V.Zoom, u.S(picMargin))
	o := relief.Options{Vessels: true, Contact: true, Areas: true, Tint: v.field.values[i] != nil}
	o.Shell, o.Field = v.deep(), relief.NoField
	o.Few = r.W < u.S(leastNamed)
	if o.Tint { // a map shows the leaflets alone, larger
		cam, o.Vessels = one.CameraNear(r, v.d.V.Azimuth, v.d.V.Elevation, v.d.V.Zoom, u.S(picMargin)), false
	}
	if named, ok := relief.FindView(v.d.V.Named); ok && named.Cut {
		o.Cut, o.CutX = true, m.JunctionAt(v.d.V.Station).X+0.01
	}
	open := v.open(i)
	u.List.PushClip(r)
	u.List.Solid(r, cam, m.Pose(open, u.T, o))
	p := v.d.Placer(r, cam)
	if o.Tint {
		v.mapLabels(i, p)
	} else {
		m.Labels(p, w, open, o)
	}
	v.d.Mark(r)
	if key := v.waiting(k); key != "" {
		u.Text(draw.Rect{X: r.X + u.S(4), Y: r.Y, W: r.W, H: u.LineHeight(theme.Small)}, w.T(key), theme.Small, false, draw.Start, u.T.Soft)
	}
	u.List.PopClip()
}

// waiting is the word for what a column still waits for, or empty.
func (v *View) waiting(k *study.Column) string {
	switch {
	case k.Stale:
		return "state.updating"
	case v.c.Settling():
		return "shell.settling.short"
	}
	return ""
}

// open is how far a column's leaflets are open at the time that all share.
func (v *View) open(i int) float64 {
	switch v.d.V.Mode {
	case desk.Held:
		return 0
	case desk.Opened:
		return 1
	}
	return desk.OpeningOf(v.models[i].Shapes.Beat, v.d.V.Phase)
}

// read is the map's value at a place of the line and where that is: in three dimensions the mean of both free margins.
func (v *View) read(i int, place float64) (value float64, at r3.Vec) {
	m := &v.models[i]
	if v.deep() {
		points, mid := m.MarginAt(m.JunctionAt(place).X)
		return (v.field.values[i][points[0]] + v.field.values[i][points[1]]) / 2, mid
	}
	st := m.Shapes.Stations
	best := 0
	for k := range st {
		if math.Abs(st[k].S-place) < math.Abs(st[best].S-place) {
			best = k
		}
	}
	return v.field.values[i][best], st[best].Junction
}

// mapLabels writes the map's value at three places of the line, so that colour is not the only cue.
func (v *View) mapLabels(i int, p *relief.Placer) {
	u, w := v.d.U, v.d.W()
	m, sh := &v.models[i], v.shown()
	defer p.Draw()
	size := theme.Body
	if p.In.W < u.S(300) {
		size = theme.Small
	}
	for _, place := range [...]float64{-0.7, 0, 0.7} {
		x, at := v.read(i, place)
		decimals := 1
		if v.deep() && sh.field != relief.GapField { // mmHg and N/m
			decimals = 0
		}
		text := w.Num(x, decimals)
		if sh.change {
			text = w.Signed(x, decimals)
		}
		p.Place(relief.Mark{Text: text, At: r3.Add(at, r3.Vec{Y: -1}), Out: draw.Point{Y: 1}, Gap: 4, Bold: true, Size: size, Color: u.T.Ink})
	}
	top := m.Shapes.Annulus[len(m.Shapes.Annulus)/4]
	p.Place(relief.Mark{Text: w.T("label.aorta"), Turn: 30, At: top, Out: draw.Point{Y: -1}, Gap: 8, Bold: true, Color: u.T.Ink})
}

package strip

import (
	"math"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// The rows of the strip.
const (
	inHeight = iota
	inDistance
	inForce
	inClearance
	inNarrow
	rows
)

// lane is one row of the strip: station to the left along x, a value up y.
type lane struct {
	r      draw.Rect
	length float64
	lo, hi float64
}

func (l lane) x(station float64) float64  { return l.r.X + l.r.W*(1-station/l.length) }
func (l lane) y(v float64) float64        { return l.r.Y + l.r.H*(1-(v-l.lo)/(l.hi-l.lo)) }
func (l lane) at(s, v float64) draw.Point { return draw.Point{X: l.x(s), Y: l.y(v)} }

// strip draws the unrolled vein.
func (v *View) strip(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	if len(v.data.vein.station) < 2 {
		u.Centred(r, w.T("say.wait"), theme.Body, false, u.T.Soft)
		return
	}
	lh := u.LineHeight(theme.Small)
	names := [rows]string{w.T("strip.height"), w.T("strip.distance"), w.T("strip.force"), w.T("strip.clearance"), w.T("strip.narrow")}
	label := 0.0
	for _, n := range names {
		for _, l := range u.Lines(n, theme.Small, false, u.S(104)) {
			label = math.Max(label, u.Wide(l, theme.Small, false))
		}
	}
	label += u.S(10)
	area := draw.Rect{X: r.X + label, Y: r.Y, W: r.W - label - u.S(12), H: r.H}
	if area.W < u.S(120) {
		return
	}
	y := v.heads(area, lh)
	foot := 2*lh + u.S(6)
	rest := r.Y + r.H - foot - y
	gap := u.S(8)
	share := [rows]float64{0.38, 0.24, 0.12, 0.13, 0.13}
	lanes := [rows]lane{}
	for i := range lanes {
		h := (rest - (rows-1)*gap) * share[i]
		lanes[i] = lane{r: draw.Rect{X: area.X, Y: y, W: area.W, H: h}, length: v.data.length}
		y += h + gap
	}
	v.ranges(&lanes)
	for i, l := range lanes {
		u.Fill(l.r, u.S(3), u.T.Paper)
		v.name(r.X, l, label-u.S(8), names[i], i)
	}
	v.deep(lanes[inHeight], lanes[rows-1].r.Y+lanes[rows-1].r.H)
	v.side(lanes[inHeight])
	v.plan(lanes[inDistance])
	v.profile(lanes[inForce], v.data.vein.station, v.data.force, u.T.Device)
	for _, q := range v.data.vessels {
		v.profile(lanes[inClearance], q.StationMM, q.ClearanceMM, u.T.Soft)
		v.profile(lanes[inNarrow], q.StationMM, q.WorstViewPct, u.T.Artery)
	}
	v.axis(lanes[rows-1], lh)
	v.handles(lanes[0], lanes[1])
}

func (v *View) ranges(l *[rows]lane) {
	c := &v.data.vein
	lo, hi := -4.0, 12.0
	far := 14.0
	for i := range c.station {
		lo, hi = math.Min(lo, c.height[i]-c.radius[i]-1), math.Max(hi, c.height[i]+c.radius[i]+2)
		far = math.Max(far, c.distance[i]+c.radius[i]+1)
	}
	for i := range v.data.artery.station {
		lo = math.Min(lo, v.data.artery.height[i]-v.data.artery.radius[i]-2)
		hi = math.Max(hi, v.data.artery.height[i]+2)
		far = math.Max(far, v.data.artery.distance[i]+v.data.artery.radius[i]+1)
	}
	l[inHeight].lo, l[inHeight].hi = lo, hi
	l[inDistance].lo, l[inDistance].hi = far, -3 // the annulus on top, as seen from the atrium with the wall below
	l[inForce].lo, l[inForce].hi = 0, math.Max(0.05, top(v.data.force)*1.15)
	l[inClearance].lo, l[inClearance].hi = 0, 4
	for _, q := range v.data.vessels {
		l[inClearance].hi = math.Max(l[inClearance].hi, top(q.ClearanceMM)*1.1)
	}
	l[inNarrow].lo, l[inNarrow].hi = 0, math.Max(20, v.data.most()*1.15)
}

func top(v []float64) float64 {
	m := 0.0
	for _, x := range v {
		m = math.Max(m, x)
	}
	return m
}

// heads writes P1, P2, P3 over their stretches and the mouth on the right; it returns the y below.
func (v *View) heads(area draw.Rect, lh float64) float64 {
	u, w := v.d.U, v.d.W()
	l := lane{r: area, length: v.data.length}
	from, to := v.data.vein.scallops()
	y := area.Y
	for k, name := range [3]string{"P3", "P2", "P1"} {
		if math.IsNaN(from[k]) {
			continue
		}
		x0, x1 := l.x(to[k]), l.x(from[k])
		cell := draw.Rect{X: x0 + 2, Y: y, W: x1 - x0 - 4, H: lh + u.S(4)}
		u.Fill(cell, u.S(3), u.T.Tint)
		if cell.W > u.Wide(name, theme.Body, true) {
			u.Text(cell, name, theme.Body, true, draw.Middle, u.T.Ink)
		}
	}
	y += lh + u.S(6)
	half := area.W/2 - u.S(4)
	a, b := w.T("strip.far"), w.T("strip.mouth")
	h := 0.0
	for i, line := range u.Lines(a, theme.Small, false, half) {
		u.Text(draw.Rect{X: area.X, Y: y + float64(i)*lh, W: half, H: lh}, line, theme.Small, false, draw.Start, u.T.Soft)
		h = math.Max(h, float64(i+1)*lh)
	}
	for i, line := range u.Lines(b, theme.Small, false, half) {
		u.Text(draw.Rect{X: area.X + area.W - half, Y: y + float64(i)*lh, W: half, H: lh}, line, theme.Small, false, draw.End, u.T.Soft)
		h = math.Max(h, float64(i+1)*lh)
	}
	return y + h + u.S(4)
}

// name writes what a lane shows and its largest or least value.
func (v *View) name(x float64, l lane, width float64, text string, i int) {
	u, w := v.d.U, v.d.W()
	lh := u.LineHeight(theme.Small)
	lines := u.Lines(text, theme.Small, false, width)
	n := min(len(lines), max(1, int((l.r.H+u.S(8))/lh)))
	for k, line := range lines[:n] {
		u.Text(draw.Rect{X: x, Y: l.r.Y + float64(k)*lh, W: width, H: lh}, line, theme.Small, false, draw.Start, u.T.Ink)
	}
	y := l.r.Y + float64(n)*lh
	value := ""
	switch i {
	case inForce:
		value = w.F("strip.most", "value", w.With(top(v.data.force), 2, "N/mm"))
	case inClearance:
		value = w.F("strip.least", "value", w.With(v.data.least(), 1, "mm"))
	case inNarrow:
		value = w.F("strip.most", "value", w.With(v.data.most(), 0, "%"))
	}
	if i < inForce || math.IsNaN(v.data.least()) && i == inClearance {
		return
	}
	cell := draw.Rect{X: x, Y: y, W: width, H: lh}
	if y+lh > l.r.Y+l.r.H+u.S(8) || u.Wide(value, theme.Small, true) > width { // no room under the name: in the lane, at the end where little is drawn
		cell = draw.Rect{X: l.r.X + u.S(6), Y: l.r.Y + u.S(1), W: u.Wide(value, theme.Small, true), H: lh}
		if i == inClearance {
			cell.X = l.r.X + l.r.W - cell.W - u.S(6)
		}
	}
	u.Text(cell, value, theme.Small, true, draw.Start, u.T.Ink)
}

// deep tints the stretch in which the artery lies under the vein, through all lanes.
func (v *View) deep(l lane, bottom float64) {
	u := v.d.U
	p := &v.d.S.Case.Patient.Artery
	if p.DeepToMM <= p.DeepFromMM {
		return
	}
	x0, x1 := l.x(math.Min(p.DeepToMM, l.length)), l.x(p.DeepFromMM)
	if x1 <= x0 {
		return
	}
	u.List.FillRect(draw.Rect{X: x0, Y: l.r.Y, W: x1 - x0, H: bottom - l.r.Y}, theme.Fade(u.T.Artery, 0.1))
	for _, x := range []float64{x0, x1} {
		u.List.Dashed(u.T.Artery, 1, u.S(3), u.S(3), draw.Point{X: x, Y: l.r.Y}, draw.Point{X: x, Y: bottom})
	}
}

// tube fills a vessel between its two walls.
func tube(l lane, station, middle, radius []float64) []draw.Point {
	var pts []draw.Point
	for i := range station {
		pts = append(pts, l.at(station[i], middle[i]+radius[i]))
	}
	for i := len(station) - 1; i >= 0; i-- {
		pts = append(pts, l.at(station[i], middle[i]-radius[i]))
	}
	return pts
}

// side draws heights: the annulus as the zero line, the vein, the artery over or under it.
func (v *View) side(l lane) {
	u, w := v.d.U, v.d.W()
	u.List.PushClip(l.r)
	c, a := &v.data.vein, &v.data.artery
	zero := l.y(0)
	u.List.Line(u.T.Annulus, u.S(3), draw.Point{X: l.r.X, Y: zero}, draw.Point{X: l.r.X + l.r.W, Y: zero})
	under := len(a.station) > 1
	if under {
		u.List.Fill(u.T.Artery, tube(l, a.station, a.height, a.radius)...)
	}
	v.across(l, func(b *branch) float64 { return b.height })
	pts := tube(l, c.station, c.height, c.radius)
	u.List.Fill(theme.Fade(u.T.Vein, 0.45), pts...)
	u.List.Loop(u.T.Vein, u.S(1.5), pts...)
	u.List.PopClip()
	lab := labels{v: v, in: l.r}
	lab.put(draw.Point{X: l.r.X + u.S(6), Y: zero}, 1, 1, w.T("strip.annulus"), u.T.Annulus)
	mid := len(c.station) * 7 / 16
	lab.put(l.at(c.station[mid], c.height[mid]-c.radius[mid]*0.3), 0, 0, w.T("label.vein"), u.T.Vein)
	if under {
		i := len(a.station) / 2
		lab.put(l.at(a.station[i], a.height[i]-a.radius[i]), 0, 1, w.T("label.artery"), u.T.Artery)
	}
	for i := range v.data.branches {
		if b := &v.data.branches[i]; !math.IsNaN(b.height) {
			lab.put(l.at(b.at, b.height-b.radius), 0, 1, w.T("label."+strings.ReplaceAll(b.name, " ", ".")), u.T.Artery)
		}
	}
	p := &v.d.S.Case.Patient.Artery
	if p.CrossingMM <= l.length {
		x := l.x(p.CrossingMM)
		u.List.Line(u.T.Artery, u.S(1.5), draw.Point{X: x, Y: l.r.Y}, draw.Point{X: x, Y: l.r.Y + l.r.H})
		lab.put(draw.Point{X: x, Y: l.r.Y + u.S(10)}, 1, 0, w.F("strip.crossing", "mm", w.Num(p.CrossingMM, 0)), u.T.Artery)
	}
}

// across draws the branches that run under the vein, cut across.
func (v *View) across(l lane, value func(*branch) float64) {
	u := v.d.U
	mm := math.Abs(l.r.H / (l.hi - l.lo))
	for i := range v.data.branches {
		if b := &v.data.branches[i]; !math.IsNaN(b.height) {
			p := l.at(b.at, value(b))
			u.Disc(p.X, p.Y, math.Max(b.radius*mm, u.S(3)), u.T.Artery)
			u.Circle(p.X, p.Y, math.Max(b.radius*mm, u.S(3)), u.S(1), u.T.Card)
		}
	}
}

// plan draws distances outward from the annulus, seen from the atrium.
func (v *View) plan(l lane) {
	u := v.d.U
	u.List.PushClip(l.r)
	c, a := &v.data.vein, &v.data.artery
	zero := l.y(0)
	u.List.Line(u.T.Annulus, u.S(3), draw.Point{X: l.r.X, Y: zero}, draw.Point{X: l.r.X + l.r.W, Y: zero})
	if len(a.station) > 1 {
		u.List.Fill(u.T.Artery, tube(l, a.station, a.distance, a.radius)...)
	}
	v.across(l, func(b *branch) float64 { return b.distance })
	pts := tube(l, c.station, c.distance, c.radius)
	u.List.Fill(theme.Fade(u.T.Vein, 0.45), pts...)
	u.List.Loop(u.T.Vein, u.S(1.5), pts...)
	u.List.PopClip()
}

// profile draws a value along the strip as an area.
func (v *View) profile(l lane, station, value []float64, c draw.Color) {
	n := min(len(station), len(value))
	if n < 2 || top(value) <= 0 {
		return
	}
	pts := []draw.Point{l.at(station[0], 0)}
	for i := range n {
		pts = append(pts, l.at(station[i], math.Max(value[i], 0)))
	}
	pts = append(pts, l.at(station[n-1], 0))
	v.d.U.List.Fill(theme.Fade(c, 0.35), pts...)
	v.d.U.List.Line(c, v.d.U.S(2), pts[1:len(pts)-1]...)
}

func (v *View) axis(l lane, lh float64) {
	u, w := v.d.U, v.d.W()
	y := l.r.Y + l.r.H + u.S(2)
	for s := 0.0; s <= l.length; s += 20 {
		x := l.x(s)
		u.List.FillRect(draw.Rect{X: math.Round(x), Y: y - u.S(2), W: 1, H: u.S(4)}, u.T.Edge)
		text := w.Num(s, 0)
		tw := u.Wide(text, theme.Small, false)
		u.Text(draw.Rect{X: x - tw/2, Y: y + u.S(1), W: tw, H: lh}, text, theme.Small, false, draw.Middle, u.T.Soft)
	}
	name := u.Lines(w.T("strip.station"), theme.Small, false, l.r.W)[0]
	u.Text(draw.Rect{X: l.r.X, Y: y + lh, W: l.r.W, H: lh}, name, theme.Small, false, draw.Middle, u.T.Soft)
}

// handles draws band and anchors; the anchors can be dragged along, or moved with the arrow keys.
func (v *View) handles(l, plan lane) {
	u := v.d.U
	c := &v.data.vein
	ids := [2]string{"proximal", "distal"}
	var at [2]draw.Point
	on := v.d.S.Placed("sinus-band")
	if v.d.S.Placed("sinus-rods") {
		v.device("sinus-rods", 4, l, plan)
	}
	for k, id := range ids {
		knob, _ := v.d.S.Knob("repair/sinus-band/" + id + "_mm")
		i := 0
		for i < len(c.station)-1 && c.station[i] < knob.Value {
			i++
		}
		at[k] = draw.Point{X: l.x(knob.Value), Y: l.y(c.height[i])}
	}
	if on {
		v.device("sinus-band", 3, l, plan)
	}
	for k, id := range ids {
		if v.bare {
			if on {
				u.Disc(at[k].X, at[k].Y, u.S(6), u.T.Device)
			}
			continue
		}
		knob, _ := v.d.S.Knob("repair/sinus-band/" + id + "_mm")
		size := u.S(14)
		r := draw.Rect{X: at[k].X - size, Y: at[k].Y - size, W: 2 * size, H: 2 * size}
		full := l.x(knob.Min) - l.x(knob.Max)
		u.Grip(r, draw.Rect{X: l.x(knob.Min), Y: l.r.Y, W: -full, H: l.r.H}, widget.SliderSpec{ID: "handle/" + id, Name: v.d.W().T("knob.repair/sinus-band/" + id + "_mm"),
			Value: knob.Value, Min: knob.Min, Max: knob.Max, Step: knob.Step, Decimals: knob.Decimals, Unit: knob.Unit})
		u.Disc(at[k].X, at[k].Y, u.S(9), u.T.Card)
		u.Circle(at[k].X, at[k].Y, u.S(9), u.S(2.5), u.T.Device)
		if on {
			u.Disc(at[k].X, at[k].Y, u.S(4), u.T.Device)
		}
	}
}

// device draws a device of that kind between its ends, in the lanes of heights and of distances.
func (v *View) device(kind string, thick float64, height, distance lane) {
	near, _ := v.d.S.Knob("repair/" + kind + "/proximal_mm")
	far, _ := v.d.S.Knob("repair/" + kind + "/distal_mm")
	c, u := &v.data.vein, v.d.U
	var above, aside []draw.Point
	for i, s := range c.station {
		if s >= near.Value && s <= far.Value {
			above, aside = append(above, height.at(s, c.height[i])), append(aside, distance.at(s, c.distance[i]))
		}
	}
	u.List.Line(u.T.Device, u.S(thick), above...)
	u.List.Line(u.T.Device, u.S(thick), aside...)
}

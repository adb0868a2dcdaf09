package valveview

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

func (v *View) cutCard(r draw.Rect) {
	v.d.U.Card(r)
	v.cut(r.Inset(v.d.U.S(12)))
}

// cut draws the section at the station and its slider into r; it returns the y below.
func (v *View) cut(r draw.Rect) float64 {
	u, w := v.d.U, v.d.W()
	s := v.d.V.Station
	title := w.F("heading.cut", "place", tell.Place(w, s))
	h := u.Para(r.X, r.Y, r.W, title, theme.Body, true, u.T.Ink)
	spec := widget.SliderSpec{ID: "station", Name: w.T("cut.slider"), Value: s, Min: -1, Max: 1, Step: 0.05, Mark: 0, Decimals: 2, Unit: "1"}
	sh := u.Height(spec.Name, theme.Body, false, r.W-u.S(60)) + u.S(24)
	pic := draw.Rect{X: r.X, Y: r.Y + h + u.S(4), W: r.W, H: r.H - h - sh - u.S(8)}
	v.section(pic, s)
	u.Slider(r.X, pic.Y+pic.H+u.S(4), r.W, spec)
	return r.Y + r.H
}

// frame maps the plane of a section to the picture: aorta side left, atrium up.
type frame struct {
	r     draw.Rect
	y, z  float64 // mm at the middle
	scale float64
}

func (f frame) at(p r3.Vec) draw.Point {
	return draw.Point{X: f.r.X + f.r.W/2 - (p.Y-f.y)*f.scale, Y: f.r.Y + f.r.H/2 - (p.Z-f.z)*f.scale}
}

// fit chooses the scale so that annulus, leaflets, vein and artery stay in the picture at every station.
func fit(r draw.Rect, sh *valve.Shapes, line float64) frame {
	lo, hi := r3.Vec{Y: -24, Z: -13}, r3.Vec{Y: 18, Z: 4}
	for i, p := range sh.Vein {
		if p.Y < 0 {
			lo.Y = math.Min(lo.Y, p.Y-sh.VeinRadius[i])
			hi.Z = math.Max(hi.Z, p.Z+sh.VeinRadius[i])
		}
	}
	for i, p := range sh.Artery {
		if p.Y < 0 {
			lo.Y = math.Min(lo.Y, p.Y-sh.ArteryRadius[i]-1)
		}
	}
	for _, st := range sh.Stations {
		hi.Y = math.Max(hi.Y, st.Anterior[0].Y+2)
	}
	f := frame{r: r, y: (lo.Y + hi.Y) / 2, z: (lo.Z+hi.Z)/2 + 0.5}
	f.scale = math.Min((r.W-line)/(hi.Y-lo.Y), (r.H-2.4*line)/(hi.Z-lo.Z))
	return f
}

func (v *View) section(r draw.Rect, s float64) {
	u, w := v.d.U, v.d.W()
	u.Fill(r, u.S(4), u.T.Paper)
	sh, before := &v.d.Model.Shapes, &v.d.S.Report.Scene.Before
	if len(sh.Stations) < 2 {
		return
	}
	st := stationAt(sh.Stations, s)
	x := st.Junction.X
	u.List.PushClip(r)
	f := fit(r, sh, u.LineHeight(theme.Small))
	lab := placer{v: v, in: r}
	lab.fixed(r.X+u.S(6), r.Y+u.S(4), w.T("cut.atrium"), draw.Start, u.T.Soft)
	lab.fixed(r.X+u.S(6), r.Y+r.H-u.S(4)-u.LineHeight(theme.Small), w.T("cut.ventricle"), draw.Start, u.T.Soft)
	lab.fixed(r.X+r.W-u.S(6), r.Y+u.S(4), w.T("cut.wall"), draw.End, u.T.Soft)
	// scale bar
	bar := 10 * f.scale
	by := r.Y + r.H - u.S(8)
	u.List.Line(u.T.Soft, u.S(2), draw.Point{X: r.X + r.W - u.S(8) - bar, Y: by}, draw.Point{X: r.X + r.W - u.S(8), Y: by})
	lab.fixed(r.X+r.W-u.S(8), by-u.S(4)-u.LineHeight(theme.Small), w.T("cut.scale"), draw.End, u.T.Soft)

	v.vessels(f, sh, x, &lab)
	if len(v.d.S.Case.Repairs) > 0 && len(before.Stations) > 1 {
		b := stationAt(before.Stations, s)
		for _, side := range [2][]r3.Vec{b.Anterior, b.Posterior} {
			u.List.Dashed(u.T.Ghost, u.S(1.5), u.S(4), u.S(3), project(f, side)...)
		}
	}
	a0, p0 := f.at(st.Anterior[0]), f.at(st.Posterior[0])
	u.List.Dashed(u.T.Edge, 1, u.S(2), u.S(3), a0, p0)
	u.List.Line(u.T.Anterior, u.S(3.5), project(f, st.Anterior)...)
	u.List.Line(u.T.Posterior, u.S(3.5), project(f, st.Posterior)...)
	for _, q := range []draw.Point{a0, p0} {
		u.Disc(q.X, q.Y, math.Max(1.4*f.scale, u.S(4)), u.T.Annulus)
	}
	for _, side := range [2][]r3.Vec{st.Anterior, st.Posterior} { // labels keep off the leaflets
		for k := 1; k < len(side); k++ {
			for _, t := range [2]float64{0.5, 1} {
				q := f.at(lerp(side[k-1], side[k], t))
				lab.taken = append(lab.taken, draw.Rect{X: q.X - u.S(4), Y: q.Y - u.S(3), W: u.S(8), H: u.S(6)})
			}
		}
	}
	j := f.at(st.Junction)
	if st.ContactMM > st.GapMM {
		tip := f.at(st.Anterior[len(st.Anterior)-1])
		u.List.Line(u.T.Contact, u.S(3), j, tip)
		lab.beside(draw.Point{X: (j.X + tip.X) / 2, Y: (j.Y + tip.Y) / 2}, 1, 0.4, w.F("cut.contact", "mm", w.Num(st.ContactMM, 1)), u.T.Contact)
	} else {
		a, p := shortest(st.Anterior, st.Posterior, f)
		u.List.Dashed(u.T.Gap, u.S(2), u.S(3), u.S(2), a, p)
		lab.beside(p, 1, 0.8, w.F("cut.gap", "mm", w.Num(st.GapMM, 1)), u.T.Gap)
	}
	if math.Abs(s) < 0.03 {
		foot := draw.Point{X: j.X, Y: a0.Y + (p0.Y-a0.Y)*(j.X-a0.X)/math.Max(p0.X-a0.X, 1)}
		u.List.Line(u.T.Ink, u.S(1), foot, j)
		lab.beside(draw.Point{X: foot.X, Y: (foot.Y + j.Y) / 2}, -1, 0, w.F("cut.depth", "mm", w.Num(v.d.S.Report.After.Coaptation.DepthMM, 1)), u.T.Ink)
	}
	v.shellCut(f, sh, x, &lab)
	lab.beside(draw.Point{X: a0.X, Y: a0.Y + u.S(16)}, -0.2, 1, w.T("cut.anterior"), u.T.Ink)
	if !lab.beside(draw.Point{X: p0.X, Y: p0.Y + u.S(16)}, 0.4, 1, w.T("cut.posterior"), u.T.Ink) {
		q := f.at(st.Posterior[len(st.Posterior)/2])
		lab.beside(q, 0.8, 0.8, w.T("cut.posterior"), u.T.Ink)
	}
	u.List.PopClip()
}

// vessels draws where vein and artery pass the plane of the cut on the posterior side.
func (v *View) vessels(f frame, sh *valve.Shapes, x float64, lab *placer) {
	u, w := v.d.U, v.d.W()
	if i, t, ok := passes(sh.Vein, x); ok {
		c := f.at(lerp(sh.Vein[i], sh.Vein[i+1], t))
		radius := (sh.VeinRadius[i]*(1-t) + sh.VeinRadius[i+1]*t) * f.scale
		u.Disc(c.X, c.Y, radius, theme.Fade(u.T.Vein, 0.25))
		u.Circle(c.X, c.Y, radius, u.S(2), u.T.Vein)
		if k, bt, ok := passes(sh.Band, x); ok {
			b := f.at(lerp(sh.Band[k], sh.Band[k+1], bt))
			u.Disc(b.X, b.Y, math.Max(0.9*f.scale, u.S(3)), u.T.Device)
		}
		lab.taken = append(lab.taken, draw.Rect{X: c.X - radius*0.7, Y: c.Y - radius*0.7, W: 1.4 * radius, H: 1.4 * radius})
		lab.beside(draw.Point{X: c.X, Y: c.Y - radius}, 0, -1, w.T("cut.vein"), u.T.Vein)
	}
	if i, t, ok := passes(sh.Artery, x); ok {
		c := f.at(lerp(sh.Artery[i], sh.Artery[i+1], t))
		radius, n := sh.ArteryRadius[i]*f.scale, math.Min(sh.ArteryNarrow[i]/100, 0.95)
		rx, ry := radius*(1+0.5*n), radius*(1-n)
		u.Fill(draw.Rect{X: c.X - rx, Y: c.Y - ry, W: 2 * rx, H: 2 * ry}, ry, u.T.Artery)
		lab.taken = append(lab.taken, draw.Rect{X: c.X - rx, Y: c.Y - ry, W: 2 * rx, H: 2 * ry})
		lab.beside(draw.Point{X: c.X, Y: c.Y + ry}, 0.3, 1, w.T("cut.artery"), u.T.Artery)
	}
}

// passes finds the segment of a line that crosses the plane at x on the posterior side.
func passes(line []r3.Vec, x float64) (i int, t float64, ok bool) {
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		if (a.X-x)*(b.X-x) <= 0 && a.X != b.X && a.Y < 0 {
			return i, (x - a.X) / (b.X - a.X), true
		}
	}
	return 0, 0, false
}

func lerp(a, b r3.Vec, t float64) r3.Vec { return r3.Add(r3.Scale(1-t, a), r3.Scale(t, b)) }

func project(f frame, line []r3.Vec) []draw.Point {
	out := make([]draw.Point, len(line))
	for i, p := range line {
		out[i] = f.at(p)
	}
	return out
}

// stationAt interpolates between the two solved sections beside s.
func stationAt(all []valve.Station, s float64) valve.Station {
	i := 1
	for i < len(all)-1 && all[i].S < s {
		i++
	}
	a, b := &all[i-1], &all[i]
	t := math.Min(math.Max((s-a.S)/(b.S-a.S), 0), 1)
	mix := func(p, q []r3.Vec) []r3.Vec {
		out := make([]r3.Vec, min(len(p), len(q)))
		for k := range out {
			out[k] = lerp(p[k], q[k], t)
		}
		return out
	}
	return valve.Station{S: s, Anterior: mix(a.Anterior, b.Anterior), Posterior: mix(a.Posterior, b.Posterior),
		ContactMM: a.ContactMM*(1-t) + b.ContactMM*t, GapMM: a.GapMM*(1-t) + b.GapMM*t, LeakMM: a.LeakMM*(1-t) + b.LeakMM*t,
		Junction: lerp(a.Junction, b.Junction, t)}
}

// shortest is the line from a free tip to the other leaflet: from the tip for which it is shorter.
func shortest(anterior, posterior []r3.Vec, f frame) (a, p draw.Point) {
	nearest := func(tip r3.Vec, line []r3.Vec) (at r3.Vec, d float64) {
		d = math.Inf(1)
		for k := 1; k < len(line); k++ {
			for t := 0.0; t <= 1; t += 0.1 {
				q := lerp(line[k-1], line[k], t)
				if e := r3.Norm(r3.Sub(q, tip)); e < d {
					at, d = q, e
				}
			}
		}
		return at, d
	}
	ta, tp := anterior[len(anterior)-1], posterior[len(posterior)-1]
	onPosterior, d1 := nearest(ta, posterior)
	onAnterior, d2 := nearest(tp, anterior)
	if d1 < d2 {
		return f.at(ta), f.at(onPosterior)
	}
	return f.at(onAnterior), f.at(tp)
}

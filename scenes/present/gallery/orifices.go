package gallery

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// orifices draws the open valve flat, seen from the atrium: the annulus, the orifices with their areas, and dashed what
// they were before treatment. The outlines are those whose areas the report gives.
func (g *Gallery) orifices(r draw.Rect) {
	u, w := g.d.U, g.d.W()
	after, before := &g.d.S.Report.Scene.After, &g.d.S.Report.Scene.Before
	ring := after.AnnulusDiastole
	if len(ring) < 3 {
		u.Centred(r, w.T("say.wait"), theme.Body, false, u.T.Soft)
		return
	}
	lo, hi := bounds(ring, before.AnnulusDiastole)
	lh := u.LineHeight(theme.Small)
	text := u.S(96) // room for the names beside the ring
	scale := math.Min((r.W-2*text)/(hi.X-lo.X), (r.H-4*lh-u.S(40))/(hi.Y-lo.Y))
	at := func(p r3.Vec) draw.Point {
		return draw.Point{X: r.X + r.W/2 + (p.X-(lo.X+hi.X)/2)*scale, Y: r.Y + r.H/2 - (p.Y-(lo.Y+hi.Y)/2)*scale}
	}
	loop := func(line []r3.Vec) []draw.Point {
		out := make([]draw.Point, len(line))
		for i, p := range line {
			out[i] = at(p)
		}
		return out
	}
	treated := len(g.d.S.Case.Repairs) > 0
	u.List.Fill(theme.Fade(u.T.Anterior, 0.25), loop(ring)...)
	u.List.Loop(u.T.Annulus, u.S(4), loop(ring)...)
	for _, o := range after.Orifices {
		u.List.Fill(u.T.Paper, loop(o.Outline)...)
		u.List.Loop(u.T.Contact, u.S(2), loop(o.Outline)...)
	}
	if treated {
		for _, o := range before.Orifices {
			pts := loop(o.Outline)
			u.List.Dashed(u.T.Ghost, u.S(1.5), u.S(5), u.S(4), append(pts, pts[0])...)
		}
	}
	for i, o := range after.Orifices {
		c := at(relief.Centroid(o.Outline))
		area := w.With(o.AreaCM2, 2, "cm²")
		tw, bh := u.Wide(area, theme.Lead, true)+u.S(8), u.LineHeight(theme.Lead)
		box := draw.Rect{X: c.X - tw/2, Y: c.Y - bh/2, W: tw, H: bh}
		if wide := scale * width(o); tw > wide { // a narrow orifice has its number below it, kept apart from the next
			box.Y = c.Y + u.S(30) + float64(i)*bh
			u.List.Line(u.T.Ink, u.S(1), c, draw.Point{X: c.X, Y: box.Y})
		}
		u.Fill(box, u.S(3), theme.Fade(u.T.Card, 0.85))
		u.Text(box, area, theme.Lead, true, draw.Middle, u.T.Ink)
	}
	g.names(r, at, lo, hi)
	bar := 10 * scale
	y := r.Y + r.H - u.S(10)
	u.List.Line(u.T.Soft, u.S(2), draw.Point{X: r.X, Y: y}, draw.Point{X: r.X + bar, Y: y})
	u.Text(draw.Rect{X: r.X, Y: y - u.S(4) - lh, W: u.S(80), H: lh}, w.T("cut.scale"), theme.Small, false, draw.Start, u.T.Soft)
	note := w.T("figure.orifices.note")
	if treated {
		note += " " + w.T("figure.orifices.before")
	}
	u.Para(r.X, r.Y, r.W, note, theme.Small, false, u.T.Soft)
}

// names writes the landmarks round the ring.
func (g *Gallery) names(r draw.Rect, at func(r3.Vec) draw.Point, lo, hi r3.Vec) {
	u, w := g.d.U, g.d.W()
	lh := u.LineHeight(theme.Small)
	top, left, right := at(r3.Vec{Y: hi.Y}), at(r3.Vec{X: lo.X}), at(r3.Vec{X: hi.X})
	u.Text(draw.Rect{X: top.X - u.S(60), Y: top.Y - lh - u.S(8), W: u.S(120), H: lh}, w.T("label.aorta"), theme.Small, true, draw.Middle, u.T.Ink)
	side := func(x float64, a draw.Anchor, text string) {
		lines := u.Lines(text, theme.Small, false, u.S(86))
		for i, line := range lines {
			cell := draw.Rect{X: x, Y: left.Y + (float64(i)-float64(len(lines))/2)*lh, W: u.S(86), H: lh}
			if a == draw.End {
				cell.X -= cell.W
			}
			u.Text(cell, line, theme.Small, false, a, u.T.Ink)
		}
	}
	side(left.X-u.S(8), draw.End, w.T("label.anterolateral"))
	side(right.X+u.S(8), draw.Start, w.T("label.posteromedial"))
}

func bounds(lines ...[]r3.Vec) (lo, hi r3.Vec) {
	lo, hi = r3.Vec{X: math.Inf(1), Y: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, line := range lines {
		for _, p := range line {
			lo.X, lo.Y, hi.X, hi.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y), math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
		}
	}
	return lo, hi
}

// width is an orifice's extent along the line, mm.
func width(o valve.Orifice) float64 {
	lo, hi := bounds(o.Outline)
	return hi.X - lo.X
}

package raster

import (
	"image/color"
	"math"

	"annuloscope/scenes/present/draw"
)

// bounds returns the box of points in pixels, grown by pad; ok is false if a coordinate is not finite.
func bounds(pts []draw.Point, scale, pad float64) (x0, y0, x1, y1 float64, ok bool) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range pts {
		x, y := q.X*scale, q.Y*scale
		if !(math.Abs(x) < 1e9 && math.Abs(y) < 1e9) {
			return 0, 0, 0, 0, false
		}
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
	}
	return x0 - pad, y0 - pad, x1 + pad, y1 + pad, true
}

// polygon fills a polygon by non-zero winding.
func (p *Painter) polygon(pts []draw.Point, c draw.Color, scale float64) {
	if len(pts) < 3 || c.A == 0 {
		return
	}
	if axisRect(pts) {
		p.rect(pts[0].X*scale, pts[0].Y*scale, pts[2].X*scale, pts[2].Y*scale, premultiply(c))
		return
	}
	x0, y0, x1, y1, ok := bounds(pts, scale, 0)
	box := p.clipped(x0, y0, x1, y1)
	if !ok || box.Empty() {
		return
	}
	p.fill.begin(box)
	last := pts[len(pts)-1]
	for _, q := range pts {
		p.fill.line(last.X*scale, last.Y*scale, q.X*scale, q.Y*scale)
		last = q
	}
	p.outline(premultiply(c))
}

// axisRect tells whether four points are an axis-aligned rectangle.
func axisRect(q []draw.Point) bool {
	if len(q) != 4 {
		return false
	}
	return q[0].Y == q[1].Y && q[1].X == q[2].X && q[2].Y == q[3].Y && q[3].X == q[0].X ||
		q[0].X == q[1].X && q[1].Y == q[2].Y && q[2].X == q[3].X && q[3].Y == q[0].Y
}

// stroke strokes a polyline: flat ends, round joins.
func (p *Painter) stroke(op *draw.Op, scale float64) {
	pts, half := op.Points, op.Width*scale/2
	if len(pts) < 2 || op.Color.A == 0 || !(half > 0) {
		return
	}
	x0, y0, x1, y1, ok := bounds(pts, scale, half)
	box := p.clipped(x0, y0, x1, y1)
	if !ok || box.Empty() {
		return
	}
	c := premultiply(op.Color)
	if op.Dash[0] > 0 && op.Dash[1] > 0 {
		p.fill.begin(box)
		p.dashes(op, scale, half)
		p.outline(c)
		return
	}
	if len(pts) == 2 && !op.Closed && (pts[0].X == pts[1].X || pts[0].Y == pts[1].Y) {
		dx, dy := half, 0.0
		if pts[0].Y == pts[1].Y {
			dx, dy = 0, half
		}
		p.rect(min(pts[0].X, pts[1].X)*scale-dx, min(pts[0].Y, pts[1].Y)*scale-dy,
			max(pts[0].X, pts[1].X)*scale+dx, max(pts[0].Y, pts[1].Y)*scale+dy, c)
		return
	}
	if op.Closed && axisRect(pts) && half <= 1.5 {
		p.frameRect(pts[0], pts[2], scale, half, c)
		return
	}
	p.fill.begin(box)
	p.trace(pts, op.Closed, scale, half)
	p.outline(c)
}

// frameRect strokes an axis-aligned rectangle with a thin line, whose corners are left square (at most 3 px wide,
// where a round corner lacks less than half a pixel). The four sides do not overlap.
func (p *Painter) frameRect(a, b draw.Point, scale, half float64, c color.RGBA) {
	x0, x1 := min(a.X, b.X)*scale, max(a.X, b.X)*scale
	y0, y1 := min(a.Y, b.Y)*scale, max(a.Y, b.Y)*scale
	if x1-x0 <= 2*half || y1-y0 <= 2*half {
		p.rect(x0-half, y0-half, x1+half, y1+half, c)
		return
	}
	p.rect(x0-half, y0-half, x1+half, y0+half, c)
	p.rect(x0-half, y1-half, x1+half, y1+half, c)
	p.rect(x0-half, y0+half, x0+half, y1-half, c)
	p.rect(x1-half, y0+half, x1+half, y1-half, c)
}

// piece is one straight part of a stroke: its ends in pixels, its normal times half the width, and its length.
type piece struct{ ax, ay, bx, by, nx, ny, length float64 }

// trace adds the outline of a solid stroke, piece by piece. Where the line bends gently two pieces share their corners;
// elsewhere a wedge is added on the outer side. All outlines turn the same way, so inner edges cancel and overlaps
// count once after cutting off at full cover.
func (p *Painter) trace(pts []draw.Point, closed bool, scale, half float64) {
	p.pieces = p.pieces[:0]
	n := len(pts)
	last := n
	if closed {
		last = n + 1
	}
	prev := pts[0]
	for i := 1; i < last; i++ {
		q := pts[i%n]
		dx, dy := (q.X-prev.X)*scale, (q.Y-prev.Y)*scale
		if l := math.Hypot(dx, dy); l > 1e-6 {
			p.pieces = append(p.pieces, piece{prev.X * scale, prev.Y * scale, q.X * scale, q.Y * scale, -dy / l * half, dx / l * half, l})
			prev = q
		}
	}
	k := len(p.pieces)
	if k == 0 {
		return
	}
	closed = closed && k > 2
	first := &p.pieces[0]
	sx, sy := first.nx, first.ny // where the piece's left corner starts, from its end point
	if closed {
		if x, y, gentle := shared(&p.pieces[k-1], first, half); gentle {
			sx, sy = x, y
		}
	}
	for i := range p.pieces {
		c := &p.pieces[i]
		ex, ey, nsx, nsy := c.nx, c.ny, 0.0, 0.0
		if i+1 < k || closed {
			d := &p.pieces[(i+1)%k]
			x, y, gentle := shared(c, d, half)
			if gentle {
				ex, ey, nsx, nsy = x, y, x, y
			} else {
				p.join(c.bx, c.by, c.nx, c.ny, d.nx, d.ny, half)
				nsx, nsy = d.nx, d.ny
			}
		}
		p.quad(c, sx, sy, ex, ey)
		sx, sy = nsx, nsy
	}
}

// shared returns the corner that two pieces share, from their common point, if the line bends gently enough there.
func shared(c, d *piece, half float64) (x, y float64, gentle bool) {
	h2 := half * half
	cos := (c.nx*d.nx + c.ny*d.ny) / h2
	if cos < gentleBend || h2*(1-cos) > min(c.length, d.length)*min(c.length, d.length) {
		return 0, 0, false
	}
	k := 1 / (1 + cos)
	return (c.nx + d.nx) * k, (c.ny + d.ny) * k, true
}

func (p *Painter) quad(c *piece, sx, sy, ex, ey float64) {
	f := &p.fill
	f.line(c.ax+sx, c.ay+sy, c.bx+ex, c.by+ey)
	f.line(c.bx+ex, c.by+ey, c.bx-ex, c.by-ey)
	f.line(c.bx-ex, c.by-ey, c.ax-sx, c.ay-sy)
	f.line(c.ax-sx, c.ay-sy, c.ax+sx, c.ay+sy)
}

// join adds the wedge between two segments' normals on the outer side of a corner.
func (p *Painter) join(x, y, ax, ay, bx, by, half float64) {
	cross, dot := ax*by-ay*bx, ax*bx+ay*by
	turn := math.Atan2(cross, dot)
	if math.Abs(turn) < 1e-3 {
		return
	}
	// The outer side is to the left of a right turn: on screen y runs down, so the sign only picks the side.
	if turn > 0 {
		ax, ay, bx, by = -bx, -by, -ax, -ay
		turn = -turn
	}
	steps := int(math.Ceil(-turn * math.Sqrt(max(half, 1)) / joinStep))
	sin, cos := math.Sincos(turn / float64(steps))
	f := &p.fill
	f.line(x, y, x+ax, y+ay)
	for i := 1; i <= steps; i++ {
		cx, cy := ax*cos-ay*sin, ax*sin+ay*cos
		if i == steps {
			cx, cy = bx, by
		}
		f.line(x+ax, y+ay, x+cx, y+cy)
		ax, ay = cx, cy
	}
	f.line(x+bx, y+by, x, y)
}

// dashes cuts the polyline by its dash pattern and adds each piece.
func (p *Painter) dashes(op *draw.Op, scale, half float64) {
	on, off := op.Dash[0], op.Dash[1]
	pts, n := op.Points, len(op.Points)
	last := n
	if op.Closed {
		last = n + 1
	}
	left, drawing := on, true
	p.dash = append(p.dash[:0], pts[0])
	for i := 1; i < last; i++ {
		a, b := pts[i-1], pts[i%n]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		if l/(on+off) > 1e5 { // a pattern finer than anything visible
			p.trace(pts, op.Closed, scale, half)
			return
		}
		at := 0.0
		for l-at > left {
			at += left
			q := draw.Point{X: a.X + (b.X-a.X)*at/l, Y: a.Y + (b.Y-a.Y)*at/l}
			if drawing {
				p.dash = append(p.dash, q)
				p.trace(p.dash, false, scale, half)
				left = off
			} else {
				left = on
			}
			drawing = !drawing
			p.dash = append(p.dash[:0], q)
		}
		left -= l - at
		if drawing {
			p.dash = append(p.dash, b)
		}
	}
	if drawing && len(p.dash) > 1 {
		p.trace(p.dash, false, scale, half)
	}
}

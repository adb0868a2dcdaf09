package raster

import (
	"math"

	"annuloscope/scenes/present/draw"

	"gonum.org/v1/gonum/spatial/r3"
)

// node is a point of a curve on the picture: samples, and depth in mm.
type node struct{ x, y, z float64 }

// segment is one straight piece of a curve.
type segment struct{ a, b node }

// curve is a run of segments with one look.
type curve struct {
	from, to    int
	half        float64 // samples
	bias        float32 // mm
	over        bool
	color       uint32 // straight, alpha in the high byte
	top, bottom int
}

// curve adds one polyline, cut by its dashes.
func (s *solid) curve(c *draw.Curve, v *view, scale float64) {
	if len(c.Points) < 2 || c.Color.A == 0 || !(c.Width > 0) {
		return
	}
	k := curve{from: len(s.segments), half: c.Width * scale / 2, over: c.Over,
		color: uint32(c.Color.R) | uint32(c.Color.G)<<8 | uint32(c.Color.B)<<16 | uint32(c.Color.A)<<24}
	k.bias = float32(curveBias + k.half/v.scale)
	s.path = s.path[:0]
	for _, q := range c.Points {
		s.path = append(s.path, at(v, q))
	}
	if c.Closed {
		s.path = append(s.path, s.path[0])
	}
	s.cut(c.Dash[0]*scale, c.Dash[1]*scale, k.half)
	k.to = len(s.segments)
	top, bottom := math.Inf(1), math.Inf(-1)
	for _, g := range s.segments[k.from:k.to] {
		top, bottom = min(top, g.a.y, g.b.y), max(bottom, g.a.y, g.b.y)
	}
	if k.from == k.to || !(bottom+k.half+1 > 0 && top-k.half-1 < float64(s.h)) {
		return
	}
	k.top, k.bottom = int(max(top-k.half-1, 0)), int(min(bottom+k.half+1, float64(s.h)))
	s.curves = append(s.curves, k)
}

func at(v *view, q r3.Vec) node {
	x, y, z := v.project(q)
	return node{x, y, z}
}

// cut turns the path into segments; on and off are samples along the picture. Ends are round, so a dash is shortened
// by its half width at both ends where it is long enough.
func (s *solid) cut(on, off, half float64) {
	solid := !(on > 0 && off > 0)
	if on > 2*half+1 {
		on, off = on-2*half, off+2*half
	}
	left, drawing := on, true
	for i := 1; i < len(s.path); i++ {
		a, b := s.path[i-1], s.path[i]
		l := math.Hypot(b.x-a.x, b.y-a.y)
		if !(l < 1<<20 && math.Abs(a.x) < 1<<20 && math.Abs(a.y) < 1<<20) {
			continue
		}
		if solid || l > 1e4*(on+off) {
			s.segments = append(s.segments, segment{a, b})
			continue
		}
		at := 0.0
		for at < l {
			step := min(left, l-at)
			if drawing {
				s.segments = append(s.segments, segment{mix(a, b, at/l), mix(a, b, (at+step)/l)})
			}
			at, left = at+step, left-step
			if left <= 0 {
				drawing = !drawing
				left = off
				if drawing {
					left = on
				}
			}
		}
	}
}

func mix(a, b node, t float64) node {
	return node{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t, a.z + (b.z-a.z)*t}
}

// curve paints one curve: first its cover where it is not hidden, the most of all its segments, then its colour.
func (b *band) curve(s *solid, k *curve) {
	y0, y1 := max(k.top, b.y0), min(k.bottom+1, b.y1)
	if y0 >= y1 {
		return
	}
	for y := y0; y < y1; y++ {
		b.lo[y-b.y0], b.hi[y-b.y0] = int32(b.w), 0
	}
	for i := k.from; i < k.to; i++ {
		b.segment(&s.segments[i], k)
	}
	for y := y0; y < y1; y++ {
		row := y - b.y0
		lo, hi := int(b.lo[row]), int(b.hi[row])
		if lo >= hi {
			continue
		}
		cover, col := b.cover[row*b.w+lo:row*b.w+hi], b.col[row*b.w+lo:row*b.w+hi]
		for i, m := range cover {
			if m != 0 {
				col[i] = glaze(col[i], k.color, div255(k.color>>24*uint32(m)))
			}
		}
		clear(cover)
	}
}

// segment adds the cover of a capsule round one straight piece.
func (b *band) segment(g *segment, k *curve) {
	reach := k.half + 0.5
	dx, dy := g.b.x-g.a.x, g.b.y-g.a.y
	l2 := dx*dx + dy*dy
	inv := 0.0
	if l2 > 0 {
		inv = 1 / l2
	}
	y0 := int(max(math.Ceil(min(g.a.y, g.b.y)-reach-0.5), float64(b.y0)))
	y1 := int(min(math.Floor(max(g.a.y, g.b.y)+reach-0.5)+1, float64(b.y1)))
	left, right := min(g.a.x, g.b.x)-reach, max(g.a.x, g.b.x)+reach
	// The capsule lies in the strip round its line; on a row the strip reaches this far on both sides of the line.
	wide, steep := 0.0, math.Abs(dy) > 1e-3
	if steep {
		wide = reach*math.Sqrt(l2)/math.Abs(dy) + 1
	}
	for y := y0; y < y1; y++ {
		py := float64(y) + 0.5 - g.a.y
		xa, xb := left, right
		if steep {
			m := g.a.x + dx*py/dy
			xa, xb = max(left, m-wide), min(right, m+wide)
		}
		x0, x1 := int(max(math.Ceil(xa-0.5), 0)), int(min(math.Floor(xb-0.5)+1, float64(b.w)))
		if x0 >= x1 {
			continue
		}
		row := (y - b.y0) * b.w
		for x := x0; x < x1; x++ {
			px := float64(x) + 0.5 - g.a.x
			t := (px*dx + py*dy) * inv
			if t < 0 {
				t = 0
			} else if t > 1 {
				t = 1
			}
			ex, ey := px-t*dx, py-t*dy
			d2 := ex*ex + ey*ey
			if d2 >= reach*reach {
				continue
			}
			z := float32(g.a.z+(g.b.z-g.a.z)*t) + k.bias
			if !k.over && z < b.z[row+x] {
				continue
			}
			m := reach - math.Sqrt(d2)
			if m > 1 {
				m = 1
			}
			if c := uint8(m*255 + 0.5); c > b.cover[row+x] {
				b.cover[row+x] = c
			}
			if m >= 0.5 && !k.over && k.color>>24 == 255 {
				b.z[row+x] = z
			}
		}
		r := y - b.y0
		b.touch(r, x0, x1)
		b.lo[r], b.hi[r] = min(b.lo[r], int32(x0)), max(b.hi[r], int32(x1))
	}
}

package raster

import (
	"image"
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/font"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// glyphKey names one cached mask: a glyph at a size (1/64 px) starting at a part of a pixel.
type glyphKey struct {
	size   int32
	index  uint16
	source uint8
	sub    uint8
}

// mask is a glyph's cover; left and top are pixels from the whole pixel of the pen and the baseline.
type mask struct {
	at        int
	w, h      int16
	left, top int16
}

type glyphCache struct {
	masks  map[glyphKey]mask
	cover  []uint8
	buf    sfnt.Buffer
	fill   filler
	row    []uint8
	points []float64
}

// text paints one line of text.
func (p *Painter) text(op *draw.Op, scale float64) {
	px := op.Size * scale
	x, y := op.Points[0].X*scale, op.Points[0].Y*scale
	if !(px >= 1 && px < 4096 && math.Abs(x) < 1e6 && math.Abs(y) < 1e6) || op.Color.A == 0 {
		return
	}
	base := int(math.Round(y))
	if base+int(px*1.5) < p.clip.Min.Y || base-int(px*1.5) > p.clip.Max.Y {
		return
	}
	switch op.Anchor {
	case draw.Middle:
		x -= font.Width(op.Text, px, op.Bold) / 2
	case draw.End:
		x -= font.Width(op.Text, px, op.Bold)
	}
	c := pack(premultiply(op.Color))
	size := int32(math.Round(px * 64))
	it := font.Walk(op.Text, op.Bold)
	for it.Next() {
		g, start := it.Glyph()
		at := int(math.Floor((x+start*px)*subpixels + 0.5))
		whole := at >> 2
		m := p.glyphs.get(glyphKey{size, g.Index, g.Source, uint8(at & (subpixels - 1))})
		p.blit(m, whole, base, c)
	}
}

// blit blends a mask, cut to the clip.
func (p *Painter) blit(m mask, x, y int, c uint32) {
	r := image.Rect(x+int(m.left), y+int(m.top), x+int(m.left)+int(m.w), y+int(m.top)+int(m.h))
	v := r.Intersect(p.clip)
	if v.Empty() {
		return
	}
	w := int(m.w)
	for row := v.Min.Y; row < v.Max.Y; row++ {
		for _, run := range p.patch.row(row) {
			x0, x1 := max(v.Min.X, run.from), min(v.Max.X, run.to)
			if x0 >= x1 {
				continue
			}
			from := m.at + (row-r.Min.Y)*w - r.Min.X
			cover := p.glyphs.cover[from+x0 : from+x1]
			at := p.img.PixOffset(x0, row)
			pix := p.img.Pix[at : at+4*len(cover)]
			for i, a := range cover {
				if a != 0 {
					over(pix[4*i:4*i+4], c, uint32(a))
				}
			}
		}
	}
}

// get returns the mask of a glyph, made at the first use.
func (g *glyphCache) get(k glyphKey) mask {
	if m, ok := g.masks[k]; ok {
		return m
	}
	if g.masks == nil || len(g.cover) > glyphBytes {
		g.masks, g.cover = map[glyphKey]mask{}, g.cover[:0]
	}
	m := g.make(k)
	g.masks[k] = m
	return m
}

// make paints the outline of a glyph into a new mask. A glyph without outline (a space) has an empty one.
func (g *glyphCache) make(k glyphKey) mask {
	segments, err := font.Source(int(k.source)).LoadGlyph(&g.buf, sfnt.GlyphIndex(k.index), fixed.Int26_6(k.size), nil)
	if err != nil || len(segments) == 0 {
		return mask{}
	}
	g.flatten(segments, float64(k.sub)/subpixels)
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := 0; i < len(g.points); i += 4 {
		a := g.points[i : i+4]
		x0, x1 = min(x0, a[0], a[2]), max(x1, a[0], a[2])
		y0, y1 = min(y0, a[1], a[3]), max(y1, a[1], a[3])
	}
	box := image.Rect(int(math.Floor(x0)), int(math.Floor(y0)), int(math.Ceil(x1)), int(math.Ceil(y1)))
	if box.Empty() {
		return mask{}
	}
	m := mask{at: len(g.cover), w: int16(box.Dx()), h: int16(box.Dy()), left: int16(box.Min.X), top: int16(box.Min.Y)}
	g.cover = append(g.cover, make([]uint8, box.Dx()*box.Dy())...)
	if box.Dx()+2 > len(g.row) {
		g.row = make([]uint8, box.Dx()+2)
	}
	g.fill.begin(box)
	for i := 0; i < len(g.points); i += 4 {
		g.fill.line(g.points[i], g.points[i+1], g.points[i+2], g.points[i+3])
	}
	place := func(y, x int) []uint8 { return g.cover[m.at+(y-box.Min.Y)*box.Dx()+x-box.Min.X:] }
	g.fill.sweep(g.row, func(y, x int, cover []uint8) { copy(place(y, x), cover) }, func(y, x, n int, cover uint8) {
		for i := range place(y, x)[:n] {
			place(y, x)[i] = cover
		}
	})
	return m
}

// flatten turns an outline into straight pieces (x0, y0, x1, y1 each), moved right by dx pixels.
func (g *glyphCache) flatten(segments sfnt.Segments, dx float64) {
	g.points = g.points[:0]
	var x, y, fx, fy float64
	to := func(nx, ny float64) {
		g.points = append(g.points, x, y, nx, ny)
		x, y = nx, ny
	}
	xy := func(q fixed.Point26_6) (float64, float64) { return float64(q.X)/64 + dx, float64(q.Y) / 64 }
	for i := range segments {
		s := &segments[i]
		ax, ay := xy(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			to(fx, fy)
			x, y, fx, fy = ax, ay, ax, ay
		case sfnt.SegmentOpLineTo:
			to(ax, ay)
		case sfnt.SegmentOpQuadTo:
			bx, by := xy(s.Args[1])
			x0, y0 := x, y
			// The curve leaves its chord by a quarter of this; pieces are cut so that 0.05 px remain.
			n := 1 + int(math.Sqrt(math.Hypot(x0-2*ax+bx, y0-2*ay+by)*5))
			for j := 1; j <= n; j++ {
				t := float64(j) / float64(n)
				u := 1 - t
				to(u*u*x0+2*u*t*ax+t*t*bx, u*u*y0+2*u*t*ay+t*t*by)
			}
		case sfnt.SegmentOpCubeTo:
			bx, by := xy(s.Args[1])
			cx, cy := xy(s.Args[2])
			x0, y0 := x, y
			const n = 12
			for j := 1; j <= n; j++ {
				t := float64(j) / n
				u := 1 - t
				to(u*u*u*x0+3*u*u*t*ax+3*u*t*t*bx+t*t*t*cx, u*u*u*y0+3*u*u*t*ay+3*u*t*t*by+t*t*t*cy)
			}
		}
	}
	to(fx, fy)
}

package raster

import (
	"hash/maphash"
	"image"
	"math"
	"math/bits"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/font"
)

// tile is the side of the squares that are painted again or left, pixels. Chosen: small beside a card, and a full screen
// has some 2000 of them.
const tile = 32

// run is a stretch of columns, in pixels.
type run struct{ from, to int }

// patch finds out where a list differs from the one painted last: each square of the picture has a number that depends
// on every operation that reaches it, in their order. A square with the same number has the same pixels.
type patch struct {
	seed       maphash.Seed
	known      bool // last belongs to the picture
	w, h       int
	cols, rows int
	now, last  []uint64
	runs       []run // to be painted, for each row of squares from left to right
	first      []int // index of the first run of each row of squares
	fresh      []image.Rectangle
}

// plan compares the list with the last one, or takes everything where there is nothing to compare with.
func (p *Painter) plan(l *draw.List, scale float64) {
	t := &p.patch
	w, h := p.img.Rect.Dx(), p.img.Rect.Dy()
	if t.cols == 0 {
		t.seed = maphash.MakeSeed()
	}
	if t.w != w || t.h != h {
		t.w, t.h, t.cols, t.rows, t.known = w, h, (w+tile-1)/tile, (h+tile-1)/tile, false
		t.now, t.last = make([]uint64, t.cols*t.rows), make([]uint64, t.cols*t.rows)
	}
	t.runs, t.first, t.fresh = t.runs[:0], t.first[:0], t.fresh[:0]
	if !p.Partial {
		t.known = false
		t.everything()
		return
	}
	p.number(l, scale)
	if !t.known {
		t.everything()
	} else {
		t.compare()
	}
	t.now, t.last, t.known = t.last, t.now, true
}

func (t *patch) everything() {
	for range t.rows {
		t.first = append(t.first, len(t.runs))
		t.runs = append(t.runs, run{0, t.w})
	}
	t.first = append(t.first, len(t.runs))
	t.fresh = append(t.fresh, image.Rect(0, 0, t.w, t.h))
}

// compare lists the runs of squares that differ, and the rectangles they make.
func (t *patch) compare() {
	for row := range t.rows {
		t.first = append(t.first, len(t.runs))
		now, last := t.now[row*t.cols:(row+1)*t.cols], t.last[row*t.cols:(row+1)*t.cols]
		for c := 0; c < t.cols; c++ {
			if now[c] == last[c] {
				continue
			}
			from := c
			for c++; c < t.cols && now[c] != last[c]; c++ {
			}
			r := run{from * tile, min(c*tile, t.w)}
			t.runs = append(t.runs, r)
			t.include(image.Rect(r.from, row*tile, r.to, min((row+1)*tile, t.h)))
		}
	}
	t.first = append(t.first, len(t.runs))
}

// include adds a rectangle to those changed, or lengthens the one above it of the same width.
func (t *patch) include(r image.Rectangle) {
	for i := range t.fresh {
		if f := &t.fresh[i]; f.Min.X == r.Min.X && f.Max.X == r.Max.X && f.Max.Y == r.Min.Y {
			f.Max.Y = r.Max.Y
			return
		}
	}
	t.fresh = append(t.fresh, r)
}

// whole tells whether all of the picture is to be painted.
func (t *patch) whole() bool { return len(t.fresh) == 1 && t.fresh[0] == image.Rect(0, 0, t.w, t.h) }

// row returns what is to be painted of a row of pixels.
func (t *patch) row(y int) []run {
	k := y / tile
	return t.runs[t.first[k]:t.first[k+1]]
}

// touches tells whether any of a box is to be painted.
func (t *patch) touches(b image.Rectangle) bool {
	if b.Empty() {
		return false
	}
	for k := b.Min.Y / tile; k <= (b.Max.Y-1)/tile; k++ {
		for _, r := range t.runs[t.first[k]:t.first[k+1]] {
			if r.from < b.Max.X && r.to > b.Min.X {
				return true
			}
		}
	}
	return false
}

// Fresh returns the rectangles of the picture that the last Paint may have changed: all of it unless Partial is set,
// none when the list was the one before. The slice is valid until the next Paint.
func (p *Painter) Fresh() []image.Rectangle { return p.patch.fresh }

// number gives every square its number.
func (p *Painter) number(l *draw.List, scale float64) {
	t := &p.patch
	begin := fold(uint64(pack(premultiply(l.Background))), math.Float64bits(scale))
	for i := range t.now {
		t.now[i] = begin
	}
	p.clips, p.clip = p.clips[:0], p.img.Rect
	for i := range l.Ops {
		op := &l.Ops[i]
		if p.clipping(op, scale) {
			continue
		}
		box := p.reach(op, scale)
		if box.Empty() {
			continue
		}
		h := p.sum(op, scale)
		for row := box.Min.Y / tile; row <= (box.Max.Y-1)/tile; row++ {
			line := t.now[row*t.cols:][box.Min.X/tile : (box.Max.X-1)/tile+1]
			for c := range line {
				line[c] = fold(line[c], h)
			}
		}
	}
}

// fold mixes two numbers into one, in their order.
func fold(a, b uint64) uint64 {
	hi, lo := bits.Mul64(a^0x9E3779B97F4A7C15, b|1)
	return hi ^ lo ^ bits.RotateLeft64(b, 29)
}

// sum is a number that depends on all that an operation paints with, and on the clip in force.
func (p *Painter) sum(op *draw.Op, scale float64) uint64 {
	f := func(h uint64, v float64) uint64 { return fold(h, math.Float64bits(v)) }
	h := fold(uint64(op.Kind)<<8|uint64(op.Anchor)<<16|truth(op.Closed)<<24|truth(op.Bold)<<25, uint64(pack(premultiply(op.Color))))
	h = fold(h, uint64(uint32(p.clip.Min.X))<<32|uint64(uint32(p.clip.Min.Y)))
	h = fold(h, uint64(uint32(p.clip.Max.X))<<32|uint64(uint32(p.clip.Max.Y)))
	for _, q := range op.Points {
		h = f(f(h, q.X), q.Y)
	}
	switch op.Kind {
	case draw.KindStroke:
		h = f(f(f(h, op.Width), op.Dash[0]), op.Dash[1])
	case draw.KindText:
		h = fold(f(h, op.Size), maphash.String(p.patch.seed, op.Text))
	case draw.KindScene:
		key, quality := p.sceneKey(op, scale), p.Quality
		if e := p.scenes.find(key, quality); e != nil {
			quality, e.used = e.quality, p.frame
		}
		h = fold(fold(h, maphash.Comparable(p.patch.seed, key)), uint64(quality-Rough))
	}
	return h
}

func truth(b bool) uint64 {
	if b {
		return 1
	}
	return 0
}

// reach is a box of pixels within the clip outside which an operation paints nothing.
func (p *Painter) reach(op *draw.Op, scale float64) image.Rectangle {
	switch op.Kind {
	case draw.KindText:
		if len(op.Points) == 0 {
			return image.Rectangle{}
		}
		px := op.Size * scale
		x, y, w := op.Points[0].X*scale, op.Points[0].Y*scale, font.Width(op.Text, px, op.Bold)
		switch op.Anchor {
		case draw.Middle:
			x -= w / 2
		case draw.End:
			x -= w
		}
		return p.clipped(x-px/2-1, y-1.5*px-1, x+w+px/2+1, y+1.5*px+1) // as far as text is looked for at the clip's edges
	case draw.KindScene:
		if op.Scene == nil {
			return image.Rectangle{}
		}
		return pixels(op.Rect, scale).Intersect(p.clip)
	}
	pad := 0.0
	if op.Kind == draw.KindStroke {
		pad = 1.1*op.Width*scale/2 + 1 // gently bent lines reach a little over half their width
	}
	x0, y0, x1, y1, ok := bounds(op.Points, scale, pad)
	if !ok {
		return image.Rectangle{}
	}
	return p.clipped(x0, y0, x1, y1)
}

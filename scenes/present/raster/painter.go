package raster

import (
	"image"
	"image/color"
	"math"

	"annuloscope/scenes/present/draw"
)

// Quality says how fine a three-dimensional scene is painted.
type Quality int8

// The qualities, from coarse to fine.
const (
	Rough  Quality = iota - 1 // one sample for four pixels: while something moves and the machine is slow
	Moving                    // one sample a pixel: while something moves
	Still                     // four samples a pixel: at rest, and for figures
)

// samples returns how many samples a scene has along one pixel.
func (q Quality) samples() float64 {
	switch {
	case q < Moving:
		return 0.5
	case q > Moving:
		return 2
	}
	return 1
}

// Painter paints display lists into pixels. The zero value is ready and works on one thread.
type Painter struct {
	Quality Quality
	// Partial paints only where the list differs from the last one; the rest of the picture, which nobody else may have
	// changed, is kept. The picture is the same to the last bit.
	Partial bool

	img    image.RGBA
	clips  []image.Rectangle
	clip   image.Rectangle
	fill   filler
	row    []uint8
	dash   []draw.Point
	pieces []piece

	glyphs glyphCache
	scenes sceneCache
	solid  solid
	pool   *pool
	frame  uint64
	patch  patch
}

// New returns a Painter that paints scenes on the given number of threads (below 2: no goroutines). Call Close when
// done with it.
func New(threads int) *Painter {
	p := &Painter{}
	if threads > 1 {
		p.pool = newPool(threads)
	}
	return p
}

// Close ends the Painter's goroutines. The Painter may still be used, on one thread.
func (p *Painter) Close() {
	if p.pool != nil {
		p.pool.close()
		p.pool = nil
	}
}

// Size returns the size in pixels of a list painted at a scale.
func Size(l *draw.List, scale float64) (w, h int) {
	return int(math.Round(l.Width * scale)), int(math.Round(l.Height * scale))
}

// Paint paints the list at scale pixels per logical pixel. The picture holds colours multiplied by their alpha and
// belongs to the Painter: it is overwritten by the next Paint. Coordinates that are not finite are left out.
// It panics if the scale or the size is not positive and finite.
func (p *Painter) Paint(l *draw.List, scale float64) *image.RGBA {
	w, h := Size(l, scale)
	if !(scale > 0) || w <= 0 || h <= 0 || w > 1<<15 || h > 1<<15 {
		panic("raster: size and scale must be positive, and no side longer than 32768 pixels")
	}
	p.frame++
	p.resize(w, h)
	p.plan(l, scale)
	p.clips, p.clip = p.clips[:0], p.img.Rect
	p.background(premultiply(l.Background))
	for i := range l.Ops {
		p.op(&l.Ops[i], scale)
	}
	p.scenes.trim(p.frame)
	return &p.img
}

func (p *Painter) resize(w, h int) {
	if n := 4 * w * h; n <= cap(p.img.Pix) {
		p.img.Pix = p.img.Pix[:n]
	} else {
		p.img.Pix = make([]uint8, n)
	}
	p.img.Stride, p.img.Rect = 4*w, image.Rect(0, 0, w, h)
	if w+2 > len(p.row) {
		p.row = make([]uint8, w+2)
	}
}

// background clears what is to be painted.
func (p *Painter) background(c color.RGBA) {
	if p.patch.whole() {
		clearTo(p.img.Pix, c)
		return
	}
	for y := range p.img.Rect.Dy() {
		for _, r := range p.patch.row(y) {
			at := p.img.PixOffset(r.from, y)
			clearTo(p.img.Pix[at:at+4*(r.to-r.from)], c)
		}
	}
}

// clipping does what an operation on the clip asks for; for every other it returns false.
func (p *Painter) clipping(op *draw.Op, scale float64) bool {
	switch op.Kind {
	case draw.KindPushClip:
		p.clips = append(p.clips, p.clip)
		p.clip = p.clip.Intersect(pixels(op.Rect, scale))
		return true
	case draw.KindPopClip:
		if n := len(p.clips); n > 0 {
			p.clip, p.clips = p.clips[n-1], p.clips[:n-1]
		}
		return true
	}
	return false
}

func (p *Painter) op(op *draw.Op, scale float64) {
	if p.clipping(op, scale) || p.clip.Empty() {
		return
	}
	// A scene is shown even where nothing of it changed, so that its picture is kept.
	if op.Kind != draw.KindScene && !p.patch.whole() && !p.patch.touches(p.reach(op, scale)) {
		return
	}
	switch op.Kind {
	case draw.KindFill:
		p.polygon(op.Points, op.Color, scale)
	case draw.KindStroke:
		p.stroke(op, scale)
	case draw.KindText:
		if len(op.Points) > 0 {
			p.text(op, scale)
		}
	case draw.KindScene:
		if op.Scene != nil {
			p.scene(op, scale)
		}
	}
}

// pixels returns the pixels whose middle lies in r.
func pixels(r draw.Rect, scale float64) image.Rectangle {
	at := func(v float64) int { return int(math.Round(math.Max(-1<<20, math.Min(1<<20, v*scale)))) }
	return image.Rectangle{Min: image.Pt(at(r.X), at(r.Y)), Max: image.Pt(at(r.X+r.W), at(r.Y+r.H))}.Canon()
}

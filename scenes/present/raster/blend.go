package raster

import (
	"encoding/binary"
	"image"
	"image/color"

	"annuloscope/scenes/present/draw"
)

// premultiply turns a colour with straight alpha into one multiplied by its alpha.
func premultiply(c draw.Color) color.RGBA {
	a := uint32(c.A)
	return color.RGBA{uint8(div255(uint32(c.R) * a)), uint8(div255(uint32(c.G) * a)), uint8(div255(uint32(c.B) * a)), c.A}
}

// div255 divides by 255 with rounding, exact for products of two bytes.
func div255(x uint32) uint32 {
	x += 128
	return (x + x>>8) >> 8
}

// clearTo sets every pixel of pix to c.
func clearTo(pix []uint8, c color.RGBA) {
	if len(pix) < 4 {
		return
	}
	pix[0], pix[1], pix[2], pix[3] = c.R, c.G, c.B, c.A
	// Copies double up to a piece that fits the first-level cache, which is then laid side by side.
	n := 4
	for ; n < len(pix) && n < 8192; n *= 2 {
		copy(pix[n:], pix[:n])
	}
	for at := n; at < len(pix); at += n {
		copy(pix[at:], pix[:n])
	}
}

// pack returns a colour as it lies in memory: red in the low byte, alpha in the high.
func pack(c color.RGBA) uint32 {
	return uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | uint32(c.A)<<24
}

// even selects every second byte, so that two channels are worked on at once; rounding2 is 128 in both, for rounding.
const (
	even      = 0x00FF00FF
	rounding2 = 0x00800080
)

// div255x2 divides two products of bytes by 255 with rounding. Sums of products up to 255·255 + 127 fit.
func div255x2(x uint32) uint32 {
	x += rounding2
	return (x + x>>8&even) >> 8 & even
}

// over blends c (multiplied by its alpha) with weight m of 255 over one pixel.
func over(d []uint8, c, m uint32) {
	keep := 255 - div255(c>>24*m)
	old := binary.LittleEndian.Uint32(d)
	binary.LittleEndian.PutUint32(d, div255x2(c&even*m+old&even*keep)|div255x2(c>>8&even*m+old>>8&even*keep)<<8)
}

// span blends c over a run of pixels of one row by their cover. Cover beyond the clip has been cut off before.
func (p *Painter) span(y, x int, cover []uint8, c color.RGBA) {
	packed := pack(c)
	for _, r := range p.patch.row(y) {
		from, to := max(x, r.from), min(x+len(cover), r.to)
		if from >= to {
			continue
		}
		at := p.img.PixOffset(from, y)
		pix := p.img.Pix[at : at+4*(to-from)]
		for i, m := range cover[from-x : to-x] {
			if m != 0 {
				over(pix[4*i:4*i+4], packed, uint32(m))
			}
		}
	}
}

// stretch blends c over n pixels of one row that all have the same cover.
func (p *Painter) stretch(y, x, n int, cover uint8, c color.RGBA) {
	if n <= 0 || cover == 0 {
		return
	}
	packed := pack(c)
	for _, r := range p.patch.row(y) {
		from, to := max(x, r.from), min(x+n, r.to)
		if from >= to {
			continue
		}
		at := p.img.PixOffset(from, y)
		pix := p.img.Pix[at : at+4*(to-from)]
		if cover == 255 && c.A == 255 {
			clearTo(pix, c)
			continue
		}
		for i := 0; i < len(pix); i += 4 {
			over(pix[i:i+4], packed, uint32(cover))
		}
	}
}

// rect fills an axis-aligned rectangle given in pixels, with exact cover at its edges.
func (p *Painter) rect(x0, y0, x1, y1 float64, c color.RGBA) {
	x0, x1 = max(min(x0, x1), float64(p.clip.Min.X)), min(max(x0, x1), float64(p.clip.Max.X))
	y0, y1 = max(min(y0, y1), float64(p.clip.Min.Y)), min(max(y0, y1), float64(p.clip.Max.Y))
	if !(x0 < x1 && y0 < y1) {
		return
	}
	left, right := int(x0), ceil(x1)
	first, last := min(x1, float64(left+1))-x0, x1-float64(right-1) // shares of the outer columns
	for y, end := int(y0), ceil(y1); y < end; y++ {
		high := min(y1, float64(y+1)) - max(y0, float64(y))
		full, begin, end := cover8(float32(high)), cover8(float32(high*first)), cover8(float32(high*last))
		from, to := left, right
		if begin != full || right == left+1 {
			p.stretch(y, left, 1, begin, c)
			from++
		}
		if end != full && to > from {
			to--
			p.stretch(y, to, 1, end, c)
		}
		p.stretch(y, from, to-from, full, c)
	}
}

func ceil(v float64) int {
	i := int(v)
	if float64(i) < v {
		i++
	}
	return i
}

// outline paints what the filler holds.
func (p *Painter) outline(c color.RGBA) {
	p.fill.sweep(p.row, func(y, x int, cover []uint8) { p.span(y, x, cover, c) },
		func(y, x, n int, cover uint8) { p.stretch(y, x, n, cover, c) })
}

// clipped returns the pixels within the clip that a box in pixels touches.
func (p *Painter) clipped(x0, y0, x1, y1 float64) image.Rectangle {
	b := p.clip
	x0, y0 = max(x0, float64(b.Min.X)), max(y0, float64(b.Min.Y))
	x1, y1 = min(x1, float64(b.Max.X)), min(y1, float64(b.Max.Y))
	if !(x0 < x1 && y0 < y1) {
		return image.Rectangle{}
	}
	return image.Rect(int(x0), int(y0), ceil(x1), ceil(y1))
}

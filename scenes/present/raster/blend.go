package raster

import (
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
	for n := 4; n < len(pix); n *= 2 {
		copy(pix[n:], pix[:n])
	}
}

// over blends c, covering m of 255, over one pixel.
func over(d []uint8, c color.RGBA, m uint32) {
	d = d[:4:4]
	if m == 255 && c.A == 255 {
		d[0], d[1], d[2], d[3] = c.R, c.G, c.B, 255
		return
	}
	keep := 255 - div255(uint32(c.A)*m)
	d[0] = uint8(div255(uint32(c.R)*m + uint32(d[0])*keep))
	d[1] = uint8(div255(uint32(c.G)*m + uint32(d[1])*keep))
	d[2] = uint8(div255(uint32(c.B)*m + uint32(d[2])*keep))
	d[3] = uint8(div255(uint32(c.A)*m + uint32(d[3])*keep))
}

// span blends c over a run of pixels of one row by their cover. Cover beyond the clip has been cut off before.
func (p *Painter) span(y, x int, cover []uint8, c color.RGBA) {
	at := p.img.PixOffset(x, y)
	pix := p.img.Pix[at : at+4*len(cover)]
	for i := 0; i < len(cover); {
		m := cover[i]
		if m == 0 {
			i++
			continue
		}
		if m == 255 && c.A == 255 {
			j := i + 1
			for j < len(cover) && cover[j] == 255 {
				j++
			}
			clearTo(pix[4*i:4*j], c)
			i = j
			continue
		}
		over(pix[4*i:], c, uint32(m))
		i++
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
	row := p.row[:right-left]
	for y, end := int(y0), ceil(y1); y < end; y++ {
		high := min(y1, float64(y+1)) - max(y0, float64(y))
		full := cover8(float32(high))
		if y == int(y0) || y == end-1 || y == int(y0)+1 {
			for i := range row {
				row[i] = full
			}
			row[0] = cover8(float32(high * (min(x1, float64(left+1)) - x0)))
			if n := len(row) - 1; n > 0 {
				row[n] = cover8(float32(high * (x1 - float64(right-1))))
			}
		}
		p.span(y, left, row, c)
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
	p.fill.sweep(p.row, func(y, x int, cover []uint8) { p.span(y, x, cover, c) })
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

package raster

import (
	"image"
	"math"
	"math/bits"
)

// filler sums the signed area that outlines cover in each pixel of a box, row by row.
//
// acc holds, for each row, the change of cover from one pixel to the next; a running sum along the row gives the
// cover. set has a bit for each pixel where it changes, so that the stretches between are filled without looking at
// their pixels. Everything is zero between uses.
type filler struct {
	acc    []float32
	set    []uint64
	box    image.Rectangle
	stride int // of acc
	words  int // of set, a row
}

// longRun is how many pixels of one cover are filled as one run. Chosen by measurement.
const longRun = 16

// begin prepares for outlines within box; what lies outside is cut off exactly.
func (f *filler) begin(box image.Rectangle) {
	f.box = box
	w, h := box.Dx(), box.Dy()
	f.stride, f.words = w+2, (w+2+63)/64
	if n := f.stride * h; n > len(f.acc) {
		f.acc = make([]float32, n)
	}
	if n := f.words * h; n > len(f.set) {
		f.set = make([]uint64, n)
	}
}

// line adds one edge of an outline, in pixels. Outlines must be closed.
func (f *filler) line(x0, y0, x1, y1 float64) {
	if y0 == y1 {
		return
	}
	ox, oy := float64(f.box.Min.X), float64(f.box.Min.Y)
	x0, y0, x1, y1 = x0-ox, y0-oy, x1-ox, y1-oy
	dir := float32(1)
	if y0 > y1 {
		x0, y0, x1, y1, dir = x1, y1, x0, y0, -1
	}
	h := float64(f.box.Dy())
	if y1 <= 0 || y0 >= h {
		return
	}
	slope := (x1 - x0) / (y1 - y0)
	if y0 < 0 {
		x0, y0 = x0-slope*y0, 0
	}
	if y1 > h {
		x1, y1 = x1+slope*(h-y1), h
	}
	w := float64(f.box.Dx())
	// Parts to the left count at the left edge, parts to the right at the right edge.
	switch {
	case x0 <= 0 && x1 <= 0:
		f.edge(0, y0, 0, y1, dir)
	case x0 >= w && x1 >= w:
		f.edge(w, y0, w, y1, dir)
	case x0 >= 0 && x1 >= 0 && x0 <= w && x1 <= w:
		f.edge(x0, y0, x1, y1, dir)
	default:
		f.split(x0, y0, x1, y1, w, dir)
	}
}

// split cuts an edge that runs through the left or right side into at most three.
func (f *filler) split(x0, y0, x1, y1, w float64, dir float32) {
	cut := func(at float64) float64 { return y0 + (y1-y0)*(at-x0)/(x1-x0) }
	clamp := func(x float64) float64 { return min(max(x, 0), w) }
	ya, yb := y0, y1
	if (x0 < 0) != (x1 < 0) {
		ya = cut(0)
	}
	if (x0 > w) != (x1 > w) {
		yb = cut(w)
	}
	if ya > yb {
		ya, yb = yb, ya
	}
	ya, yb = min(max(ya, y0), y1), min(max(yb, y0), y1)
	at := func(y float64) float64 { return clamp(x0 + (x1-x0)*(y-y0)/(y1-y0)) }
	f.edge(clamp(x0), y0, at(ya), ya, dir)
	f.edge(at(ya), ya, at(yb), yb, dir)
	f.edge(at(yb), yb, clamp(x1), y1, dir)
}

// edge adds a downward edge that lies within the box.
func (f *filler) edge(x0, y0, x1, y1 float64, dir float32) {
	if y1 <= y0 {
		return
	}
	slope := (x1 - x0) / (y1 - y0)
	x := x0
	for row := int(y0); ; row++ {
		top, bottom := max(y0, float64(row)), min(y1, float64(row+1))
		if top >= y1 || row >= f.box.Dy() {
			return
		}
		next := x1
		if bottom < y1 {
			next = x0 + slope*(bottom-y0)
		}
		f.cell(row, float32(x), float32(next), float32(bottom-top)*dir)
		x = next
	}
}

// cell adds a piece of edge within one row: from x at the top to next at the bottom, d high.
func (f *filler) cell(row int, x, next, d float32) {
	a, b := x, next
	if a > b {
		a, b = b, a
	}
	i := int32(a)
	j := int32(math.Ceil(float64(b)))
	line, set := f.acc[row*f.stride:(row+1)*f.stride], f.set[row*f.words:(row+1)*f.words]
	if j <= i+1 {
		m := d * (0.5*(a+b) - float32(i))
		line[i] += d - m
		line[i+1] += m
		set[i>>6] |= 1 << (i & 63)
		set[(i+1)>>6] |= 1 << ((i + 1) & 63)
	} else {
		// A flat edge over several pixels: the cover grows as the square in the first and last, linearly between.
		s := 1 / (b - a)
		fa := a - float32(i)
		fb := b - float32(j) + 1
		first := 0.5 * s * (1 - fa) * (1 - fa)
		last := 0.5 * s * fb * fb
		line[i] += d * first
		if j == i+2 {
			line[i+1] += d * (1 - first - last)
		} else {
			second := s * (1.5 - fa)
			line[i+1] += d * (second - first)
			for k := i + 2; k < j-1; k++ {
				line[k] += d * s
			}
			line[j-1] += d * (1 - (second + float32(j-i-3)*s) - last)
		}
		line[j] += d * last
		for k := i; k <= j; k++ {
			set[k>>6] |= 1 << (k & 63)
		}
	}
}

// sweep hands each covered stretch of each row over as cover from 1 to 255, starting at pixel x: to solid where many
// pixels have the same, else to paint, whose slice is valid only during the call. It clears the filler.
func (f *filler) sweep(row []uint8, paint func(y, x int, cover []uint8), solid func(y, x, n int, cover uint8)) {
	w, x0 := f.box.Dx(), f.box.Min.X
	for r := range f.box.Dy() {
		y, line := f.box.Min.Y+r, f.acc[r*f.stride:(r+1)*f.stride]
		sum, cover := float32(0), uint8(0)
		start, at := 0, 0 // row[start:at] waits to be painted; at is the next pixel
		for k, set := range f.set[r*f.words : (r+1)*f.words] {
			for ; set != 0; set &= set - 1 {
				i := k<<6 | bits.TrailingZeros64(set)
				if end := min(i, w); cover != 0 && end-at < longRun {
					for ; at < end; at++ {
						row[at] = cover
					}
				} else if end > at {
					if at > start {
						paint(y, x0+start, row[start:at])
					}
					if cover != 0 {
						solid(y, x0+at, end-at, cover)
					}
					start, at = end, end
				}
				sum += line[i]
				line[i] = 0
				cover = cover8(sum)
			}
		}
		if cover != 0 && at < w { // the last change itself
			row[at] = cover
			at++
		}
		if at > start {
			paint(y, x0+start, row[start:at])
		}
		clear(f.set[r*f.words : (r+1)*f.words])
	}
}

// cover8 turns a signed area into cover from 0 to 255; more than one turn counts as full.
func cover8(a float32) uint8 {
	if a < 0 {
		a = -a
	}
	if a >= 1 {
		return 255
	}
	return uint8(a*255 + 0.5)
}

package figure

import (
	"cmp"
	"image/color"
	"slices"
)

// histogram counts pixels by colour, five bits a channel.
type histogram struct{ count [1 << 15]uint32 }

// palette returns at most n colours by median cut: the box of colours that holds the widest spread of the most pixels
// is halved at its median until n boxes are there; each gives the mean of its pixels.
func (h *histogram) palette(n int) color.Palette {
	var cells []int
	for i, c := range h.count {
		if c > 0 {
			cells = append(cells, i)
		}
	}
	boxes := [][]int{cells}
	for len(boxes) < n {
		best, widest, channel := -1, 0.0, 0
		for i, b := range boxes {
			if len(b) < 2 {
				continue
			}
			c, spread := widestChannel(b)
			if v := float64(spread) * float64(min(h.pixels(b), 1<<20)); v > widest {
				best, widest, channel = i, v, c
			}
		}
		if best < 0 {
			break
		}
		b := boxes[best]
		slices.SortFunc(b, func(x, y int) int {
			return cmp.Or(cmp.Compare(x>>channel&31, y>>channel&31), cmp.Compare(x, y))
		})
		cut, sum, all := 1, uint64(h.count[b[0]]), h.pixels(b)
		for cut < len(b)-1 && 2*sum < all {
			sum += uint64(h.count[b[cut]])
			cut++
		}
		boxes[best] = b[:cut]
		boxes = append(boxes, b[cut:])
	}
	out := make(color.Palette, 0, len(boxes))
	for _, b := range boxes {
		out = append(out, h.mean(b))
	}
	return out
}

func (h *histogram) pixels(b []int) uint64 {
	sum := uint64(0)
	for _, i := range b {
		sum += uint64(h.count[i])
	}
	return sum
}

func (h *histogram) mean(b []int) color.Color {
	var r, g, bl, n uint64
	for _, i := range b {
		c, k := middle(i), uint64(h.count[i])
		r, g, bl, n = r+k*uint64(c.R), g+k*uint64(c.G), bl+k*uint64(c.B), n+k
	}
	return color.RGBA{uint8(r / n), uint8(g / n), uint8(bl / n), 255}
}

// widestChannel returns the shift of the channel along which the cells spread most, and that spread.
func widestChannel(b []int) (channel, spread int) {
	for _, c := range []int{10, 5, 0} {
		lo, hi := 31, 0
		for _, i := range b {
			lo, hi = min(lo, i>>c&31), max(hi, i>>c&31)
		}
		if hi-lo > spread {
			channel, spread = c, hi-lo
		}
	}
	return channel, spread
}

// matcher finds the closest colour of a palette for a cell, and remembers it.
type matcher struct {
	colours [][3]int
	known   [1 << 15]int16 // index + 1, zero where not yet looked for
}

func newMatcher(p color.Palette) *matcher {
	m := &matcher{colours: make([][3]int, len(p))}
	for i, c := range p {
		r, g, b, _ := c.RGBA()
		m.colours[i] = [3]int{int(r >> 8), int(g >> 8), int(b >> 8)}
	}
	return m
}

func (m *matcher) index(cell int) uint8 {
	if k := m.known[cell]; k > 0 {
		return uint8(k - 1)
	}
	at, best := middle(cell), 1<<30
	for k, c := range m.colours {
		dr, dg, db := int(at.R)-c[0], int(at.G)-c[1], int(at.B)-c[2]
		if d := dr*dr + dg*dg + db*db; d < best {
			best, m.known[cell] = d, int16(k+1)
		}
	}
	return uint8(m.known[cell] - 1)
}

package leaflet

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// scan measures what the leaflets leave uncovered as seen along z, on lines of constant x: exact along y, summed over x.
type scan struct {
	spans [][]span // per line
}

type span struct{ low, high float64 }

// uncovered is the area (mm²) inside the annulus, seen along z, that no leaflet covers; every leaflet counts as
// wider by `half` mm along y at both sides, half the thickness that counts as contact.
func (c *scan) uncovered(sh *sheet, ring int, half float64) float64 {
	low, high := sh.x[0].X, sh.x[0].X
	for _, p := range sh.x[:ring] {
		low, high = min(low, p.X), max(high, p.X)
	}
	n := int((high-low)/scanStep) + 1
	step := (high - low) / float64(n)
	c.spans = resize(c.spans, n)
	for i := range c.spans {
		c.spans[i] = c.spans[i][:0]
	}
	for _, t := range sh.tris {
		a, b, d := sh.x[t[0]], sh.x[t[1]], sh.x[t[2]]
		first := max(int((min(a.X, b.X, d.X)-low)/step-0.5), 0)
		last := min(int((max(a.X, b.X, d.X)-low)/step-0.5)+1, n-1)
		for i := first; i <= last; i++ {
			if s, ok := cut(low+(float64(i)+0.5)*step, a, b, d); ok {
				c.spans[i] = append(c.spans[i], span{s.low - half, s.high + half})
			}
		}
	}
	total := 0.0
	for i, line := range c.spans {
		edge, end := ringCut(sh.x[:ring], low+(float64(i)+0.5)*step)
		slices.SortFunc(line, func(a, b span) int {
			switch {
			case a.low < b.low:
				return -1
			case a.low > b.low:
				return 1
			}
			return 0
		})
		for _, s := range line {
			if edge >= end {
				break
			}
			total += max(0, min(s.low, end)-edge) * step
			edge = max(edge, s.high)
		}
		total += max(0, end-edge) * step
	}
	return total
}

// cut is where the line at x crosses the projected triangle.
func cut(x float64, a, b, c r3.Vec) (s span, ok bool) {
	s = span{1e300, -1e300}
	for _, e := range [3][2]r3.Vec{{a, b}, {b, c}, {c, a}} {
		if (e[0].X <= x) != (e[1].X <= x) {
			y := e[0].Y + (x-e[0].X)/(e[1].X-e[0].X)*(e[1].Y-e[0].Y)
			s.low, s.high = min(s.low, y), max(s.high, y)
		}
	}
	return s, s.low <= s.high
}

// ringCut is the y extent of the annulus at x.
func ringCut(ring []r3.Vec, x float64) (low, high float64) {
	low, high = 1e300, -1e300
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if (p.X <= x) != (q.X <= x) {
			y := p.Y + (x-p.X)/(q.X-p.X)*(q.Y-p.Y)
			low, high = min(low, y), max(high, y)
		}
	}
	return low, high
}

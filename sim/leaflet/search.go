package leaflet

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// pairList holds the candidate triangles of every vertex, one run after the other.
type pairList struct {
	start []int32
	tri   []int32
}

func (l *pairList) of(v int) []int32 {
	if len(l.start) == 0 {
		return nil
	}
	return l.tri[l.start[v]:l.start[v+1]]
}

// grid sorts triangles into cubes by their centroid.
type grid struct {
	low        r3.Vec
	size       float64
	nx, ny, nz int
	start      []int32
	item       []int32
	sorted     []ball // in the order of item
	cellOf     []int32
}

// fill sorts the balls into cubes of the given size by their middle.
func (g *grid) fill(balls []ball, size float64) {
	low := r3.Vec{X: balls[0].x, Y: balls[0].y, Z: balls[0].z}
	high := low
	for i := range balls {
		b := &balls[i]
		low = r3.Vec{X: min(low.X, b.x), Y: min(low.Y, b.y), Z: min(low.Z, b.z)}
		high = r3.Vec{X: max(high.X, b.x), Y: max(high.Y, b.y), Z: max(high.Z, b.z)}
	}
	span := r3.Sub(high, low)
	size = max(size, (span.X+span.Y+span.Z)/150) // bounds the memory when a state has run away
	g.low, g.size = low, size
	g.nx, g.ny, g.nz = int(span.X/size)+1, int(span.Y/size)+1, int(span.Z/size)+1
	cells := g.nx * g.ny * g.nz
	g.start = resize(g.start, cells+1)
	clear(g.start)
	g.cellOf = resize(g.cellOf, len(balls))
	g.item = resize(g.item, len(balls))
	g.sorted = resize(g.sorted, len(balls))
	for i := range balls {
		b := &balls[i]
		x, y, z := g.index(r3.Vec{X: b.x, Y: b.y, Z: b.z})
		c := int32((z*g.ny+y)*g.nx + x)
		g.cellOf[i] = c
		g.start[c+1]++
	}
	for c := range cells {
		g.start[c+1] += g.start[c]
	}
	for i := len(balls) - 1; i >= 0; i-- { // backwards: start[c+1] counts down to the first item of cell c
		c := g.cellOf[i]
		g.start[c+1]--
		at := g.start[c+1]
		g.item[at], g.sorted[at] = int32(i), balls[i]
	}
}

// run is where the items of the cells x0..x1 of one grid line stand.
func (g *grid) run(x0, x1, y, z int) (first, last int32) {
	c := (z*g.ny + y) * g.nx
	first = g.start[c+x0+1]
	last = int32(len(g.item))
	if c+x1+2 < len(g.start) {
		last = g.start[c+x1+2]
	}
	return first, last
}

func (g *grid) index(p r3.Vec) (x, y, z int) {
	return clampInt((p.X-g.low.X)/g.size, g.nx), clampInt((p.Y-g.low.Y)/g.size, g.ny), clampInt((p.Z-g.low.Z)/g.size, g.nz)
}

func clampInt(v float64, n int) int {
	if !(v > 0) {
		return 0
	}
	return min(int(v), n-1)
}

// collect finds the closest triangle of every vertex within wanted (mm), and lists those that may touch it before the
// vertices have moved by searchReserve. A vertex whose distance is surely above wanted keeps its lower bound.
func (c *contact) collect(s *sheet, wanted float64) {
	if c.radius > 0 {
		for v := range c.found {
			c.found[v] -= 2 * c.moved
		}
	}
	largest := c.facets(s)
	copy(c.from, s.x)
	c.moved = 0
	list := max(c.thickness+2*searchReserve, c.longest/2+searchReserve)
	c.listed = list
	wanted = max(wanted, list+2*searchReserve)
	g := &c.search
	g.fill(c.ball, max((list+largest)/2, 0.5))
	l := &c.pairs
	l.start = resize(l.start, len(s.x)+1)
	l.tri = l.tri[:0]
	words := len(c.never) / len(c.near)
	for v, x := range s.x {
		l.start[v] = int32(len(l.tri))
		h := &c.near[v]
		if c.radius > 0 && c.found[v] > wanted {
			h.d, c.exact[v] = c.found[v], false
			continue
		}
		never := c.never[v*words : (v+1)*words]
		best := wanted
		if h.tri >= 0 && never[h.tri/64]>>(uint(h.tri)%64)&1 == 0 {
			best = c.at(s, x, h.tri, best, h)
		}
		far := max(best, list) + largest
		x0, y0, z0 := g.index(r3.Vec{X: x.X - far, Y: x.Y - far, Z: x.Z - far})
		x1, y1, z1 := g.index(r3.Vec{X: x.X + far, Y: x.Y + far, Z: x.Z + far})
		lim := max(best, list)
		for z := z0; z <= z1; z++ {
			for y := y0; y <= y1; y++ {
				first, last := g.run(x0, x1, y, z)
				balls := g.sorted[first:last]
				for k := range balls {
					b := &balls[k]
					l2 := lim + b.r
					if b.from(x) >= l2*l2 {
						continue
					}
					t := g.item[int(first)+k]
					if never[t/64]>>(uint(t)%64)&1 != 0 {
						continue
					}
					near := c.facet[t].bound(x)
					if near < list {
						l.tri = append(l.tri, t)
					}
					if near < best && t != h.tri {
						best = c.at(s, x, t, best, h)
						lim = max(best, list)
					}
				}
			}
		}
		c.found[v], c.exact[v] = best, best < wanted
		h.d = best
		if best >= wanted {
			l.tri = l.tri[:l.start[v]]
		}
	}
	l.start[len(s.x)] = int32(len(l.tri))
	c.radius = wanted
}

// resize returns s with length n, keeping its memory when that is large enough.
func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/2)
	}
	return s[:n]
}

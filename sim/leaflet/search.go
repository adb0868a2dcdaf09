package leaflet

import (
	"math"

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
	cellOf     []int32
}

// fill sorts the points into cubes of the given size.
func (g *grid) fill(pts []r3.Vec, size float64) {
	low, high := pts[0], pts[0]
	for _, p := range pts {
		low = r3.Vec{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y), Z: math.Min(low.Z, p.Z)}
		high = r3.Vec{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y), Z: math.Max(high.Z, p.Z)}
	}
	span := r3.Sub(high, low)
	size = math.Max(size, (span.X+span.Y+span.Z)/150) // bounds the memory when a state has run away
	g.low, g.size = low, size
	g.nx, g.ny, g.nz = int(span.X/size)+1, int(span.Y/size)+1, int(span.Z/size)+1
	cells := g.nx * g.ny * g.nz
	g.start = resize(g.start, cells+1)
	clear(g.start)
	g.cellOf = resize(g.cellOf, len(pts))
	g.item = resize(g.item, len(pts))
	for i, p := range pts {
		x, y, z := g.index(p)
		c := int32((z*g.ny+y)*g.nx + x)
		g.cellOf[i] = c
		g.start[c+1]++
	}
	for c := range cells {
		g.start[c+1] += g.start[c]
	}
	for i := len(pts) - 1; i >= 0; i-- { // backwards: start[c+1] counts down to the first item of cell c
		c := g.cellOf[i]
		g.start[c+1]--
		g.item[g.start[c+1]] = int32(i)
	}
}

// run is the items of the cells x0..x1 of one grid line.
func (g *grid) run(x0, x1, y, z int) []int32 {
	c := (z*g.ny + y) * g.nx
	first := g.start[c+x0+1]
	last := int32(len(g.item))
	if c+x1+2 < len(g.start) {
		last = g.start[c+x1+2]
	}
	return g.item[first:last]
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

// collect finds the closest triangle of every vertex within searchRadius, and lists those that may touch it before
// the vertices have moved by searchReserve. A vertex whose distance is surely above wanted keeps its lower bound.
func (c *contact) collect(s *sheet, wanted float64) {
	for v := range c.found {
		c.found[v] -= 2 * c.moved
	}
	spheres(s.x, s.tris, c.centroid, c.reach)
	copy(c.from, s.x)
	c.moved = 0
	largest := 0.0
	for _, r := range c.reach {
		largest = max(largest, r)
	}
	list := c.thickness + 2*searchReserve
	wanted = max(wanted, list+2*searchReserve)
	c.search.fill(c.centroid, max((list+largest)/2, 0.5))
	l := &c.pairs
	l.start = resize(l.start, len(s.x)+1)
	l.tri = l.tri[:0]
	g := &c.search
	for v := range s.x {
		l.start[v] = int32(len(l.tri))
		h := &c.near[v]
		if c.radius > 0 && c.found[v] > wanted {
			h.d, c.exact[v] = c.found[v], false
			continue
		}
		x := s.x[v]
		best := searchRadius
		known := h.d < math.Inf(1) && !c.excluded(v, h.tri)
		old := h.tri
		h.d = best
		if known {
			best = h.improve(s, x, old, best)
		}
		far := max(best, list) + largest
		x0, y0, z0 := g.index(r3.Vec{X: x.X - far, Y: x.Y - far, Z: x.Z - far})
		x1, y1, z1 := g.index(r3.Vec{X: x.X + far, Y: x.Y + far, Z: x.Z + far})
		for z := z0; z <= z1; z++ {
			for y := y0; y <= y1; y++ {
				for _, t := range g.run(x0, x1, y, z) {
					m := &c.centroid[t]
					dx, dy, dz := x.X-m.X, x.Y-m.Y, x.Z-m.Z
					d2 := dx*dx + dy*dy + dz*dz
					lim := max(best, list) + c.reach[t]
					if d2 >= lim*lim || c.excluded(v, t) {
						continue
					}
					if lim = list + c.reach[t]; d2 < lim*lim {
						l.tri = append(l.tri, t)
					}
					if lim = best + c.reach[t]; d2 < lim*lim && !(known && t == old) {
						best = h.improve(s, x, t, best)
					}
				}
			}
		}
		c.found[v], c.exact[v] = h.d, h.d < searchRadius
	}
	l.start[len(s.x)] = int32(len(l.tri))
	c.radius = wanted
}

// closestPoint returns the point of triangle abc closest to p and its barycentric weights
// (C. Ericson, Real-Time Collision Detection, 2005, section 5.1.5; from memory).
func closestPoint(p, a, b, c r3.Vec) (q r3.Vec, w [3]float64) {
	ab, ac, ap := r3.Sub(b, a), r3.Sub(c, a), r3.Sub(p, a)
	d1, d2 := r3.Dot(ab, ap), r3.Dot(ac, ap)
	if d1 <= 0 && d2 <= 0 {
		return a, [3]float64{1, 0, 0}
	}
	bp := r3.Sub(p, b)
	d3, d4 := r3.Dot(ab, bp), r3.Dot(ac, bp)
	if d3 >= 0 && d4 <= d3 {
		return b, [3]float64{0, 1, 0}
	}
	vc := d1*d4 - d3*d2
	if vc <= 0 && d1 >= 0 && d3 <= 0 {
		t := d1 / (d1 - d3)
		return r3.Add(a, r3.Scale(t, ab)), [3]float64{1 - t, t, 0}
	}
	cp := r3.Sub(p, c)
	d5, d6 := r3.Dot(ab, cp), r3.Dot(ac, cp)
	if d6 >= 0 && d5 <= d6 {
		return c, [3]float64{0, 0, 1}
	}
	vb := d5*d2 - d1*d6
	if vb <= 0 && d2 >= 0 && d6 <= 0 {
		t := d2 / (d2 - d6)
		return r3.Add(a, r3.Scale(t, ac)), [3]float64{1 - t, 0, t}
	}
	va := d3*d6 - d5*d4
	if va <= 0 && d4-d3 >= 0 && d5-d6 >= 0 {
		t := (d4 - d3) / ((d4 - d3) + (d5 - d6))
		return r3.Add(b, r3.Scale(t, r3.Sub(c, b))), [3]float64{0, 1 - t, t}
	}
	d := 1 / (va + vb + vc)
	t, u := vb*d, vc*d
	return r3.Add(a, r3.Add(r3.Scale(t, ab), r3.Scale(u, ac))), [3]float64{1 - t - u, t, u}
}

// resize returns s with length n, keeping its memory when that is large enough.
func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/2)
	}
	return s[:n]
}

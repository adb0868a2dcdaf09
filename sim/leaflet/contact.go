package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"annuloscope/sim/leaflet/sparse"
)

// contact keeps surfaces apart: every vertex, fixed ones too, against the triangles within d̂, with the reaction shared
// among their corners by the barycentric weights of the closest points. One triangle gives the barrier A·κ·d̂·b(d/d̂),
// b(y) = −(y−1)²·ln y below y = 1: twice differentiable, infinite at touch (M. Li et al., Incremental potential contact,
// ACM Transactions on Graphics 39, 2020; from memory). Several give a smooth maximum of theirs (touches.go). Both sides
// of a pair push, so leaflets pressed by p rest where 2κ|b′| = p. Tissue closer than exclusion in the rest shape does not
// interact.
type contact struct {
	thickness float64 // d̂, mm; 0 switches contact off
	stiffness float64 // κ, N/mm²
	exclusion float64 // mm

	radius   float64   // distances below this were exact at the search; 0 asks for a new search
	listed   float64   // mm: how near a triangle was then to stand in a list
	moved    float64   // largest displacement of a vertex since, mm
	from     []r3.Vec  // positions at the search
	pairs    pairList  // triangles that may come to touch before the next search
	near     []touch   // per vertex: closest triangle found, or a lower bound of the distance
	touching []touch   // all triangles that push on a vertex, vertex by vertex
	first    []int32   // per vertex: its first entry of touching; one more entry than vertices
	found    []float64 // per vertex: d at the search
	exact    []bool    // per vertex: d is that of the closest triangle, not only a lower bound
	never    []uint64  // bit set per vertex: triangles it must not touch
	extra    []uint64
	search   grid
	facet    []facet
	longest  float64 // edge of a facet, mm
	ball     []ball
	cut      [cutSteps + 1]float64 // see cutoff
}

// touch is a vertex, its closest triangle and the closest point there.
type touch struct {
	tri int32
	w   [3]float64
	n   r3.Vec // unit, from the triangle to the vertex
	d   float64

	b, d1, d2   float64 // barrier and derivatives at d/d̂
	weight, add float64 // of the force, and what the smooth maximum adds to the second derivative
}

func (c *contact) init(s *sheet) {
	c.near = make([]touch, len(s.rest))
	c.found = make([]float64, len(s.rest))
	c.first = make([]int32, len(s.rest)+1)
	c.from = make([]r3.Vec, len(s.rest))
	c.exact = make([]bool, len(s.rest))
	c.facet, c.ball = make([]facet, len(s.tris)), make([]ball, len(s.tris))
	c.cut = cutoffs()
}

// forbid lists what must not interact, after exclusion has been set.
func (c *contact) forbid(s *sheet) {
	words := (len(s.tris) + 63) / 64
	c.never = make([]uint64, len(s.rest)*words)
	now := s.x
	s.x = s.rest
	g, far := &c.search, c.exclusion+c.facets(s)
	s.x = now
	g.fill(c.ball, max(far/2, 0.5))
	for v, x := range s.rest {
		x0, y0, z0 := g.index(r3.Vec{X: x.X - far, Y: x.Y - far, Z: x.Z - far})
		x1, y1, z1 := g.index(r3.Vec{X: x.X + far, Y: x.Y + far, Z: x.Z + far})
		for z := z0; z <= z1; z++ {
			for y := y0; y <= y1; y++ {
				first, last := g.run(x0, x1, y, z)
				for _, t := range g.item[first:last] {
					for _, i := range s.tris[t] {
						if int(i) == v || r3.Norm2(r3.Sub(s.rest[i], x)) < c.exclusion*c.exclusion {
							c.never[v*words+int(t)/64] |= 1 << (uint(t) % 64)
							break
						}
					}
				}
			}
		}
	}
	c.radius = 0
	for v := range c.near {
		c.near[v] = touch{tri: -1, d: math.Inf(1)}
		c.found[v], c.exact[v] = 0, false
	}
}

// excluded reports whether vertex v must not interact with triangle t.
func (c *contact) excluded(v int, t int32) bool {
	words := len(c.never) / len(c.near)
	return c.never[v*words+int(t)/64]>>(uint(t)%64)&1 != 0
}

// barrier returns b, b′ and b″ at y > 0.
func barrier(y float64) (b, d1, d2 float64) {
	if y >= 1 {
		return 0, 0, 0
	}
	l, m := math.Log(y), y-1
	return -m * m * l, -2*m*l - m*m/y, -2*l - 4*m/y + m*m/(y*y)
}

// detect finds what every vertex touches, and the closest triangle of every vertex near to touch. It searches anew, as
// far as wanted (mm), when vertices may have left the lists of the last search; until then a vertex without a list keeps
// its triangle and gets the lower bound of its distance.
func (c *contact) detect(s *sheet, wanted float64) {
	if c.thickness == 0 {
		return
	}
	c.follow(s)
	if c.radius == 0 || !(c.moved <= searchReserve) {
		c.collect(s, wanted)
	} else {
		c.facets(s)
		for v := range s.x {
			if len(c.pairs.of(v)) == 0 {
				c.near[v].d, c.exact[v] = c.found[v]-2*c.moved, false
			}
		}
	}
	c.gather(s)
}

// follow sets moved.
func (c *contact) follow(s *sheet) {
	if c.radius == 0 {
		return
	}
	far := 0.0
	for v, x := range s.x {
		far = max(far, r3.Norm2(r3.Sub(x, c.from[v])))
	}
	c.moved = math.Sqrt(far)
}

// pattern makes sure that the matrix has a slot for every touching pair and reports whether it had to change. Pairs
// somewhat beyond touch are taken in too, so that the pattern lasts.
func (c *contact) pattern(s *sheet) bool {
	if c.thickness == 0 || !c.misses(s) {
		return false
	}
	fixed := int32(s.fixed)
	c.extra = c.extra[:0]
	for v := fixed; v < int32(len(s.x)); v++ {
		pair := func(h *touch) {
			for k, i := range s.tris[h.tri] {
				if i >= fixed && i != v && h.w[k] != 0 {
					c.extra = append(c.extra, sparse.Key(v-fixed, i-fixed))
				}
			}
		}
		for i := c.first[v]; i < c.first[v+1]; i++ {
			pair(&c.touching[i])
		}
		if h := &c.near[v]; c.exact[v] && h.d >= c.thickness && h.d < 1.3*c.thickness {
			pair(h)
		}
	}
	s.matrix.SetExtra(c.extra)
	return true
}

// misses reports whether the matrix lacks a slot for a touching pair.
func (c *contact) misses(s *sheet) bool {
	fixed := int32(s.fixed)
	for v := fixed; v < int32(len(s.x)); v++ {
		for i := c.first[v]; i < c.first[v+1]; i++ {
			h := &c.touching[i]
			for k, j := range s.tris[h.tri] {
				if j >= fixed && h.w[k] != 0 && s.matrix.Slot(v-fixed, j-fixed) < 0 {
					return true
				}
			}
		}
	}
	return false
}

// limit returns the largest factor ≤ 1 on the displacements p (per vertex) that closes no gap by more than
// approachLimit of itself and keeps every vertex within maxStep. Where a lower bound of a distance would shorten the
// step it searches farther.
func (c *contact) limit(s *sheet, p []r3.Vec) float64 {
	f, blind := c.shorten(s, p)
	if blind && c.radius < searchRadius {
		c.collect(s, searchRadius)
		f, _ = c.shorten(s, p)
	}
	return f
}

// shorten is limit with what is known; blind tells that a lower bound was the reason.
func (c *contact) shorten(s *sheet, p []r3.Vec) (f float64, blind bool) {
	longest := 0.0
	for v := s.fixed; v < len(p); v++ {
		longest = max(longest, r3.Norm2(p[v]))
	}
	longest = math.Sqrt(longest)
	f = min(1, maxStep/max(longest, 1e-300))
	if c.thickness == 0 {
		return f, false
	}
	for v := range p {
		t := &c.near[v]
		if c.exact[v] {
			if approach := t.approach(s, p, v); approach*f > approachLimit*t.d {
				f, blind = approachLimit*t.d/approach, false
			}
		} else if 2*longest*f > approachLimit*t.d {
			if approach := r3.Norm(p[v]) + longest; approach*f > approachLimit*t.d {
				f, blind = approachLimit*t.d/approach, true
			}
		}
		for i := c.first[v]; i < c.first[v+1]; i++ {
			h := &c.touching[i]
			if approach := h.approach(s, p, v); approach*f > approachLimit*h.d {
				f, blind = approachLimit*h.d/approach, false
			}
		}
	}
	return f, blind
}

// approach is by how much displacements p bring vertex v nearer to its triangle.
func (h *touch) approach(s *sheet, p []r3.Vec, v int) float64 {
	rel := p[v]
	for k, i := range s.tris[h.tri] {
		rel = r3.Sub(rel, r3.Scale(h.w[k], p[i]))
	}
	return -r3.Dot(rel, h.n)
}

package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"annuloscope/sim/leaflet/sparse"
)

// contact keeps surfaces apart: every free vertex against its closest triangle, with the reaction shared among the
// corners by the barycentric weights of the closest point. The barrier per vertex is
// A·κ·d̂·b(d/d̂), b(y) = −(y−1)²·ln y below y = 1: twice differentiable, infinite at touch (M. Li et al., Incremental
// potential contact, ACM Transactions on Graphics 39, 2020; from memory). Both sides of a pair push, so leaflets
// pressed by p rest where 2κ|b′| = p. Tissue closer than exclusion in the rest shape does not interact.
type contact struct {
	thickness float64 // d̂, mm; 0 switches contact off
	stiffness float64 // κ, N/mm²
	exclusion float64 // mm
	bond      []int32 // per vertex: 1 + index of the bond it lies in, 0 outside; nil without bonds

	radius   float64 // of the last search
	moved    float64 // largest displacement sum since, mm
	pairs    pairList
	near     []touch // per vertex: closest triangle found, d = +Inf when none
	energyOf float64
	extra    []uint64
	search   grid
	centroid []r3.Vec
	reach    []float64 // centroid to farthest corner
}

// touch is a vertex, its closest triangle and the closest point there.
type touch struct {
	tri int32
	w   [3]float64
	n   r3.Vec // unit, from the triangle to the vertex
	d   float64
}

func (c *contact) init(s *sheet) {
	c.near = make([]touch, len(s.rest))
	c.centroid = make([]r3.Vec, len(s.tris))
	c.reach = make([]float64, len(s.tris))
	for i := range c.near {
		c.near[i].d = math.Inf(1)
	}
}

// barrier returns b, b′ and b″ at y > 0.
func barrier(y float64) (b, d1, d2 float64) {
	if y >= 1 {
		return 0, 0, 0
	}
	l, m := math.Log(y), y-1
	return -m * m * l, -2*m*l - m*m/y, -2*l - 4*m/y + m*m/(y*y)
}

// detect finds the closest triangle of every free vertex among the candidates, searching anew when vertices may have
// left the last search. wanted is the search radius in mm.
func (c *contact) detect(s *sheet, wanted float64) {
	if c.thickness == 0 {
		return
	}
	for t, v := range s.tris {
		m := r3.Scale(1./3, r3.Add(s.x[v[0]], r3.Add(s.x[v[1]], s.x[v[2]])))
		c.centroid[t] = m
		c.reach[t] = math.Sqrt(max(r3.Norm2(r3.Sub(s.x[v[0]], m)), r3.Norm2(r3.Sub(s.x[v[1]], m)), r3.Norm2(r3.Sub(s.x[v[2]], m))))
	}
	if c.radius == 0 || c.radius < wanted || c.radius > 2*wanted || c.radius-2*c.moved < 1.2*c.thickness {
		c.radius, c.moved = wanted, 0
		c.collect(s)
	}
	for v := s.fixed; v < len(s.x); v++ {
		best := touch{d: math.Inf(1)}
		x := s.x[v]
		for _, t := range c.pairs.of(v) {
			if lim := best.d + c.reach[t]; r3.Norm2(r3.Sub(x, c.centroid[t])) >= lim*lim {
				continue
			}
			tri := &s.tris[t]
			q, w := closestPoint(x, s.x[tri[0]], s.x[tri[1]], s.x[tri[2]])
			if n := r3.Sub(x, q); r3.Norm2(n) < best.d*best.d {
				best.tri, best.w, best.n, best.d = t, w, n, r3.Norm(n)
			}
		}
		if best.d < math.Inf(1) {
			best.n = r3.Scale(1/max(best.d, 1e-12), best.n)
		}
		c.near[v] = best
	}
}

// excluded reports whether vertex v must not interact with triangle t.
func (c *contact) excluded(s *sheet, v int, t int32) bool {
	tri := &s.tris[t]
	lim := c.exclusion * c.exclusion
	for _, i := range tri {
		if int(i) == v || r3.Norm2(r3.Sub(s.rest[i], s.rest[v])) < lim {
			return true
		}
	}
	if c.bond == nil || c.bond[v] == 0 {
		return false
	}
	b := c.bond[v]
	return c.bond[tri[0]] == b && c.bond[tri[1]] == b && c.bond[tri[2]] == b
}

// add adds the barrier of every touching vertex.
func (c *contact) add(s *sheet, hessian bool) float64 {
	if c.thickness == 0 {
		return 0
	}
	total := 0.0
	fixed := int32(s.fixed)
	for v := s.fixed; v < len(s.x); v++ {
		t := &c.near[v]
		if t.d >= c.thickness {
			continue
		}
		b, d1, d2 := barrier(max(t.d/c.thickness, 1e-6))
		scale := s.area[v] * c.stiffness
		total += scale * c.thickness * b
		push := r3.Scale(-scale*d1, t.n)
		s.force[v] = r3.Add(s.force[v], push)
		tri := &s.tris[t.tri]
		for k, i := range tri {
			s.force[i] = r3.Sub(s.force[i], r3.Scale(t.w[k], push))
		}
		if !hessian {
			continue
		}
		h := along(t.n, 1, scale*d2/c.thickness, 0)
		s.matrix.Add(int32(v)-fixed, &h)
		for k, i := range tri {
			if t.w[k] == 0 {
				continue
			}
			if i >= fixed {
				s.matrix.AddScaled(i-fixed, t.w[k]*t.w[k], &h)
				s.matrix.AddScaled(s.matrix.Slot(int32(v)-fixed, i-fixed), -t.w[k], &h)
			}
			for m := range k {
				if w := t.w[k] * t.w[m]; w != 0 && i >= fixed && tri[m] >= fixed {
					s.matrix.AddScaled(s.matrix.Slot(i-fixed, tri[m]-fixed), w, &h)
				}
			}
		}
	}
	return total
}

// pattern makes sure that the matrix has a slot for every touching pair and reports whether it had to change. Pairs
// somewhat beyond touch are taken in too, so that the pattern lasts.
func (c *contact) pattern(s *sheet) bool {
	if c.thickness == 0 {
		return false
	}
	fixed := int32(s.fixed)
	missing := false
scan:
	for v := fixed; v < int32(len(s.x)); v++ {
		if t := &c.near[v]; t.d < c.thickness {
			for _, i := range s.tris[t.tri] {
				if i >= fixed && s.matrix.Slot(v-fixed, i-fixed) < 0 {
					missing = true
					break scan
				}
			}
		}
	}
	if !missing {
		return false
	}
	c.extra = c.extra[:0]
	for v := fixed; v < int32(len(s.x)); v++ {
		if t := &c.near[v]; t.d < 1.3*c.thickness {
			for _, i := range s.tris[t.tri] {
				if i >= fixed && i != v {
					c.extra = append(c.extra, sparse.Key(v-fixed, i-fixed))
				}
			}
		}
	}
	s.matrix.SetExtra(c.extra)
	return true
}

// limit returns the largest factor ≤ 1 on the displacements p (per vertex) that closes no gap by more than
// approachLimit of itself and keeps every vertex within maxStep.
func (c *contact) limit(s *sheet, p []r3.Vec) float64 {
	cap := maxStep
	if c.thickness > 0 {
		cap = min(cap, approachLimit/2*(c.radius-2*c.moved))
	}
	longest := 0.0
	for v := s.fixed; v < len(p); v++ {
		longest = max(longest, r3.Norm2(p[v]))
	}
	f := min(1, cap/max(math.Sqrt(longest), 1e-300))
	if c.thickness == 0 {
		return f
	}
	for v := s.fixed; v < len(p); v++ {
		t := &c.near[v]
		if math.IsInf(t.d, 1) {
			continue
		}
		tri := &s.tris[t.tri]
		rel := p[v]
		for k, i := range tri {
			rel = r3.Sub(rel, r3.Scale(t.w[k], p[i]))
		}
		if approach := -r3.Dot(rel, t.n); approach*f > approachLimit*t.d {
			f = approachLimit * t.d / approach
		}
	}
	return f
}

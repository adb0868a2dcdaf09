package leaflet

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// countCrossings counts edges that pass through triangles which contact keeps apart from both their ends. (Where tissue is
// too close at rest for contact, in the folds at the commissures, nothing keeps it from passing through itself.)
func (s *sheet) countCrossings() int {
	c := &s.contact
	if c.thickness == 0 {
		return 0
	}
	c.follow(s)
	// Where an edge meets a triangle, one of its ends is within half its length: the triangle is in the list of that end.
	if c.facets(s); c.radius == 0 || c.longest/2+2*c.moved > c.listed {
		c.collect(s, searchNear)
	}
	count := 0
	for _, e := range s.edges {
		a, b := s.x[e[0]], s.x[e[1]]
		first := c.pairs.of(int(e[0]))
		for k, list := range [2][]int32{first, c.pairs.of(int(e[1]))} {
			for _, t := range list {
				f := &c.facet[t]
				if f.above(a)*f.above(b) >= 0 {
					continue
				}
				w := s.tris[t]
				if !pierces(a, b, s.x[w[0]], s.x[w[1]], s.x[w[2]]) || c.excluded(int(e[0]), t) || c.excluded(int(e[1]), t) {
					continue
				}
				if k == 0 || !slices.Contains(first, t) {
					count++
				}
			}
		}
	}
	return count
}

// pierces reports whether the segment pq passes through triangle abc.
func pierces(p, q, a, b, c r3.Vec) bool {
	n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	dp, dq := r3.Dot(n, r3.Sub(p, a)), r3.Dot(n, r3.Sub(q, a))
	if dp*dq >= 0 {
		return false
	}
	x := r3.Add(p, r3.Scale(dp/(dp-dq), r3.Sub(q, p)))
	side := func(u, v r3.Vec) float64 { return r3.Dot(n, r3.Cross(r3.Sub(v, u), r3.Sub(x, u))) }
	return side(a, b) >= 0 && side(b, c) >= 0 && side(c, a) >= 0
}

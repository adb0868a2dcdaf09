package leaflet

import "gonum.org/v1/gonum/spatial/r3"

// countCrossings counts edges that pass through triangles: `crossings` between tissue that contact keeps apart,
// `creases` between tissue too close at rest for contact (the folds at the commissures).
func (s *sheet) countCrossings() (crossings, creases int) {
	c := &s.contact
	spheres(s.x, s.tris, c.centroid, c.reach)
	c.radius = 0 // the spheres of the last search are gone
	largest := 0.0
	for _, r := range c.reach {
		largest = max(largest, r)
	}
	g := &c.search
	g.fill(c.centroid, max(largest, 0.5))
	for _, e := range s.edges {
		a, b := s.x[e[0]], s.x[e[1]]
		m := r3.Scale(0.5, r3.Add(a, b))
		half := r3.Norm(r3.Sub(b, a)) / 2
		r := half + largest
		x0, y0, z0 := g.index(r3.Vec{X: m.X - r, Y: m.Y - r, Z: m.Z - r})
		x1, y1, z1 := g.index(r3.Vec{X: m.X + r, Y: m.Y + r, Z: m.Z + r})
		for z := z0; z <= z1; z++ {
			for y := y0; y <= y1; y++ {
				for _, o := range g.run(x0, x1, y, z) {
					lim := half + c.reach[o]
					if r3.Norm2(r3.Sub(c.centroid[o], m)) > lim*lim {
						continue
					}
					w := s.tris[o]
					if shares(w, e[0]) || shares(w, e[1]) || !pierces(a, b, s.x[w[0]], s.x[w[1]], s.x[w[2]]) {
						continue
					}
					if c.excluded(int(e[0]), o) || c.excluded(int(e[1]), o) {
						creases++
					} else {
						crossings++
					}
				}
			}
		}
	}
	return crossings, creases
}

func shares(t [3]int32, v int32) bool { return t[0] == v || t[1] == v || t[2] == v }

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

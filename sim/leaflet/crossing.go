package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// countCrossings counts edges that pass through triangles: `crossings` between tissue that contact keeps apart,
// `creases` between tissue too close at rest for contact (the folds at the commissures) or inside one bond.
func (s *sheet) countCrossings() (crossings, creases int) {
	c := &s.contact
	largest := 0.0
	for t, v := range s.tris {
		m := r3.Scale(1./3, r3.Add(s.x[v[0]], r3.Add(s.x[v[1]], s.x[v[2]])))
		c.centroid[t] = m
		c.reach[t] = math.Sqrt(max(r3.Norm2(r3.Sub(s.x[v[0]], m)), r3.Norm2(r3.Sub(s.x[v[1]], m)), r3.Norm2(r3.Sub(s.x[v[2]], m))))
		largest = max(largest, c.reach[t])
	}
	g := &c.search
	g.fill(c.centroid, max(largest*2, 0.5))
	for t, v := range s.tris {
		m, r := c.centroid[t], c.reach[t]+largest
		x0, y0, z0 := g.index(r3.Vec{X: m.X - r, Y: m.Y - r, Z: m.Z - r})
		x1, y1, z1 := g.index(r3.Vec{X: m.X + r, Y: m.Y + r, Z: m.Z + r})
		for z := z0; z <= z1; z++ {
			for y := y0; y <= y1; y++ {
				for _, o := range g.run(x0, x1, y, z) {
					lim := c.reach[t] + c.reach[o]
					if int(o) == t || r3.Norm2(r3.Sub(c.centroid[o], m)) > lim*lim {
						continue
					}
					w := s.tris[o]
					for k := range 3 {
						a, b := v[k], v[(k+1)%3]
						if shares(w, a) || shares(w, b) || !pierces(s.x[a], s.x[b], s.x[w[0]], s.x[w[1]], s.x[w[2]]) {
							continue
						}
						if c.excluded(s, int(a), o) || c.excluded(s, int(b), o) {
							creases++
						} else {
							crossings++
						}
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

package leaflet

import "gonum.org/v1/gonum/spatial/r3"

// gapField fills, per vertex, the distance to the surface of the other leaflet: exact up to gapReach, beyond it to a
// vertex found by walking downhill. The commissural columns belong to both leaflets and have none.
func (s *Solver) gapField() {
	sh, r := s.fine.sheet, &s.result
	c := &sh.contact
	largest := c.facets(sh)
	g := &c.search
	g.fill(c.ball, max(largest, 0.5))
	half := int32(s.s / 2)
	for j := range s.s {
		at := [2]int{s.t - 1, (s.s - j) % s.s} // row and column of the nearest vertex so far
		for i := s.t - 1; i >= 0; i-- {
			v := i*s.s + j
			x := sh.x[v]
			r.GapMM[v], r.InContact[v] = 0, true
			if j == 0 || 2*j == s.s {
				continue
			}
			anterior := int32(j) < half
			best := s.downhill(x, &at, anterior)
			if best > gapReach+largest {
				r.GapMM[v], r.InContact[v] = best, false
				continue
			}
			h := touch{}
			far := best + largest
			x0, y0, z0 := g.index(r3.Vec{X: x.X - far, Y: x.Y - far, Z: x.Z - far})
			x1, y1, z1 := g.index(r3.Vec{X: x.X + far, Y: x.Y + far, Z: x.Z + far})
			for z := z0; z <= z1; z++ {
				for y := y0; y <= y1; y++ {
					first, last := g.run(x0, x1, y, z)
					balls := g.sorted[first:last]
					for k := range balls {
						if lim := best + balls[k].r; balls[k].from(x) >= lim*lim {
							continue
						}
						t := g.item[int(first)+k]
						// Triangles come quad by quad, row by row: the quad's column names the leaflet.
						if (t/2%int32(s.s) < half) == anterior {
							continue
						}
						best = c.at(sh, x, t, best, &h)
					}
				}
			}
			r.GapMM[v] = best
			r.InContact[v] = best <= contactCount*contactThickness
		}
	}
}

// downhill walks from vertex `at` of the other leaflet to a neighbour closer to x until there is none, leaves the
// place in at and returns the distance.
func (s *Solver) downhill(x r3.Vec, at *[2]int, anterior bool) float64 {
	pos := s.fine.sheet.x
	best := r3.Norm2(r3.Sub(x, pos[at[0]*s.s+at[1]]))
	for moved := true; moved; {
		moved = false
		from := *at
		for di := -1; di <= 1; di++ {
			for dj := -1; dj <= 1; dj++ {
				i, j := from[0]+di, (from[1]+dj+s.s)%s.s
				if i < 0 || i >= s.t || anterior != (2*j >= s.s || j == 0) && 2*j != s.s {
					continue
				}
				if d := r3.Norm2(r3.Sub(x, pos[i*s.s+j])); d < best {
					best, moved = d, true
					*at = [2]int{i, j}
				}
			}
		}
	}
	return r3.Norm(r3.Sub(x, pos[at[0]*s.s+at[1]])) * (1 + 1e-12)
}

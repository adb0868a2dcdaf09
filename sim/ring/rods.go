package ring

import "gonum.org/v1/gonum/spatial/r3"

// Straight elastic rods lie free in the vein. Their bending energy at a vein point is (EI/h)·(1 − t_a·t_b), with t_a, t_b
// the directions of the deformed segments on either side and h the mean rest length: ½ EI ∫ curvature² ds for small
// angles. It depends on mutual positions only, so the rods' forces and moments on the vein sum to zero whatever the
// shape, and on directions only, so rods neither hold nor drive the vein along its length (they slide). The rods' ends
// are blended over one anchor length. The vein wraps them closely: play inside the lumen is left out.

// bend3 is the rods' stiffness EI/h at the middle of three vein points.
type bend3 struct {
	mid   int // id of the middle point
	stiff float64
}

// assembleRods lists the bending points of the rods.
func (s *Solver) assembleRods(in *Input) {
	s.bends = s.bends[:0]
	r := in.Rods
	if r == nil || r.Count == 0 || r.BendingNMM2 == 0 {
		return
	}
	for j := 1; j+1 < s.m; j++ {
		if share := min(s.rodShare(in, j-1), s.rodShare(in, j)); share > 0 {
			p := s.rest[s.n+j-1 : s.n+j+2]
			h := (span(r3.Sub(p[1], p[0])) + span(r3.Sub(p[2], p[1]))) / 2
			s.bends = append(s.bends, bend3{s.n + j, share * float64(r.Count) * r.BendingNMM2 / h})
		}
	}
}

// rodShare is the share of vein segment j → j+1 taken by the rods.
func (s *Solver) rodShare(in *Input, j int) float64 {
	st, w := in.Vein.Station, in.Constants.AnchorLength
	return max(0, ramp(st[j], st[j+1], in.Rods.ProximalMM, w)-ramp(st[j], st[j+1], in.Rods.DistalMM, w))
}

// arms returns the unit directions before and after point b.mid, their lengths and their cosine.
func (b *bend3) arms(x []r3.Vec) (ta, tb r3.Vec, la, lb, cos float64) {
	ta, tb = r3.Sub(x[b.mid], x[b.mid-1]), r3.Sub(x[b.mid+1], x[b.mid])
	la, lb = span(ta), span(tb)
	ta, tb = r3.Scale(1/la, ta), r3.Scale(1/lb, tb)
	return ta, tb, la, lb, r3.Dot(ta, tb)
}

// slopes are the derivatives of the energy by the two arms.
func (b *bend3) slopes(x []r3.Vec) (energy float64, da, db r3.Vec) {
	ta, tb, la, lb, f := b.arms(x)
	da = r3.Scale(-b.stiff/la, r3.Sub(tb, r3.Scale(f, ta)))
	db = r3.Scale(-b.stiff/lb, r3.Sub(ta, r3.Scale(f, tb)))
	return b.stiff * (1 - f), da, db
}

// rodEnergy adds energy and, unless grad is nil, forces of the rods.
func (s *Solver) rodEnergy(x []r3.Vec, grad []float64) float64 {
	total := 0.0
	for k := range s.bends {
		b := &s.bends[k]
		e, da, db := b.slopes(x)
		total += e
		if grad != nil {
			addPair(grad, s.first[b.mid-1], s.first[b.mid], da)
			addPair(grad, s.first[b.mid], s.first[b.mid+1], db)
		}
	}
	return total
}

// rodStiffness adds the second derivatives; with clamp only their positive part ½|t_b − t_a|² has to first order.
func (s *Solver) rodStiffness(x []r3.Vec, h *band, clamp bool) {
	for k := range s.bends {
		b := &s.bends[k]
		ta, tb, la, lb, f := b.arms(x)
		va, vb := [3]float64{ta.X, ta.Y, ta.Z}, [3]float64{tb.X, tb.Y, tb.Z}
		var aa, ab, bb block
		for i := range 3 {
			for j := range 3 {
				pa, pb := delta(i, j)-va[i]*va[j], delta(i, j)-vb[i]*vb[j]
				pp := delta(i, j) - va[i]*va[j] - vb[i]*vb[j] + f*va[i]*vb[j] // (PaPb)ij
				ab[i][j] = -b.stiff / (la * lb) * pp
				if clamp {
					aa[i][j], bb[i][j] = b.stiff/(la*la)*pa, b.stiff/(lb*lb)*pb
					continue
				}
				qa := (vb[i]-f*va[i])*va[j] + va[i]*(vb[j]-f*va[j])
				qb := (va[i]-f*vb[i])*vb[j] + vb[i]*(va[j]-f*vb[j])
				aa[i][j] = b.stiff / (la * la) * (f*pa + qa)
				bb[i][j] = b.stiff / (lb * lb) * (f*pb + qb)
			}
		}
		s.addArms(h, b.mid, &aa, &ab, &bb)
	}
}

// addArms adds the form with blocks aa, ab, bb in the two arms a = x_mid − x_before, b = x_after − x_mid.
func (s *Solver) addArms(h *band, mid int, aa, ab, bb *block) {
	row := [3]int{s.first[mid-1], s.first[mid], s.first[mid+1]}
	ca, cb := [3]float64{-1, 1, 0}, [3]float64{0, -1, 1}
	for p := range 3 {
		for q := 0; q <= p; q++ {
			for i := range 3 {
				for j := range 3 {
					if p == q && j > i {
						continue
					}
					v := ca[p]*ca[q]*aa[i][j] + cb[p]*cb[q]*bb[i][j] + ca[p]*cb[q]*ab[i][j] + cb[p]*ca[q]*ab[j][i]
					h.add(row[p]+i, row[q]+j, v)
				}
			}
		}
	}
}

func delta(i, j int) float64 {
	if i == j {
		return 1
	}
	return 0
}

// rodForces writes the force of the rods on every vein point at positions x.
func (s *Solver) rodForces(x []r3.Vec, f []r3.Vec) {
	for k := range s.bends {
		b := &s.bends[k]
		_, da, db := b.slopes(x)
		j := b.mid - s.n
		f[j-1] = r3.Add(f[j-1], da)
		f[j] = r3.Add(f[j], r3.Sub(db, da))
		f[j+1] = r3.Sub(f[j+1], db)
	}
}

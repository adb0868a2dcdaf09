package ring

import "gonum.org/v1/gonum/spatial/r3"

// assembleRods adds straight rods lying in the vein: bending energy ½ EI ∫ |y”|² ds of the deformed centreline over
// their stretch, and their axial stiffness. Both depend only on the mutual position of vein points, so the rods' forces
// and moments on the vein sum to zero whatever the shape. Their ends are blended over one anchor length.
func (s *Solver) assembleRods(in *Input) {
	s.rodSprings = s.rodSprings[:0]
	r := in.Rods
	if r == nil || r.Count == 0 || r.BendingNMM2 == 0 {
		return
	}
	stiffness := float64(r.Count) * r.BendingNMM2
	for j := range s.m {
		id := s.n + j
		if j+1 < s.m {
			if w := s.rodShare(in, j); w > 0 {
				ea := w * stiffness * RodAxialRatio
				p := spring{id, id + 1, r3.Norm(r3.Sub(s.rest[id+1], s.rest[id])), ea, ea}
				s.springs = append(s.springs, p)
				s.rodSprings = append(s.rodSprings, p)
			}
		}
		if k, c, ok := s.rodBend(in, j); ok {
			ids := []int{id - 1, id, id + 1}
			s.addForm(ids, c[:], &k)
			d2 := s.second(s.rest, j, c)
			for q, a := range ids {
				s.addPush(a, &k, r3.Scale(-c[q], d2))
			}
		}
	}
}

// rodShare is the share of vein segment j → j+1 taken by the rods.
func (s *Solver) rodShare(in *Input, j int) float64 {
	st, w := in.Vein.Station, in.Constants.AnchorLength
	return max(0, ramp(st[j], st[j+1], in.Rods.ProximalMM, w)-ramp(st[j], st[j+1], in.Rods.DistalMM, w))
}

// rodBend returns stiffness and second-difference weights of the rods at vein point j.
func (s *Solver) rodBend(in *Input, j int) (k mat, c [3]float64, ok bool) {
	if j == 0 || j+1 >= s.m {
		return k, c, false
	}
	share := min(s.rodShare(in, j-1), s.rodShare(in, j))
	if share <= 0 {
		return k, c, false
	}
	p := s.rest[s.n+j-1 : s.n+j+2]
	la, lc := r3.Norm(r3.Sub(p[1], p[0])), r3.Norm(r3.Sub(p[2], p[1]))
	h := (la + lc) / 2
	k = tensor(r3.Vec{}, 0, share*float64(in.Rods.Count)*in.Rods.BendingNMM2*h)
	return k, [3]float64{1 / (la * h), -1/(la*h) - 1/(lc*h), 1 / (lc * h)}, true
}

// second is the second difference of the vein at point j.
func (s *Solver) second(x []r3.Vec, j int, c [3]float64) r3.Vec {
	p := x[s.n+j-1 : s.n+j+2]
	return r3.Add(r3.Scale(c[0], p[0]), r3.Add(r3.Scale(c[1], p[1]), r3.Scale(c[2], p[2])))
}

// rodForces writes the force of the rods on every vein point at positions x.
func (s *Solver) rodForces(in *Input, x []r3.Vec, f []r3.Vec) {
	if in.Rods == nil || in.Rods.Count == 0 {
		return
	}
	for j := range s.m {
		if k, c, ok := s.rodBend(in, j); ok {
			d2 := s.second(x, j, c)
			for q := range 3 {
				i := j + q - 1
				f[i] = r3.Sub(f[i], r3.Scale(c[q]*k[0][0], d2))
			}
		}
	}
	for k := range s.rodSprings {
		p := &s.rodSprings[k]
		d := r3.Sub(x[p.b], x[p.a])
		l := r3.Norm(d)
		_, t, _ := p.force(l)
		v := r3.Scale(t/l, d)
		f[p.a-s.n] = r3.Add(f[p.a-s.n], v)
		f[p.b-s.n] = r3.Sub(f[p.b-s.n], v)
	}
}

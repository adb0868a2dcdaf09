package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// This file assembles everything that is quadratic in the displacements into one constant band matrix:
// bending, foundation, groove, atrial wall, rods and full ring. Energy ½uᵀKu − fᵀu.

// block is a symmetric 3×3 matrix as three rows.
type block [3][3]float64

// tensor is along·ttᵀ + across·(I − ttᵀ) for a unit vector t.
func tensor(t r3.Vec, along, across float64) block {
	v := [3]float64{t.X, t.Y, t.Z}
	var k block
	for i := range 3 {
		for j := range 3 {
			k[i][j] = (along - across) * v[i] * v[j]
		}
		k[i][i] += across
	}
	return k
}

// addForm adds the energy ½ dᵀKd with d = Σ c_p u_p over the given points.
func (s *Solver) addForm(ids []int, c []float64, k *block) {
	for p, a := range ids {
		for q := 0; q <= p; q++ {
			w := c[p] * c[q]
			ra, rb := s.first[a], s.first[ids[q]]
			for i := range 3 {
				for j := range 3 {
					if p == q && j > i {
						continue
					}
					s.quad.add(ra+i, rb+j, w*k[i][j])
				}
			}
		}
	}
}

// bend adds the bending energy ½ EI h |P D²u|² of the point b between a and c, where D²u is the second difference over
// the rest lengths la, lc, h their mean and P the projection square to the rest tangent: for a small displacement of an
// inextensible cord that is ½ EI ∫ (change of curvature)² ds, and a turn of the cord in its own plane costs nothing.
func (s *Solver) bend(a, b, c int, stiffness float64) {
	la, lc := span(r3.Sub(s.rest[b], s.rest[a])), span(r3.Sub(s.rest[c], s.rest[b]))
	h := (la + lc) / 2
	t := r3.Unit(r3.Sub(s.rest[c], s.rest[a]))
	k := tensor(t, 0, stiffness*h)
	s.addForm([]int{a, b, c}, []float64{1 / (la * h), -1/(la*h) - 1/(lc*h), 1 / (lc * h)}, &k)
}

// assembleQuadratic fills s.quad and s.push.
func (s *Solver) assembleQuadratic(in *Input) {
	n, m := s.n, s.m
	c := &in.Constants
	fib := in.Annulus.Fibrous
	for i := range n {
		a, b := (i+n-1)%n, (i+1)%n
		s.bend(a, i, b, blend(c.AnnulusBending, c.FibrousBending, fib[i]))
		h := (span(r3.Sub(s.rest[i], s.rest[a])) + span(r3.Sub(s.rest[b], s.rest[i]))) / 2
		k := tensor(s.marks.Commissural, h*blend(c.FoundationCommissural, c.FibrousFoundation, fib[i]),
			h*blend(c.FoundationSeptal, c.FibrousFoundation, fib[i]))
		s.addForm([]int{i}, []float64{1}, &k)
		if in.Annulus.Shift != nil {
			s.addPush(i, &k, in.Annulus.Shift[i])
		}
	}
	for j := range m {
		id := n + j
		a, b := max(id-1, n), min(id+1, n+m-1)
		if a < id && b > id {
			s.bend(a, id, b, c.VeinBending)
		}
		h := (span(r3.Sub(s.rest[id], s.rest[a])) + span(r3.Sub(s.rest[b], s.rest[id]))) / 2
		t := r3.Unit(r3.Sub(s.rest[b], s.rest[a]))
		k := tensor(t, h*c.GrooveTangent, h*c.Groove)
		s.addForm([]int{id}, []float64{1}, &k)
		if in.Vein.OnAtrium[j] > 0 {
			k := wall(c, s.restPartner(in, j), s.rest[id], t, h*in.Vein.OnAtrium[j])
			p, q, f := partner(in.Vein.Partner[j], n)
			s.addForm([]int{id, p, q}, []float64{1, f - 1, -f}, &k)
		}
	}
	for _, l := range in.Loads {
		s.addForce(l.Point, l.Force)
	}
}

// wall is the stiffness of the atrial wall between annulus point p and vein point v over length h of vein, N/mm: a
// strip stretched along p→v, sheared along the vein's tangent, and soft square to its surface. The directions are
// those at rest.
func wall(c *Constants, p, v, tangent r3.Vec, h float64) block {
	if c.WallRigid {
		return tensor(r3.Vec{}, 0, RigidWall*h)
	}
	d := r3.Sub(p, v)
	l := math.Sqrt(r3.Norm2(d) + WallShortest*WallShortest)
	n := r3.Scale(1/l, d)
	t := r3.Sub(tangent, r3.Scale(r3.Dot(tangent, n)/max(r3.Norm2(n), 1e-12), n))
	if q := span(t); q > 1e-9 {
		t = r3.Scale(1/q, t)
	}
	kn, kt, kb := h*c.WallMembrane/l, h*c.WallShear/l, h*c.WallTransverse/l
	k := tensor(n, kn, kb)
	shear := tensor(t, kt-kb, 0)
	for i := range 3 {
		for j := range 3 {
			k[i][j] += shear[i][j]
		}
	}
	return k
}

func (s *Solver) restPartner(in *Input, j int) r3.Vec {
	a, b, t := partner(in.Vein.Partner[j], s.n)
	return r3.Add(r3.Scale(1-t, s.rest[a]), r3.Scale(t, s.rest[b]))
}

func (s *Solver) addForce(id int, f r3.Vec) {
	r := s.first[id]
	s.push[r] += f.X
	s.push[r+1] += f.Y
	s.push[r+2] += f.Z
}

// addPush adds the force K·v.
func (s *Solver) addPush(id int, k *block, v r3.Vec) {
	x := [3]float64{v.X, v.Y, v.Z}
	r := s.first[id]
	for i := range 3 {
		for j := range 3 {
			s.push[r+i] += k[i][j] * x[j]
		}
	}
}

// blend goes from a to b geometrically as w goes from 0 to 1 (linearly where an end is zero).
func blend(a, b, w float64) float64 {
	if a <= 0 || b <= 0 {
		return a + (b-a)*w
	}
	return a * math.Pow(b/a, w)
}

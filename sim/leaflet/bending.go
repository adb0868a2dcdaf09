package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// hinge is the quadratic bending energy of two triangles that share an edge, flat at rest:
// ½·c·|Σ kᵢxᵢ|² with c = 3·kb/(A₀+A₁) and cotangent weights k (M. Bergou et al., A quadratic bending model for
// inextensible surfaces, Symposium on Geometry Processing 2006; from memory). v[0], v[1] are the edge.
type hinge struct {
	v    [4]int32
	k    [4]float64
	c    float64
	slot [6]int32 // of cornerPairs
}

// newHinges makes the hinges of a mesh in the order of its triangles, of which 2q and 2q+1 are the halves of a quad; scale,
// if not nil, is a factor per vertex, averaged over the hinge.
//
// On a rectangle the hinges along rows and columns make ½·3kb·(κxx² + κyy²) and those across the diagonals, as they stand,
// ½·3kb·4·κxy². A plate without coupling (ν = 0) has 2·κxy²: so the diagonals count half, and bending is the same in every
// direction.
func newHinges(rest []r3.Vec, tris [][3]int32, bend float64, scale []float64) []hinge {
	type edge struct{ a, b int32 }
	type side struct {
		corner   int32
		triangle int
	}
	opposite := make(map[edge]side, 3*len(tris))
	for t, v := range tris {
		for k := range 3 {
			opposite[edge{v[k], v[(k+1)%3]}] = side{v[(k+2)%3], t}
		}
	}
	var out []hinge
	for t, v := range tris {
		for k := range 3 {
			a, b := v[k], v[(k+1)%3]
			other, shared := opposite[edge{b, a}]
			o := other.corner
			if a > b || !shared {
				continue
			}
			h := hinge{v: [4]int32{a, b, v[(k+2)%3], o}}
			x0, x1, x2, x3 := rest[h.v[0]], rest[h.v[1]], rest[h.v[2]], rest[h.v[3]]
			c02, c12 := cot(x1, x0, x2), cot(x0, x1, x2) // angles at x0 and x1 in the first triangle
			c03, c13 := cot(x1, x0, x3), cot(x0, x1, x3) // and in the second
			h.k = [4]float64{c12 + c13, c02 + c03, -c02 - c12, -c03 - c13}
			e := r3.Sub(x1, x0)
			areas := (r3.Norm(r3.Cross(e, r3.Sub(x2, x0))) + r3.Norm(r3.Cross(e, r3.Sub(x3, x0)))) / 2
			h.c = 3 * bend / areas
			if other.triangle/2 == t/2 {
				h.c /= 2
			}
			if scale != nil {
				h.c *= (scale[h.v[0]] + scale[h.v[1]] + scale[h.v[2]] + scale[h.v[3]]) / 4
			}
			out = append(out, h)
		}
	}
	return out
}

// cot is the cotangent of the angle at `at` between the directions to p and q.
func cot(p, at, q r3.Vec) float64 {
	a, b := r3.Sub(p, at), r3.Sub(q, at)
	return r3.Dot(a, b) / math.Max(r3.Norm(r3.Cross(a, b)), 1e-12)
}

func (h *hinge) findSlots(s *sheet) {
	for i, p := range cornerPairs {
		h.slot[i] = s.slot(h.v[p[0]], h.v[p[1]])
	}
}

// bending adds the hinges. The tangent is exact, and constant. A cheaper one without the coupling of the two opposite
// corners (positive semidefinite when its size is added to both diagonals) acts like a membrane whose stiffness grows with
// the square of the fineness: steps get short, the finer the mesh the shorter, and look like rest where there is none.
func (s *sheet) bending(hessian bool) float64 {
	total := 0.0
	fixed := int32(s.fixed)
	for n := range s.hinges {
		h := &s.hinges[n]
		x0, x1, x2, x3 := &s.x[h.v[0]], &s.x[h.v[1]], &s.x[h.v[2]], &s.x[h.v[3]]
		q := r3.Vec{
			X: h.k[0]*x0.X + h.k[1]*x1.X + h.k[2]*x2.X + h.k[3]*x3.X,
			Y: h.k[0]*x0.Y + h.k[1]*x1.Y + h.k[2]*x2.Y + h.k[3]*x3.Y,
			Z: h.k[0]*x0.Z + h.k[1]*x1.Z + h.k[2]*x2.Z + h.k[3]*x3.Z,
		}
		total += h.c / 2 * (q.X*q.X + q.Y*q.Y + q.Z*q.Z)
		for i, v := range h.v {
			c, f := h.c*h.k[i], &s.force[v]
			f.X -= c * q.X
			f.Y -= c * q.Y
			f.Z -= c * q.Z
		}
		if !hessian {
			continue
		}
		for i, v := range h.v {
			if v < fixed {
				continue
			}
			s.matrix.AddIdentity(v-fixed, h.c*h.k[i]*h.k[i])
		}
		for i, p := range cornerPairs {
			if h.slot[i] >= 0 {
				s.matrix.AddIdentity(h.slot[i], h.c*h.k[p[0]]*h.k[p[1]])
			}
		}
	}
	return total
}

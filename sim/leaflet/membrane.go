package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"annuloscope/sim/leaflet/sparse"
)

// membrane adds the fibre energy Σ A·w·ψ(|d|−1), d = Σ gᵢxᵢ, its force and, on request, its tangent
// g_i·g_j·A·w·[ψ″·nnᵀ + max(ψ′/λ, 0)·(I − nnᵀ)]: positive semidefinite whatever the state.
func (s *sheet) membrane(hessian bool) float64 {
	total := 0.0
	fixed := int32(s.fixed)
	for t := range s.elements {
		e := &s.elements[t]
		x0, x1, x2 := s.x[e.v[0]], s.x[e.v[1]], s.x[e.v[2]]
		w := e.area * fibreWeight * e.stiff
		var f0, f1, f2 r3.Vec
		var h [6]sparse.Sym // 00, 11, 22, 10, 20, 21
		for f := range e.g {
			g := &e.g[f]
			d := r3.Vec{
				X: g[0]*x0.X + g[1]*x1.X + g[2]*x2.X,
				Y: g[0]*x0.Y + g[1]*x1.Y + g[2]*x2.Y,
				Z: g[0]*x0.Z + g[1]*x1.Z + g[2]*x2.Z,
			}
			l := math.Sqrt(d.X*d.X + d.Y*d.Y + d.Z*d.Z)
			psi, tension, tangent := s.law.at(l - 1)
			total += w * psi
			inv := 1 / max(l, 1e-9)
			c := -w * tension * inv
			q := r3.Vec{X: c * d.X, Y: c * d.Y, Z: c * d.Z}
			f0 = r3.Vec{X: f0.X + g[0]*q.X, Y: f0.Y + g[0]*q.Y, Z: f0.Z + g[0]*q.Z}
			f1 = r3.Vec{X: f1.X + g[1]*q.X, Y: f1.Y + g[1]*q.Y, Z: f1.Z + g[1]*q.Z}
			f2 = r3.Vec{X: f2.X + g[2]*q.X, Y: f2.Y + g[2]*q.Y, Z: f2.Z + g[2]*q.Z}
			if !hessian {
				continue
			}
			b := along(d, inv, w*tangent, w*max(tension*inv, 0))
			addTo(&h[0], g[0]*g[0], &b)
			addTo(&h[1], g[1]*g[1], &b)
			addTo(&h[2], g[2]*g[2], &b)
			addTo(&h[3], g[1]*g[0], &b)
			addTo(&h[4], g[2]*g[0], &b)
			addTo(&h[5], g[2]*g[1], &b)
		}
		s.force[e.v[0]] = r3.Add(s.force[e.v[0]], f0)
		s.force[e.v[1]] = r3.Add(s.force[e.v[1]], f1)
		s.force[e.v[2]] = r3.Add(s.force[e.v[2]], f2)
		if !hessian {
			continue
		}
		for i, v := range e.v {
			if v >= fixed {
				s.matrix.Add(v-fixed, &h[i])
			}
			if e.off[i] >= 0 {
				s.matrix.Add(e.off[i], &h[3+i])
			}
		}
	}
	return total
}

// along is a·nnᵀ + c·(I − nnᵀ) with n = d·inv.
func along(d r3.Vec, inv, a, c float64) sparse.Sym {
	r := (a - c) * inv * inv
	return sparse.Sym{
		r*d.X*d.X + c, r * d.X * d.Y, r * d.X * d.Z,
		r*d.Y*d.Y + c, r * d.Y * d.Z,
		r*d.Z*d.Z + c,
	}
}

func addTo(h *sparse.Sym, s float64, b *sparse.Sym) {
	h[0] += s * b[0]
	h[1] += s * b[1]
	h[2] += s * b[2]
	h[3] += s * b[3]
	h[4] += s * b[4]
	h[5] += s * b[5]
}

// meanTension fills out with the mean in-plane tension of the triangles round each vertex, N/mm, area-weighted.
func (s *sheet) meanTension(out []float64) {
	clear(out)
	for t := range s.elements {
		e := &s.elements[t]
		sum := 0.0
		for f := range e.g {
			g := &e.g[f]
			d := r3.Add(r3.Add(r3.Scale(g[0], s.x[e.v[0]]), r3.Scale(g[1], s.x[e.v[1]])), r3.Scale(g[2], s.x[e.v[2]]))
			l := r3.Norm(d)
			_, tension, _ := s.law.at(l - 1)
			sum += fibreWeight * e.stiff * tension * l / 2
		}
		for _, v := range e.v {
			out[v] += sum * e.area / 3
		}
	}
	for v, a := range s.area {
		out[v] /= a
	}
}

package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// spring holds two points of the sheet at the distance gap: one knot of a bond. Corners 0-3 carry the first point,
// 4-7 the second (weights negative).
type spring struct {
	v     [8]int32
	w     [8]float64
	k     float64 // N/mm
	gap   float64 // mm
	bond  int     // index of the bond
	slot  [28]int32
	force r3.Vec // on the first point, at the last evaluation
}

func (p *spring) findSlots(s *sheet) {
	n := 0
	for a := range p.v {
		for b := range a {
			p.slot[n] = s.slot(p.v[a], p.v[b])
			n++
		}
	}
}

func (p *spring) add(s *sheet, hessian bool) float64 {
	var d r3.Vec
	for i, v := range p.v {
		d = r3.Add(d, r3.Scale(p.w[i], s.x[v]))
	}
	l := r3.Norm(d)
	inv := 1 / math.Max(l, 1e-9)
	stretch := l - p.gap
	p.force = r3.Scale(-p.k*stretch*inv, d)
	for i, v := range p.v {
		s.force[v] = r3.Add(s.force[v], r3.Scale(p.w[i], p.force))
	}
	if hessian {
		fixed := int32(s.fixed)
		b := along(d, inv, p.k, p.k*math.Max(stretch*inv, 0))
		n := 0
		for i, v := range p.v {
			if v >= fixed && p.w[i] != 0 {
				s.matrix.AddScaled(v-fixed, p.w[i]*p.w[i], &b)
			}
			for j := range i {
				if w := p.w[i] * p.w[j]; w != 0 && p.slot[n] >= 0 {
					if p.v[i] == p.v[j] { // both points share a vertex: the pair falls on the diagonal twice
						w *= 2
					}
					s.matrix.AddScaled(p.slot[n], w, &b)
				}
				n++
			}
		}
	}
	return p.k * stretch * stretch / 2
}

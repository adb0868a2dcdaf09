package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A vertex in a fold is near to several triangles. With the closest alone its force would jump from one direction to
// another where two are equally close, and the solver would chatter there; with the sum of all a flat sheet would push
// the harder the finer its mesh. So the barriers b of all triangles within d̂ are joined by a smooth maximum,
// B = (Σ bᵗ)^(1/t), t = touchPower: its force is Σ (b/B)^(t−1)·b′, whose weights move smoothly, and for one triangle it is
// that triangle's own.

// gather lists every triangle that pushes on a vertex, with its share.
func (c *contact) gather(s *sheet) {
	c.touching = c.touching[:0]
	for v, x := range s.x {
		c.first[v] = int32(len(c.touching))
		first := &c.near[v]
		if first.d >= c.thickness {
			continue
		}
		from := len(c.touching)
		c.touching = append(c.touching, *first)
		top, _, _ := barrier(max(first.d/c.thickness, closestShare))
		for _, t := range c.pairs.of(v) {
			lim := c.thickness + c.reach[t] + 2*c.moved
			if t == first.tri || r3.Norm2(r3.Sub(x, c.centroid[t])) >= lim*lim {
				continue
			}
			h := touch{}
			if d := h.improve(s, x, t, c.thickness); d < c.thickness {
				if b, _, _ := barrier(max(d/c.thickness, closestShare)); b > leastShare*top {
					c.touching = append(c.touching, h)
				}
			}
		}
		c.share(c.touching[from:])
	}
	c.first[len(s.x)] = int32(len(c.touching))
}

// share sets barrier, weight and added curvature of the triangles of one vertex.
//
// The second derivative of B is Σ w·b″ plus (t−1)·B times the variance of (b′/b)·n under the shares π = (b/B)^t. The
// variance is bounded by pairs: π(s)π(t)(1 − n(s)·n(t)) each, which is none where the triangles lie in one plane.
func (c *contact) share(all []touch) {
	sum := 0.0
	top := 0.0
	for i := range all {
		h := &all[i]
		h.b, h.d1, h.d2 = barrier(max(h.d/c.thickness, closestShare))
		top = max(top, h.b)
	}
	if len(all) == 1 || top < 1e-30 {
		for i := range all {
			all[i].weight, all[i].add = 1, 0
		}
		return
	}
	for i := range all {
		r := all[i].b / top
		r2 := r * r
		sum += r2 * r2 * r2 * r2
	}
	whole := top * math.Sqrt(math.Sqrt(math.Sqrt(sum)))
	for i := range all {
		r := all[i].b / whole
		r2 := r * r
		all[i].weight = r2 * r2 * r2 * r
	}
	for i := range all {
		h := &all[i]
		spread := 0.0
		for k := range all {
			spread += all[k].weight * all[k].b / whole * (1 - r3.Dot(h.n, all[k].n))
		}
		h.add = (touchPower - 1) * h.weight * spread * h.d1 * h.d1 / max(h.b, 1e-30)
	}
}

// add adds the barrier of every touching vertex.
func (c *contact) add(s *sheet, hessian bool) float64 {
	if c.thickness == 0 {
		return 0
	}
	total := 0.0
	for v := range s.x {
		power := 0.0
		for i := c.first[v]; i < c.first[v+1]; i++ {
			h := &c.touching[i]
			c.addTouch(s, v, h, hessian)
			b2 := h.b * h.b
			power += b2 * b2 * b2 * b2
		}
		total += s.area[v] * c.stiffness * c.thickness * math.Sqrt(math.Sqrt(math.Sqrt(power)))
	}
	return total
}

// push is the force of a touch on its vertex.
func (c *contact) push(s *sheet, v int, h *touch) r3.Vec {
	return r3.Scale(-s.area[v]*c.stiffness*h.weight*h.d1, h.n)
}

// addTouch adds the force and tangent of one touch.
func (c *contact) addTouch(s *sheet, v int, t *touch, hessian bool) {
	fixed := int32(s.fixed)
	push := c.push(s, v, t)
	s.force[v] = r3.Add(s.force[v], push)
	tri := &s.tris[t.tri]
	for k, i := range tri {
		s.force[i] = r3.Sub(s.force[i], r3.Scale(t.w[k], push))
	}
	if !hessian {
		return
	}
	h := along(t.n, 1, s.area[v]*c.stiffness*(t.weight*t.d2+t.add)/c.thickness, 0)
	if int32(v) >= fixed {
		s.matrix.Add(int32(v)-fixed, &h)
	}
	for k, i := range tri {
		if t.w[k] == 0 || i < fixed {
			continue
		}
		s.matrix.AddScaled(i-fixed, t.w[k]*t.w[k], &h)
		if int32(v) >= fixed {
			s.matrix.AddScaled(s.matrix.Slot(int32(v)-fixed, i-fixed), -t.w[k], &h)
		}
		for m := range k {
			if w := t.w[k] * t.w[m]; w != 0 && tri[m] >= fixed {
				s.matrix.AddScaled(s.matrix.Slot(i-fixed, tri[m]-fixed), w, &h)
			}
		}
	}
}

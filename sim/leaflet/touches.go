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

// gather lists every triangle that pushes on a vertex, with its share; c.facets must be those of the present place.
func (c *contact) gather(s *sheet) {
	c.touching = c.touching[:0]
	var h touch
	for v, x := range s.x {
		from := len(c.touching)
		c.first[v] = int32(from)
		list := c.pairs.of(v)
		if len(list) == 0 {
			continue
		}
		first := &c.near[v]
		old := first.tri
		first.d, c.exact[v] = c.at(s, x, old, math.Inf(1), first), true
		best := first.d
		lim := c.cutoff(best)
		if best < c.thickness {
			c.touching = append(c.touching, *first)
		}
		for _, t := range list {
			b := &c.ball[t]
			if l := lim + b.r; b.from(x) >= l*l || t == old {
				continue
			}
			d := c.at(s, x, t, lim, &h)
			if d >= lim {
				continue
			}
			if d < c.thickness {
				c.touching = append(c.touching, h)
			}
			if d < best {
				*first, best = h, d
				lim = c.cutoff(best)
			}
		}
		// What was listed before the closest was known may be too far after all.
		all := c.touching[from:]
		n := 0
		for i := range all {
			if all[i].d <= lim {
				if n != i {
					all[n] = all[i]
				}
				n++
			}
		}
		c.touching = c.touching[:from+n]
		c.share(c.touching[from:])
	}
	c.first[len(s.x)] = int32(len(c.touching))
}

// cutSteps is how finely the cutoff is tabulated.
const cutSteps = 256

// cutoffs tabulates, for closest distances i/cutSteps, the distance at which the barrier is leastShare of that at the closest.
func cutoffs() (out [cutSteps + 1]float64) {
	for i := range out {
		top, _, _ := barrier(max(float64(i)/cutSteps, closestShare))
		low, high := float64(i)/cutSteps, 1.0
		for range 40 {
			mid := (low + high) / 2
			if b, _, _ := barrier(max(mid, closestShare)); b > leastShare*top {
				low = mid
			} else {
				high = mid
			}
		}
		out[i] = low
	}
	return out
}

// cutoff is the distance beyond which a triangle does not matter to a vertex whose closest is at best.
func (c *contact) cutoff(best float64) float64 {
	y := best / c.thickness
	if y >= 1 {
		return best
	}
	y *= cutSteps
	i := int(y)
	return c.thickness * (c.cut[i] + (y-float64(i))*(c.cut[i+1]-c.cut[i]))
}

// share sets barrier, weight and added curvature of the triangles of one vertex.
//
// The second derivative of B is Σ w·b″ plus (t−1)·B times the variance of (b′/b)·n under the shares π = (b/B)^t. The
// variance is bounded by pairs: π(s)π(t)(1 − n(s)·n(t)) each, which is none where the triangles lie in one plane.
func (c *contact) share(all []touch) {
	if len(all) == 0 {
		return
	}
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

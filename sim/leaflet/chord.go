package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// chord is a one-sided spring from a fixed tip to a point of the sheet given by four corners and weights.
type chord struct {
	v       [4]int32
	w       [4]float64
	tip     r3.Vec
	length  float64 // slack up to this
	k       float64 // N/mm; 0 when cut
	group   int     // one of the Group constants
	muscle  int     // Anterolateral or Posteromedial
	slot    [6]int32
	tension float64 // N, at the last evaluation
	dir     r3.Vec  // from the tip to the leaflet
}

var cornerPairs = [6][2]int{{1, 0}, {2, 0}, {2, 1}, {3, 0}, {3, 1}, {3, 2}}

func (c *chord) findSlots(s *sheet) {
	for i, p := range cornerPairs {
		c.slot[i] = s.slot(c.v[p[0]], c.v[p[1]])
	}
}

// add adds energy, force and tangent of the chord and remembers its tension.
func (c *chord) add(s *sheet, hessian bool) float64 {
	if c.k == 0 {
		c.tension = 0
		return 0
	}
	d := r3.Scale(-1, c.tip)
	for i, v := range c.v {
		d = r3.Add(d, r3.Scale(c.w[i], s.x[v]))
	}
	l := r3.Norm(d)
	energy, pull, slope := ramp(l-c.length, chordBlend)
	inv := 1 / math.Max(l, 1e-9)
	c.tension, c.dir = c.k*pull, r3.Scale(inv, d)
	if pull == 0 {
		return 0
	}
	fixed := int32(s.fixed)
	for i, v := range c.v {
		s.force[v] = r3.Sub(s.force[v], r3.Scale(c.w[i]*c.tension, c.dir))
	}
	if hessian {
		b := along(d, inv, c.k*slope, c.tension*inv)
		for i, v := range c.v {
			if v >= fixed && c.w[i] != 0 {
				s.matrix.AddScaled(v-fixed, c.w[i]*c.w[i], &b)
			}
		}
		for i, p := range cornerPairs {
			if w := c.w[p[0]] * c.w[p[1]]; c.slot[i] >= 0 && w != 0 {
				s.matrix.AddScaled(c.slot[i], w, &b)
			}
		}
	}
	return c.k * energy
}

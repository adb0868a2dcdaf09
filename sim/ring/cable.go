package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// cable is a frictionless line running over consecutive points from, from+1, …; weight[k] is the share of the segment
// from+k → from+k+1 (indices modulo wrap on the annulus) that lies under it. The weights rise and fall smoothly over
// an anchor, so the path is C1 in the anchor stations; the anchor force is tension × change of weight.
type cable struct {
	ids    []int     // points, one more than weights
	weight []float64 // 0 to 1
	target float64   // free path length at which the cable is just slack, mm
	stiff  float64   // N/mm
	held   float64   // > 0: constant tension, N; target and stiff are not read
}

func (c *cable) reset() { c.ids, c.weight = c.ids[:0], c.weight[:0] }

// length is the path length under the cable at positions x.
func (c *cable) length(x []r3.Vec) float64 {
	l := 0.0
	for k, w := range c.weight {
		if w != 0 {
			l += w * span(r3.Sub(x[c.ids[k+1]], x[c.ids[k]]))
		}
	}
	return l
}

// pull returns energy, tension and stiffness at path length l. Tension grows from zero over CableToeMM, then linearly.
func (c *cable) pull(l float64) (energy, tension, stiffness float64) {
	if c.held > 0 {
		return c.held * (l - c.target), c.held, 0
	}
	x := l - c.target
	const w = CableToeMM
	switch {
	case x <= 0:
		return 0, 0, 0
	case x < w:
		return c.stiff * x * x * x / (6 * w), c.stiff * x * x / (2 * w), c.stiff * x / w
	}
	return c.stiff * (x*x/2 - w*x/2 + w*w/6), c.stiff * (x - w/2), c.stiff
}

// stretchAt is how far beyond its free length the cable is at tension t, mm.
func (c *cable) stretchAt(t float64) float64 {
	if c.held > 0 || t <= 0 {
		return 0
	}
	if half := c.stiff * CableToeMM / 2; t < half {
		return math.Sqrt(2 * CableToeMM * t / c.stiff)
	}
	return t/c.stiff + CableToeMM/2
}

// cableEnergy adds energy and, unless grad is nil, forces of all cables.
func (s *Solver) cableEnergy(x []r3.Vec, grad []float64) float64 {
	total := 0.0
	for k := range s.cables {
		c := &s.cables[k]
		e, t, _ := c.pull(c.length(x))
		total += e
		if grad != nil && t != 0 {
			s.pathGradient(c, x, t, grad)
		}
	}
	return total
}

// pathGradient adds scale × the derivative of the path length.
func (s *Solver) pathGradient(c *cable, x []r3.Vec, scale float64, grad []float64) {
	for k, w := range c.weight {
		if w != 0 {
			a, b := c.ids[k], c.ids[k+1]
			d := r3.Sub(x[b], x[a])
			addPair(grad, s.first[a], s.first[b], r3.Scale(scale*w/span(d), d))
		}
	}
}

// cableStiffness adds tension × second derivative of the path to the band matrix, and lists the rank-one terms: the
// cable's own stiffness along the gradient of its path, and for a tie, whose ends lie far apart in the order, also the
// two terms tension ÷ length square to it.
func (s *Solver) cableStiffness(x []r3.Vec, h *band) {
	s.ranks = 0
	for k := range s.cables {
		c := &s.cables[k]
		_, t, q := c.pull(c.length(x))
		if q != 0 {
			s.pathGradient(c, x, 1, s.nextRank(q))
		}
		if t == 0 {
			continue
		}
		for i, w := range c.weight {
			if w == 0 {
				continue
			}
			a, b := c.ids[i], c.ids[i+1]
			d := r3.Sub(x[b], x[a])
			l := span(d)
			d = r3.Scale(1/l, d)
			if k < s.tiesAt {
				addAxial(h, s.first[a], s.first[b], d, -t*w/l, t*w/l)
				continue
			}
			e := square(d)
			addPair(s.nextRank(t/l), s.first[a], s.first[b], e)
			addPair(s.nextRank(t/l), s.first[a], s.first[b], r3.Cross(d, e))
		}
	}
}

// nextRank starts a rank-one term of the given stiffness and returns its cleared vector.
func (s *Solver) nextRank(stiffness float64) []float64 {
	k := s.ranks
	s.ranks++
	s.rank[k] = stiffness
	clear(s.path[k])
	return s.path[k]
}

// square is a unit vector square to the unit vector d.
func square(d r3.Vec) r3.Vec {
	e := r3.Vec{X: 1}
	if math.Abs(d.X) > 0.7 {
		e = r3.Vec{Y: 1}
	}
	return r3.Unit(r3.Cross(d, e))
}

// ramp is the share of [a, b] that lies beyond station p, with a smooth front of the given width: the mean over [a, b]
// of a C1 step. Its derivative by p exists everywhere and is continuous.
func ramp(a, b, p, width float64) float64 {
	return (stepIntegral((b-p)/width+0.5) - stepIntegral((a-p)/width+0.5)) * width / (b - a)
}

// stepIntegral is ∫₀ˣ of the step 3t²−2t³ held at 0 below 0 and at 1 above 1.
func stepIntegral(x float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return x - 0.5
	}
	return x*x*x - x*x*x*x/2
}

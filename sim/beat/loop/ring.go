package loop

import "math"

// Samples per step: stage one at t+γh, stage two at t+h.
const stages = 2

// Gamma is the diagonal coefficient 1−1/√2 of the integrator (dimensionless).
const Gamma = 1 - 1/math.Sqrt2

// extrapolate is (1−γ)/γ = 1+√2: the second stage starts from y + extrapolate·(Y1−y).
const extrapolate = 1 + math.Sqrt2

// Compartment is one elastic volume. Emin, Emax in mmHg/mL (Emin > 0), P0 and ExpA in mmHg, V0 in mL, ExpB in 1/mL.
// Activation holds 2·steps values in [0, 1] at the times StageTime gives; nil means 0 throughout.
type Compartment struct {
	P0, V0, Emin, Emax, ExpA, ExpB float64
	Activation                     []float64
}

// Link joins compartment i to i+1. R in mmHg·s/mL, L in mmHg·s²/mL, K in mL/s/√mmHg.
//
// A pipe (Valve false) obeys R and L in both directions. A valve lets flow forward with R, L and the orifice term
// InvK2 = 1/K² (0 = no orifice), and backwards through a leak without inertance with K = LeakK (0 = tight).
// ForwardInvK2 and Leak, when not nil, hold 2·steps samples of 1/K² and K and replace the constants.
type Link struct {
	Valve        bool
	R, L         float64
	InvK2, LeakK float64
	ForwardInvK2 []float64
	Leak         []float64
}

// Ring is a closed loop of at least three compartments; Links has the same length.
type Ring struct {
	Period       float64 // s
	Steps        int     // steps per beat
	Compartments []Compartment
	Links        []Link
}

// StageTime is the time in s, from the start of the beat, of sample k (0 ≤ k < 2·steps) of a sampled course.
func StageTime(k, steps int, period float64) float64 {
	h := period / float64(steps)
	if k%stages == 0 {
		return (float64(k/stages) + Gamma) * h
	}
	return float64(k/stages+1) * h
}

// pressure returns p (mmHg) and dp/dV (mmHg/mL) at volume v and activation f.
func (c *Compartment) pressure(v, f float64) (p, e float64) {
	e = c.Emin + f*(c.Emax-c.Emin)
	x := v - c.V0
	p = c.P0 + e*x
	if c.ExpA != 0 {
		z := c.ExpB * x
		y, slope := 0.0, 0.0
		if z < expLinear {
			y = math.Exp(z)
			slope = y
		} else { // straight continuation, so that a wild iterate stays finite
			slope = math.Exp(expLinear)
			y = slope * (1 + z - expLinear)
		}
		a := (1 - f) * c.ExpA
		p += a * (y - 1)
		e += a * c.ExpB * slope
	}
	return p, e
}

// flow returns the flow q (mL/s) that solves the link law at the end of a stage, and dq/ddp, for the pressure
// difference dp, the flow history hist (mL/s) and lc = L/(γh).
func (l *Link) flow(dp, hist, lc, invK2, leakK float64) (q, g float64) {
	s := dp + lc*hist
	if !l.Valve {
		g = 1 / (l.R + lc)
		return s * g, g
	}
	if s > 0 {
		a := max(l.R+lc, resistanceFloor)
		root := math.Sqrt(a*a + 4*invK2*s)
		return 2 * s / (a + root), 1 / root
	}
	if leakK <= 0 || s == 0 {
		return 0, 0
	}
	c := 1 / (leakK * leakK)
	root := math.Sqrt(resistanceFloor*resistanceFloor - 4*c*s)
	return 2 * s / (resistanceFloor + root), 1 / root
}

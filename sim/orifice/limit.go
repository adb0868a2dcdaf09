package orifice

import "math"

// MarginLimitMM2 returns the largest area in mm² that two inextensible edges of length edge (each, mm) enclose over
// a chord (mm): the lens of two circular arcs, or the free circle edge²/π once edge ≥ π·chord/2 (physics.md A4).
// Zero when the edges are not longer than the chord or the chord is negative. Continuous with its first derivative
// where lens becomes circle.
func MarginLimitMM2(chord, edge float64) float64 {
	switch {
	case edge <= 0 || chord < 0 || edge <= chord:
		return 0
	case edge >= chord*math.Pi/2:
		return edge * edge / math.Pi
	}
	t := arcAngle(chord / edge)
	segment := t - math.Sin(t)*math.Cos(t)
	if t < 1e-3 {
		segment = t * t * t * 2 / 3
	}
	r := edge / (2 * t) // an arc of half-angle t and length edge
	return 2 * r * r * segment
}

// arcAngle solves sin t / t = ratio for the half-angle t of a circular arc, chord ÷ arc = ratio in (2/π, 1).
// Newton from the right on a concave function: monotone, quadratic.
func arcAngle(ratio float64) float64 {
	t := math.Pi / 2
	for range 60 {
		step := (math.Sin(t) - ratio*t) / (math.Cos(t) - ratio)
		t -= step
		if math.Abs(step) < 1e-15*t {
			break
		}
	}
	return t
}

// combine is the smooth hand-over (E⁻ⁿ + M⁻ⁿ)^(−1/n) and the margin's share of it, 0 when either limit is 0.
func combine(excursion, margin float64) (area, marginShare float64) {
	if excursion <= 0 || margin <= 0 {
		if margin <= 0 {
			return 0, 1
		}
		return 0, 0
	}
	r := math.Pow(excursion/margin, HandOver) // M⁻ⁿ ÷ E⁻ⁿ
	return excursion * math.Pow(1+r, -1/HandOver), r / (1 + r)
}

// uncombine returns the excursion limit that with margin gives area (area < margin).
func uncombine(area, margin float64) float64 {
	return area * math.Pow(1-math.Pow(area/margin, HandOver), -1/HandOver)
}

// ellipseShare is the share of a full ellipse's area left of u, u from −1 to 1 in half-axes.
func ellipseShare(u float64) float64 {
	u = math.Max(-1, math.Min(1, u))
	return 0.5 + (u*math.Sqrt(1-u*u)+math.Asin(u))/math.Pi
}

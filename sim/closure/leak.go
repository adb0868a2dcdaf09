package closure

import "math"

// meanGap is the mean of max(−overlap, 0) when the overlap is spread normally about sigma with standard deviation u (mm):
// E⁻ = uφ(σ/u) − σΦ(−σ/u). The mean contact is E⁻ + σ. Both are never negative.
func meanGap(sigma, u float64) float64 {
	if u < 1e-9 {
		return math.Max(-sigma, 0)
	}
	z := sigma / u
	if z > 37 {
		return 0
	}
	e := u * (math.Exp(-z*z/2)/math.Sqrt(2*math.Pi) - z*math.Erfc(z/math.Sqrt2)/2)
	return math.Max(e, 0)
}

// weight is the trapezoid weight of station i of n (1 inside, ½ at the ends).
func weight(i, n int) float64 {
	if i == 0 || i == n-1 {
		return 0.5
	}
	return 1
}

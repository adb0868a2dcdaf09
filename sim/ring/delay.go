package ring

import "math"

// DelayLaw is the loss of hold of the dissolving spacers that keep a delayed band open: the rate of loss rises from
// Slow to Fast round the time Lag, over about Blend to either side. Spacers that lose their hold let the band shorten;
// that the shortening follows the lost strength one for one is an assumption (no source measures it).
type DelayLaw struct {
	Slow, Fast float64 // 1/day
	Lag, Blend float64 // days
}

// DefaultDelay follows polydioxanone strength in tissue: 74, 50, 25 % at 2, 4, 6 weeks and 58, 14 % at 4, 8 weeks
// (physics.md G, sets 1 and 2). Rates read off those two sets; the lag is later than the ≈15 days of the in-vitro row.
func DefaultDelay() DelayLaw { return DelayLaw{Slow: 0.02, Fast: 0.05, Lag: 28, Blend: 4} }

// FirstOrder is the plain exponential law of a half-life in days (> 0).
func FirstOrder(halfLife float64) DelayLaw {
	r := math.Ln2 / halfLife
	return DelayLaw{Slow: r, Fast: r, Lag: 0, Blend: 1}
}

// Residual is the share of the spacers' hold left after the given days: 1 at 0 (and before), falling to 0.
func (l DelayLaw) Residual(days float64) float64 {
	if days <= 0 {
		return 1
	}
	// ∫ of Slow + (Fast−Slow)·logistic((t−Lag)/Blend) in closed form.
	late := l.Blend * (softplus((days-l.Lag)/l.Blend) - softplus(-l.Lag/l.Blend))
	return math.Exp(-l.Slow*days - (l.Fast-l.Slow)*late)
}

// Shortening is the band's shortening in mm after the given days: immediate at once, delayed as the hold is lost.
func (l DelayLaw) Shortening(immediate, delayed, days float64) float64 {
	return immediate + delayed*(1-l.Residual(days))
}

func softplus(x float64) float64 {
	if x > 0 {
		return x + math.Log1p(math.Exp(-x))
	}
	return math.Log1p(math.Exp(x))
}

package valve

import (
	"errors"
	"math"
)

const (
	pressureToleranceMMHg = 0.02 // between the pressure assumed and the pressure found; chosen
	maxPasses             = 40
)

var errNoBalance = errors.New("valve and circulation: no balance within the allowed passes")

// balance finds the pressure p with found(p) = p to pressureToleranceMMHg, from start: the secant rule, held inside the
// bracket of the best values on either side once there are both. It returns the last pressure tried; the error is
// found's own, or errNoBalance.
func balance(start float64, found func(float64) (float64, error)) (float64, error) {
	low, high := math.Inf(-1), math.Inf(1) // found(low) > low, found(high) < high
	var lastP, lastMiss float64
	p := start
	for pass := 1; ; pass++ {
		f, err := found(p)
		if err != nil {
			return p, err
		}
		miss := f - p
		if math.Abs(miss) < pressureToleranceMMHg {
			return p, nil
		}
		if pass == maxPasses {
			return p, errNoBalance
		}
		if miss > 0 {
			low = math.Max(low, p)
		} else {
			high = math.Min(high, p)
		}
		next := p + miss
		if slope := (miss - lastMiss) / (p - lastP); pass > 1 && slope < 0 {
			next = p - miss/slope
		}
		lastP, lastMiss = p, miss
		if next <= low || next >= high {
			next = (low + high) / 2
			if math.IsInf(next, 0) {
				next = p + math.Copysign(math.Min(10, math.Abs(miss)), miss)
			}
		}
		p = math.Max(1, next)
	}
}

// unbalanced turns errNoBalance into a status and passes on any other error.
func (f *flows) unbalanced(err error) error {
	if errors.Is(err, errNoBalance) {
		f.converged, f.status = false, err.Error()
		return nil
	}
	return err
}

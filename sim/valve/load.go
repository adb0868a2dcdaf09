package valve

import (
	"annuloscope/sim/anatomy"
	"annuloscope/sim/beat"
)

// exerciseRate is the rise of the rate in brisk effort, as in beat.Exercising, for the quick tier.
const exerciseRate = 50.0

// nowRate is the heart rate now, 1/min.
func nowRate(h *anatomy.Heart) float64 { return h.RatePerMin + h.RateChange + exerciseRate*h.Exercise }

// now puts what the heart does now on the circulation as measured: growth with the leak, rate, effort.
func now(h *anatomy.Heart, p beat.Params) beat.Params {
	p = p.Adapted(h.Adaptation)
	p.RatePerMin += h.RateChange
	return p.Exercising(h.Exercise)
}

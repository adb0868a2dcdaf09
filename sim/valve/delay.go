package valve

import "annuloscope/sim/ring"

// delayHalfDays is the time at which ring.DefaultDelay has lost half its hold, in days (a test checks it).
const delayHalfDays = 29.3801

// Delayed is the share of a planned shortening that is there on a day, when the shortening comes by the loss of a
// spacer: the published course of a dissolving suture (ring.DefaultDelay, physics.md G) stretched in time so that half
// is there after halfDays. 0 days means all at once.
func Delayed(halfDays, day float64) float64 {
	if halfDays <= 0 {
		return 1
	}
	return 1 - ring.DefaultDelay().Residual(day*delayHalfDays/halfDays)
}

package valve_test

import (
	"math"
	"testing"

	"annuloscope/sim/valve"
)

// Half of a delayed shortening is there after its half-time, whatever that is; none at first; all of it at once without
// a delay.
func TestDelayedHalfTime(t *testing.T) {
	for _, half := range []float64{10, 28, 60} {
		if got := valve.Delayed(half, half); math.Abs(got-0.5) > 1e-3 {
			t.Errorf("half-time %v d: %v is there after it", half, got)
		}
		if got := valve.Delayed(half, 0); got != 0 {
			t.Errorf("half-time %v d: %v is there on the first day", half, got)
		}
	}
	if got := valve.Delayed(0, 0); got != 1 {
		t.Errorf("without delay %v is there", got)
	}
}

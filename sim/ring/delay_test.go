package ring

import (
	"math"
	"testing"
)

// physics.md G, "First-order residual ½^{t/t½}", tolerance 1e-4.
func TestFirstOrderResidual(t *testing.T) {
	days := []float64{7, 14, 28, 56}
	for half, want := range map[float64][]float64{
		14: {0.7071, 0.5, 0.25, 0.0625}, 28: {0.8409, 0.7071, 0.5, 0.25}, 42: {0.8909, 0.7937, 0.6300, 0.3969},
	} {
		for k, d := range days {
			if got := FirstOrder(half).Residual(d); math.Abs(got-want[k]) > 1e-4 {
				t.Errorf("half-life %g d, day %g: residual %.5f, want %.4f", half, d, got, want[k])
			}
		}
	}
}

// physics.md G, polydioxanone strength in tissue, sets 1 (S45, secondary) and 2 (S46), tolerance 10 points.
func TestDefaultDelayAgainstSuture(t *testing.T) {
	for _, row := range []struct{ weeks, percent float64 }{{2, 74}, {4, 50}, {6, 25}, {4, 58}, {8, 14}} {
		got := 100 * DefaultDelay().Residual(7*row.weeks)
		t.Logf("week %g: published %g %%, model %.1f %%", row.weeks, row.percent, got)
		if math.Abs(got-row.percent) > 10 {
			t.Errorf("week %g: residual %.1f %%, published %g %%", row.weeks, got, row.percent)
		}
	}
}

// The rate of loss rises (physics.md G, "rate constants from those") and the shortening runs from immediate to all.
func TestDelayIsSlowThenFast(t *testing.T) {
	l := DefaultDelay()
	rate := func(d float64) float64 { return -math.Log(l.Residual(d+1) / l.Residual(d)) }
	last := 0.0
	for d := 0.0; d < 80; d++ {
		if r := rate(d); r < last {
			t.Fatalf("day %g: rate %g below the day before's %g", d, r, last)
		} else {
			last = r
		}
	}
	if got := l.Shortening(5, 10, 0); got != 5 {
		t.Errorf("day 0: %g mm, want 5", got)
	}
	if got := l.Shortening(5, 10, 1e4); math.Abs(got-15) > 1e-9 {
		t.Errorf("at the end: %g mm, want 15", got)
	}
}

package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// saddleCircle samples z = h·cos 2θ on a circle of radius 1 (physics.md E) at n points equally spaced in θ.
func saddleCircle(h float64, n int) []r3.Vec {
	out := make([]r3.Vec, n)
	for i := range out {
		t := 2 * math.Pi * float64(i) / float64(n)
		out[i] = r3.Vec{X: math.Cos(t), Y: math.Sin(t), Z: h * math.Cos(2*t)}
	}
	return out
}

// physics.md E, row "Minimal surface, same boundary" (computed): A/πR², sheet tolerance 1e-6.
func TestMinimalSurfaceOfSaddleCircle(t *testing.T) {
	rows := []struct{ h, want float64 }{
		{0.1, 1.0099342}, {0.15, 1.0221722}, {0.2, 1.0389865}, {0.25, 1.0600918}, {0.3, 1.0851618}, {0.4, 1.1458032},
	}
	for _, r := range rows {
		got, status := MinimalArea(saddleCircle(r.h, 256))
		got /= math.Pi
		if status != Converged {
			t.Errorf("h/R %g: %v", r.h, status)
		}
		if math.Abs(got-r.want) > 1e-6 {
			t.Errorf("h/R %g: A/πR² = %.8f, physics.md E %.7f", r.h, got, r.want)
		}
		t.Logf("h/R %g: %.8f (%.7f)", r.h, got, r.want)
	}
}

package geometry

import (
	"math"
	"math/rand/v2"
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

// Over the whole range of annuli (fixed seed): it converges, lies between the projected area and the cone over the curve,
// does not depend on the first point (to the error of a spline through few points), and scales with the square of the size.
func TestMinimalAreaProperty(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for range 16 {
		c := in(20, 60)
		shape := AnnulusShape{
			CommissuralMM: c, SeptalLateralMM: c * in(0.61, 1.15), HeightMM: c * in(0, 0.33),
			IntertrigoneShare: in(0.15, 0.32), AnteriorDepthShare: in(0.33, 0.5),
		}
		a := mustAnnulus(t, shape)
		n := 40 + r.IntN(200)
		curve := a.CurveTo(make([]r3.Vec, n))
		area, status := MinimalArea(curve)
		if status != Converged {
			t.Errorf("%+v: %v", shape, status)
		}
		fine := a.CurveTo(make([]r3.Vec, 1000))
		flat := ProjectedArea(fine, FitPlane(fine).Normal)
		cone := 0.0
		for i, p := range fine {
			cone += r3.Norm(r3.Cross(p, fine[(i+1)%len(fine)])) / 2
		}
		if area < flat*(1-2e-5) || area > cone*(1+2e-5) {
			t.Errorf("%+v: minimal area %.4f is not between projected %.4f and cone %.4f", shape, area, flat, cone)
		}
		k := 1 + r.IntN(n-1)
		turned := append(append([]r3.Vec{}, curve[k:]...), curve[:k]...)
		for i, p := range turned {
			turned[i] = r3.Scale(0.5, p)
		}
		again, _ := MinimalArea(turned)
		near(t, "area of the half-size curve from another first point", 4*again/area, 1, 1e-5)
	}
}

// More nodes converge fast: 65, 129 and 257 nodes on the normal annulus.
func TestMinimalAreaNodes(t *testing.T) {
	curve := normalShape.Curve(512)
	best, _ := NewMinimalSurface(curve, 257)
	for _, r := range []struct {
		nodes int
		tol   float64
	}{{33, 2e-4}, {65, 1e-6}, {129, 1e-8}} {
		s, status := NewMinimalSurface(curve, r.nodes)
		if status != Converged {
			t.Errorf("%d nodes: %v", r.nodes, status)
		}
		t.Logf("%d nodes: relative error %.1e", r.nodes, s.AreaMM2/best.AreaMM2-1)
		near(t, "relative error", s.AreaMM2/best.AreaMM2, 1, r.tol)
	}
}

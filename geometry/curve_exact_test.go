package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r3"
)

// sample returns n points of a parametric closed curve over one turn.
func sample(n int, f func(t float64) r3.Vec) []r3.Vec {
	out := make([]r3.Vec, n)
	for i := range out {
		out[i] = f(2 * math.Pi * float64(i) / float64(n))
	}
	return out
}

// physics.md E, "Saddle z=h cos2θ on circle R": closed form and printed rows (1e-7), for the polygon, Richardson
// extrapolated from two grids, and for the periodic spline.
func TestSaddleCircleLengthClosedForm(t *testing.T) {
	for _, r := range []struct{ h, want float64 }{
		{0.05, 1.0024953}, {0.1, 1.0099262}, {0.15, 1.0221339}, {0.2, 1.0388736}, {0.25, 1.0598394}, {0.3, 1.0846895}, {0.4, 1.1446328},
	} {
		k := 4 * r.h * r.h
		exact := 4 * math.Sqrt(1+k) * mathext.CompleteE(k/(1+k)) / (2 * math.Pi)
		near(t, "closed form", exact, r.want, 1e-7)
		coarse, fine := Perimeter(saddleCircle(r.h, 512)), Perimeter(saddleCircle(r.h, 1024))
		near(t, "polygon, extrapolated", (4*fine-coarse)/3/(2*math.Pi), exact, 1e-8)
		near(t, "spline", NewClosedSpline(saddleCircle(r.h, 256)).LengthMM()/(2*math.Pi), exact, 1e-8)
		if order := math.Log2((exact - coarse/(2*math.Pi)) / (exact - fine/(2*math.Pi))); math.Abs(order-2) > 0.01 {
			t.Errorf("polygon order %.3f, want 2", order)
		}
	}
	// physics.md E, "small-h series": h/R 0.2 → 1.0388, tolerance 1e-4.
	near(t, "series", Perimeter(saddleCircle(0.2, 4096))/(2*math.Pi), 1+0.04-0.75*0.0016, 1e-4)
}

// physics.md E, "Saddle ratio" (identity): total height 2h over width 2R is h/R.
func TestSaddleRatioIdentity(t *testing.T) {
	for _, h := range []float64{0.05, 0.137, 0.2, 0.4} {
		c := saddleCircle(h, 64)
		plane := FitPlane(c)
		near(t, "normal", plane.Normal.Z, 1, 1e-12)
		near(t, "height ratio", Extent(c, plane)/2, h, 1e-12)
	}
}

// physics.md E, "Hyperbolic paraboloid": A/πR², 1e-7 by a polar mesh of the surface itself, Richardson extrapolated, and
// "Minimal surface ... always < hypar".
func TestHyperbolicParaboloidArea(t *testing.T) {
	hypar := func(h float64, rings int) float64 {
		around := 4 * rings
		sections := make([][]r3.Vec, around)
		for k := range sections {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(around))
			line := make([]r3.Vec, rings+1)
			for j := range line {
				r := float64(j) / float64(rings)
				line[j] = r3.Vec{X: r * c, Y: r * s, Z: h * r * r * (c*c - s*s)}
			}
			sections[k] = line
		}
		// Loft resamples by arc length along the same parabola: still on the polyline, not on the surface; so build
		// the grid directly.
		m := &Mesh{}
		for _, s := range sections {
			m.Vertices = append(m.Vertices, s...)
		}
		m.Faces = gridFaces(around, rings+1, true, false)
		return m.Area()
	}
	for _, r := range []struct{ h, want float64 }{
		{0.1, 1.0099343}, {0.15, 1.0221734}, {0.2, 1.0389926}, {0.25, 1.0601133}, {0.3, 1.0852202}, {0.4, 1.1460674},
	} {
		k := 4 * r.h * r.h
		exact := (math.Pow(1+k, 1.5) - 1) / (6 * r.h * r.h)
		near(t, "closed form", exact, r.want, 1e-7)
		a, b := hypar(r.h, 32)/math.Pi, hypar(r.h, 64)/math.Pi
		near(t, "mesh, extrapolated", (4*b-a)/3, exact, 2e-6)
		minimal, _ := MinimalArea(saddleCircle(r.h, 256))
		if minimal/math.Pi >= exact {
			t.Errorf("h %g: minimal area %.8f is not below the paraboloid's %.8f", r.h, minimal/math.Pi, exact)
		}
	}
}

// physics.md E, the three D-shapes: area and perimeter, 1e-5 relative; arcs sampled finely, straight parts exact.
func TestDShapes(t *testing.T) {
	const n = 4000
	arc := func(from, to float64, f func(t float64) r3.Vec) []r3.Vec {
		out := make([]r3.Vec, n)
		for i := range out {
			out[i] = f(from + (to-from)*float64(i)/n)
		}
		return out
	}
	half := func(a, b float64) func(float64) r3.Vec {
		return func(t float64) r3.Vec { return r3.Vec{X: a * math.Cos(t), Y: b * math.Sin(t)} }
	}
	phi := math.Asin(8.0 / 18) // circle of radius 18 cut 8 from its centre
	cases := []struct {
		name    string
		curve   []r3.Vec
		area, p float64
	}{
		{"two half ellipses", append(arc(0, math.Pi, half(18, 9)), arc(math.Pi, 2*math.Pi, half(18, 15))...), 678.584, 95.5415},
		{"straight edge and half ellipse", append(arc(math.Pi, 2*math.Pi, half(16, 24)), r3.Vec{X: 16}), 603.186, 95.4618},
		{"cut circle", append(arc(math.Pi-phi, 2*math.Pi+phi, half(18, 18)), half(18, 18)(2*math.Pi+phi)), 787.154, 105.3776},
	}
	for _, c := range cases {
		near(t, c.name+" area", AreaVector(c.curve).Z, c.area, 1e-5*c.area)
		near(t, c.name+" perimeter", Perimeter(c.curve), c.p, 1e-5*c.p)
		x, y := make([]float64, len(c.curve)), make([]float64, len(c.curve))
		for i, p := range c.curve {
			x[i], y[i] = p.X, p.Y
		}
		near(t, c.name+" planimetry", PlanarArea(x, y), AreaVector(c.curve).Z, 1e-9)
	}
}

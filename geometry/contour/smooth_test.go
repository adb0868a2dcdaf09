package contour

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g ± %g", what, got, want, tol)
	}
}

// λ → 0 interpolates, λ → ∞ is the straight regression line (open) and the mean (closed).
func TestSmoothLimits(t *testing.T) {
	const n = 30
	u, p := make([]float64, n), make([]r3.Vec, n)
	var mean r3.Vec
	var su, suu, sy, suy float64
	for i := range u {
		u[i] = float64(i) + 0.3*math.Sin(float64(3*i))
		p[i] = r3.Vec{X: math.Cos(u[i] / 3), Y: 0.5*u[i] + math.Sin(float64(7*i)), Z: float64(i % 3)}
		mean = r3.Add(mean, r3.Scale(1.0/n, p[i]))
		su, suu, sy, suy = su+u[i], suu+u[i]*u[i], sy+p[i].Y, suy+u[i]*p[i].Y
	}
	s, fit, err := Smooth(u, p, nil, 0, 1e-12)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "degrees of freedom", fit.DoF, n, 1e-6)
	for i := range u {
		q, _, _ := s.Eval(u[i])
		near(t, "interpolation", r3.Norm(r3.Sub(q, p[i])), 0, 1e-8)
	}
	line, fit, _ := Smooth(u, p, nil, 0, 1e12)
	slope := (n*suy - su*sy) / (n*suu - su*su)
	near(t, "degrees of freedom of a line", fit.DoF, 2, 1e-6)
	q, d, _ := line.Eval(10)
	near(t, "slope", d.Y, slope, 1e-6)
	near(t, "height", q.Y, sy/n+slope*(10-su/n), 1e-5)
	flat, fit, _ := Smooth(u, p, nil, 31, 1e12)
	near(t, "degrees of freedom of a point", fit.DoF, 1, 1e-6)
	q, _, _ = flat.Eval(4)
	near(t, "mean", r3.Norm(r3.Sub(q, mean)), 0, 1e-5)
}

// The fit is the minimum: no small change of any value, interpolated again, lowers the energy. The energy is evaluated
// from the definition (sum of squares plus λ∫|f″|², exact for a cubic spline), not from the matrices of the fit.
func TestSmoothIsMinimum(t *testing.T) {
	const n, lambda = 24, 0.7
	u, p, w := make([]float64, n), make([]r3.Vec, n), make([]float64, n)
	for i := range u {
		a := 2 * math.Pi * float64(i) / n
		u[i] = float64(i) + 0.2*math.Cos(float64(i*i))
		w[i] = 1 + float64(i%4)
		p[i] = r3.Vec{X: 5 * math.Cos(a), Y: 4*math.Sin(a) + 0.4*math.Sin(float64(11*i)), Z: math.Cos(2 * a)}
	}
	for _, period := range []float64{0, n + 0.5} {
		energy := func(s *Spline) float64 {
			e := 0.0
			for i := range u {
				q, _, _ := s.Eval(u[i])
				e += w[i] * r3.Norm2(r3.Sub(q, p[i]))
			}
			for i := range len(s.Knots) - 1 {
				a, b := s.Second[i], s.Second[(i+1)%n]
				e += lambda * (s.Knots[i+1] - s.Knots[i]) / 3 * (r3.Dot(a, a) + r3.Dot(a, b) + r3.Dot(b, b))
			}
			return e
		}
		best, _, err := Smooth(u, p, w, period, lambda)
		if err != nil {
			t.Fatal(err)
		}
		e0 := energy(&best)
		for i := range u {
			for _, step := range []float64{-1e-3, 1e-3} {
				q := append([]r3.Vec(nil), best.Points...)
				q[i].Y += step
				changed, _, _ := Smooth(u, q, nil, period, 1e-12) // interpolates
				if e := energy(&changed); e < e0 {
					t.Errorf("period %g: moving value %d by %g lowers the energy from %.12g to %.12g", period, i, step, e0, e)
				}
			}
		}
	}
}

// Automatic smoothing finds the noise that was put in (150 samples, fixed seed).
func TestGCVFindsNoise(t *testing.T) {
	const n, sigma = 150, 0.2
	u, p := make([]float64, n), make([]r3.Vec, n)
	noise := newNoise(3)
	for i := range u {
		a := 2 * math.Pi * float64(i) / n
		u[i] = 18 * a
		p[i] = r3.Add(r3.Vec{X: 18 * math.Cos(a), Y: 18 * math.Sin(a), Z: 3 * math.Cos(2*a)}, r3.Scale(sigma, noise()))
	}
	s, fit, err := Smooth(u, p, nil, 18*2*math.Pi, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "noise", fit.NoiseMM, sigma, 0.15*sigma)
	rms := 0.0
	for i := range u {
		q, _, _ := s.Eval(u[i])
		a := u[i] / 18
		rms += r3.Norm2(r3.Sub(q, r3.Vec{X: 18 * math.Cos(a), Y: 18 * math.Sin(a), Z: 3 * math.Cos(2*a)})) / 3 / n
	}
	if rms = math.Sqrt(rms); rms > 0.5*sigma {
		t.Errorf("smoothed error %g mm is not below half the noise %g", rms, sigma)
	}
}

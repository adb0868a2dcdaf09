package contour

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Smoothing splines against scipy (geometry/testdata/oracle.py): open ones against make_smoothing_spline with the same λ
// and weights, periodic ones against normal equations in cardinal splines, the automatic choice against scipy's own.
func TestSmoothScipyOracle(t *testing.T) {
	data, err := os.ReadFile("../testdata/oracle.json")
	if err != nil {
		t.Fatal(err)
	}
	var o struct {
		Smoothing []struct {
			Lambda, Period float64
			Values         [][3]float64
		}
		Periodic []struct {
			Lambda, Period float64
			Values         [][3]float64
		} `json:"periodic_smoothing"`
		Automatic []struct {
			Coordinate int
			Values     []float64
		}
	}
	if err := json.Unmarshal(data, &o); err != nil {
		t.Fatal(err)
	}
	if len(o.Smoothing) != 3 || len(o.Periodic) != 3 || len(o.Automatic) != 3 {
		t.Fatal("the stored oracle is incomplete: run geometry/testdata/oracle.py again")
	}
	const n = 40
	u, p, w := make([]float64, n), make([]r3.Vec, n), make([]float64, n)
	seed := uint64(12345)
	noise := func() float64 { // the generator of oracle.py
		seed = (1103515245*seed + 12345) % (1 << 31)
		return 0.3 * (float64(seed)/(1<<31) - 0.5)
	}
	for i := range n {
		x := float64(i)
		u[i] = x + 0.3*math.Sin(3*x)
		p[i] = r3.Vec{X: math.Cos(u[i]/3) + noise(), Y: 0.05*u[i] + math.Sin(u[i]/5) + noise(), Z: math.Sin(u[i]/7) + noise()}
		w[i] = 1 + float64(i%4)
	}
	for _, r := range append(o.Smoothing, o.Periodic...) {
		s, _, err := Smooth(u, p, w, r.Period, r.Lambda)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range r.Values {
			near(t, "value", r3.Norm(r3.Sub(s.Points[i], r3.Vec{X: v[0], Y: v[1], Z: v[2]})), 0, 1e-8)
		}
	}
	for _, r := range o.Automatic {
		q := make([]r3.Vec, n)
		for i := range q {
			q[i].X = [3]float64{p[i].X, p[i].Y, p[i].Z}[r.Coordinate]
		}
		s, fit, err := Smooth(u, q, nil, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for i, v := range r.Values {
			worst = math.Max(worst, math.Abs(s.Points[i].X-v))
		}
		t.Logf("coordinate %d: λ %.4g, degrees of freedom %.2f, largest difference to scipy %.2g", r.Coordinate, fit.Lambda, fit.DoF, worst)
		near(t, "automatic smoothing", worst, 0, 1e-4)
	}
}

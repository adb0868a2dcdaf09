package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func drawVec(rt *rapid.T, name string) r3.Vec {
	g := rapid.Float64Range(-10, 10)
	return r3.Vec{X: g.Draw(rt, name+".x"), Y: g.Draw(rt, name+".y"), Z: g.Draw(rt, name+".z")}
}

// Measures do not change under rotation and translation; area and length scale; the plane turns with the curve.
func TestMeasuresInvariant(t *testing.T) {
	base := mustAnnulus(t, normalShape).CurveTo(make([]r3.Vec, 96))
	area, length, flat := r3.Norm(AreaVector(base)), Perimeter(base), FitPlane(base)
	height := Extent(base, flat)
	rapid.Check(t, func(rt *rapid.T) {
		axis := drawVec(rt, "axis")
		if r3.Norm(axis) < 1e-3 {
			axis = r3.Vec{Z: 1}
		}
		rot := r3.NewRotation(rapid.Float64Range(-3, 3).Draw(rt, "angle"), axis)
		d := r3.Scale(20, drawVec(rt, "shift"))
		k := rapid.Float64Range(0.05, 20).Draw(rt, "scale")
		c := make([]r3.Vec, len(base))
		for i, p := range base {
			c[i] = r3.Add(d, r3.Scale(k, rot.Rotate(p)))
		}
		near(rt, "area", r3.Norm(AreaVector(c)), k*k*area, 1e-8*k*k*area)
		near(rt, "perimeter", Perimeter(c), k*length, 1e-10*k*length)
		plane := FitPlane(c)
		near(rt, "height", Extent(c, plane), k*height, 1e-8*k*height)
		near(rt, "normal", r3.Norm(r3.Sub(plane.Normal, rot.Rotate(flat.Normal))), 0, 1e-7)
		same := FitPlanePoints(c)
		near(rt, "normal of the points", math.Abs(r3.Dot(same.Normal, plane.Normal)), 1, 1e-6)
	})
}

func TestResampleKeepsLengthAndEnds(t *testing.T) {
	line := []r3.Vec{{}, {X: 3}, {X: 3, Y: 4}}
	out := Resample(make([]r3.Vec, 8), line, false)
	for i := 1; i < len(out); i++ {
		if i != 4 && i != 3 { // the corner lies between points 3 and 4 (arc 3 of 7: point 3 is at 3)
			near(t, "spacing", r3.Norm(r3.Sub(out[i], out[i-1])), 1, 1e-12)
		}
	}
	near(t, "end", r3.Norm(r3.Sub(out[7], line[2])), 0, 1e-12)
	c := circle(5, 1000)
	r := Resample(make([]r3.Vec, 10), c, true)
	near(t, "tenth of the circle", PhiOf(r[1]), 2*math.Pi/10, 1e-9)
}

func TestSelfCrossings(t *testing.T) {
	eight := sample(40, func(t float64) r3.Vec {
		return r3.Vec{X: math.Sin(t + 0.05), Y: math.Sin(2 * (t + 0.05)), Z: 0.3 * math.Cos(t+0.05)}
	})
	x := SelfCrossings(eight, true, r3.Vec{Z: 1})
	if len(x) != 1 {
		t.Fatalf("figure of eight crosses %d times, want 1", len(x))
	}
	near(t, "crossing x", x[0].Point.X, 0, 1e-9)
	near(t, "gap along z", x[0].GapMM, 0.6, 0.01)
	if n := len(SelfCrossings(circle(3, 100), true, r3.Vec{Z: 1})); n != 0 {
		t.Errorf("a circle crosses itself %d times", n)
	}
	if n := len(SelfCrossings(circle(3, 100), false, r3.Vec{Z: 1})); n != 0 {
		t.Errorf("an open arc crosses itself %d times", n)
	}
}

// The periodic spline through samples of a smooth curve converges with order 4.
func TestClosedSplineOrder(t *testing.T) {
	f := func(t float64) r3.Vec {
		return r3.Vec{X: 20 * math.Cos(t), Y: 14 * math.Sin(t), Z: 3 * math.Cos(2*t)}
	}
	worst := func(n int) float64 {
		s := NewClosedSpline(sample(n, f))
		fine := sample(20000, f)
		e := 0.0
		for i := range n {
			p, _, _ := s.Eval((s.Knot(i) + s.Knot(i+1)) / 2)
			e = math.Max(e, NearestOnCurve(fine, true, p).DistanceMM)
		}
		return e
	}
	a, b := worst(24), worst(48)
	near(t, "order", math.Log2(a/b), 4, 0.5)
	s := NewClosedSpline(sample(64, f))
	out := s.Resample(make([]r3.Vec, 40), 0)
	for i := range out {
		near(t, "equal spacing", r3.Norm(r3.Sub(out[i], out[(i+39)%40])), s.LengthMM()/40, 2e-2)
	}
	for i := range 64 { // interpolation and continuity of the second derivative
		p, d, dd := s.Eval(s.Knot(i) + 1e-9)
		_, d0, dd0 := s.Eval(s.Knot(i) - 1e-9)
		near(t, "interpolation", r3.Norm(r3.Sub(p, f(2*math.Pi*float64(i)/64))), 0, 1e-7)
		near(t, "first derivative", r3.Norm(r3.Sub(d, d0)), 0, 1e-7)
		near(t, "second derivative", r3.Norm(r3.Sub(dd, dd0)), 0, 1e-7)
	}
}

func TestNoAllocation(t *testing.T) {
	a := mustAnnulus(t, normalShape)
	curve, dst := a.CurveTo(make([]r3.Vec, 128)), make([]r3.Vec, 128)
	arc, marks := make([]float64, 128), a.MarksOf(128)
	n := testing.AllocsPerRun(20, func() {
		a.CurveTo(dst)
		Resample(dst, curve, true)
		Cumulative(arc, curve, true)
		Measure(curve, marks)
	})
	if n != 0 {
		t.Errorf("%g allocations in the steady state, want 0", n)
	}
}

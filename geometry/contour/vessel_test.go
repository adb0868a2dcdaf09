package contour

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"annuloscope/geometry"
	"annuloscope/geometry/meshio"
	"gonum.org/v1/gonum/spatial/r3"
)

// sinus is an invented vein beside the normal annulus, ostium at the right.
func sinus(t *testing.T, n int) geometry.Centreline {
	t.Helper()
	a, err := geometry.NewAnnulus(normal)
	if err != nil {
		t.Fatal(err)
	}
	c, err := geometry.WindBeside(a, 330*math.Pi/180, true, []geometry.Station{
		{MM: 0, DistanceMM: 6, ElevationMM: 9}, {MM: 30, DistanceMM: 10, ElevationMM: 6}, {MM: 70, DistanceMM: 9, ElevationMM: 2}, {MM: 110, DistanceMM: 12, ElevationMM: 3}}, n)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Annulus and sinus exported in a foreign frame, in any order, through files, come back where they were (0.05 mm).
func TestVesselComesBack(t *testing.T) {
	c := sinus(t, 111)
	radii := make([]float64, len(c.Points))
	for i := range radii {
		radii[i] = 5 - 0.025*float64(i)
	}
	a, err := FitAnnulus(moved(normal.Curve(200)), Options{})
	if err != nil {
		t.Fatal(err)
	}
	var file bytes.Buffer
	if err := meshio.WriteCSV(&file, meshio.Polyline{Points: geometry.Reverse(moved(c.Points)), Radii: reversed(radii)}, nil); err != nil {
		t.Fatal(err)
	}
	in, err := meshio.Read(&file)
	if err != nil {
		t.Fatal(err)
	}
	v, err := FitVessel(in.Points, in.Radii, a.Frame, Options{Samples: 111})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("length %.4f (true 110), residual rms %.2g mm", v.LengthMM, v.Residuals.RMSMM)
	near(t, "length", v.LengthMM, 110, 0.02)
	for i, p := range v.Points {
		near(t, "point", r3.Norm(r3.Sub(p, c.Points[i])), 0, 0.05)
		near(t, "radius", v.Radii[i], radii[i], 0.01)
	}
	if v.Points[0].X < 0 {
		t.Error("the vessel does not start at the right")
	}
	if len(v.Warnings) != 0 {
		t.Error(v.Warnings)
	}
}

func reversed(x []float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[len(x)-1-i] = v
	}
	return out
}

// Any order gives the same vessel as the right order.
func TestVesselAnyOrder(t *testing.T) {
	points := noisy(sinus(t, 80).Points, 0.15, 4)
	frame := Frame{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
	want, err := FitVessel(points, nil, frame, Options{KeepOrder: true})
	if err != nil {
		t.Fatal(err)
	}
	for seed := range uint64(4) {
		got, err := FitVessel(shuffled(points, seed), nil, frame, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range got.Points {
			near(t, "point", r3.Norm(r3.Sub(p, want.Points[i])), 0, 0.02)
		}
	}
}

func TestVesselRejects(t *testing.T) {
	points := sinus(t, 60).Points
	frame := Frame{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
	small := make([]r3.Vec, len(points))
	for i, p := range points {
		small[i] = r3.Scale(0.001, p)
	}
	radii := make([]float64, len(points))
	for _, c := range []struct {
		name   string
		points []r3.Vec
		radii  []float64
		want   string
	}{
		{"metres", small, nil, "look like m: set Scale to 1000"},
		{"radius 0", points, radii, "point 1 radius = 0"},
		{"radii", points, radii[:3], "3 radii for 60 points"},
		{"few", points[:2], nil, "2 points"},
		{"one place", make([]r3.Vec, 9), nil, "length = 0"},
	} {
		_, err := FitVessel(c.points, c.radii, frame, Options{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v does not contain %q", c.name, err, c.want)
		}
	}
	gap := append(append([]r3.Vec(nil), points[:20]...), points[40:]...)
	v, err := FitVessel(gap, nil, frame, Options{KeepOrder: true})
	if err != nil || len(v.Warnings) == 0 {
		t.Errorf("a vessel with a third missing: warnings %v, error %v", v.Warnings, err)
	}
}

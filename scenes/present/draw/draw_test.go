package draw_test

import (
	"math"
	"testing"

	"annuloscope/scenes/present/draw"

	"gonum.org/v1/gonum/spatial/r3"
)

// The standard view (DEVELOPERS.md, frames): from the atrium, x to the right and y up the picture.
func TestStandardViewFromTheAtrium(t *testing.T) {
	cam := draw.Camera{Elevation: 90, Scale: 2}
	r := draw.Rect{X: 10, Y: 20, W: 100, H: 80}
	for _, c := range []struct {
		name string
		p    r3.Vec
		want draw.Point
	}{
		{"centre", r3.Vec{}, draw.Point{X: 60, Y: 60}},
		{"posteromedial commissure to the right", r3.Vec{X: 10}, draw.Point{X: 80, Y: 60}},
		{"aorta at the top", r3.Vec{Y: 10}, draw.Point{X: 60, Y: 40}},
	} {
		if got, _ := cam.Project(r, c.p); math.Hypot(got.X-c.want.X, got.Y-c.want.Y) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	if _, depth := cam.Project(r, r3.Vec{Z: 5}); math.Abs(depth-5) > 1e-9 {
		t.Errorf("the atrial side is nearer the eye: depth %v, want 5", depth)
	}
}

func TestAxesAreOrthonormal(t *testing.T) {
	for _, cam := range []draw.Camera{{}, {Azimuth: 37, Elevation: 22}, {Azimuth: -120, Elevation: 89}} {
		r, u, e := cam.Axes()
		for _, v := range []float64{r3.Norm(r) - 1, r3.Norm(u) - 1, r3.Norm(e) - 1, r3.Dot(r, u), r3.Dot(r, e), r3.Dot(u, e)} {
			if math.Abs(v) > 1e-12 {
				t.Errorf("camera %+v: axes off by %g", cam, v)
			}
		}
	}
}

func TestResetKeepsMemory(t *testing.T) {
	var l draw.List
	paint := func() {
		l.Reset(100, 100, draw.Color{A: 255})
		l.FillRect(draw.Rect{W: 10, H: 10}, draw.Color{R: 1, A: 255})
		l.Text("x", 1, 2, 12, false, draw.Start, draw.Color{A: 255})
	}
	paint()
	if len(l.Ops) != 2 || l.Ops[0].Points[2] != (draw.Point{X: 10, Y: 10}) {
		t.Fatalf("ops %+v", l.Ops)
	}
	if n := testing.AllocsPerRun(20, paint); n > 0 {
		t.Errorf("painting again allocates %v times", n)
	}
}

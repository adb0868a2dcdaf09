package geometry

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// oracle holds the values of testdata/oracle.py (scipy), made by
//
//	/usr/bin/python3 geometry/testdata/oracle.py > geometry/testdata/oracle.json
type oracle struct {
	SaddleEllipse []struct{ A, B, H, Length float64 } `json:"saddle_ellipse_length"`
	Annulus       []struct {
		SeptalLateral float64 `json:"septal_lateral"`
		Commissural   float64
		Height        float64
		Share         float64
		Depth         float64
		Q, K, M       float64
		Length        float64
		MinimalArea   float64 `json:"minimal_area"`
		ProjectedArea float64 `json:"projected_area"`
	}
	SaddleCircle []struct{ H, Ratio float64 } `json:"saddle_circle_minimal"`
}

func readOracle(t *testing.T, data []byte, into any) {
	t.Helper()
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatal(err)
	}
}

// Our values against the stored scipy values: lengths and areas of curves to 1e-9, minimal surfaces to 1e-5 (the oracle is
// a triangle mesh, extrapolated from 12 and 24 rings; its own error against physics.md E is below 4e-6).
func TestScipyOracle(t *testing.T) {
	data, err := os.ReadFile("testdata/oracle.json")
	if err != nil {
		t.Fatal(err)
	}
	var o oracle
	readOracle(t, data, &o)
	if len(o.SaddleEllipse) < 4 || len(o.Annulus) < 3 || len(o.SaddleCircle) < 3 {
		t.Fatal("the stored oracle is incomplete: run testdata/oracle.py again")
	}
	for _, r := range o.SaddleEllipse {
		curve := sample(512, func(t float64) r3.Vec {
			return r3.Vec{X: r.A * math.Cos(t), Y: r.B * math.Sin(t), Z: r.H * math.Cos(2*t)}
		})
		near(t, "saddle on ellipse, spline", NewClosedSpline(curve).LengthMM(), r.Length, 1e-9*r.Length)
		shape := AnnulusShape{SeptalLateralMM: 2 * r.B, CommissuralMM: 2 * r.A, HeightMM: 2 * r.H, Outline: Ellipse}
		near(t, "saddle on ellipse, annulus", mustAnnulus(t, shape).LengthMM(), r.Length, 1e-9*r.Length)
	}
	for _, r := range o.Annulus {
		a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: r.SeptalLateral, CommissuralMM: r.Commissural, HeightMM: r.Height, IntertrigoneShare: r.Share, AnteriorDepthShare: r.Depth})
		near(t, "q", a.q, r.Q, 1e-9)
		near(t, "k", a.k, r.K, 1e-9)
		near(t, "m", a.m, r.M, 1e-9)
		near(t, "length", a.LengthMM(), r.Length, 1e-9*r.Length)
		area, status := MinimalArea(a.CurveTo(make([]r3.Vec, 256)))
		if status != Converged {
			t.Errorf("minimal area of %+v: %v", r, status)
		}
		t.Logf("minimal area %.5f, scipy %.5f, relative gap %.1e", area, r.MinimalArea, area/r.MinimalArea-1)
		near(t, "minimal area", area, r.MinimalArea, 1e-5*r.MinimalArea)
		fine, coarse := AreaVector(a.CurveTo(make([]r3.Vec, 2048))).Z, AreaVector(a.CurveTo(make([]r3.Vec, 1024))).Z
		near(t, "projected area", (4*fine-coarse)/3, r.ProjectedArea, 1e-9*r.ProjectedArea)
	}
	for _, r := range o.SaddleCircle {
		area, _ := MinimalArea(saddleCircle(r.H, 256))
		t.Logf("h/R %g: %.8f, scipy %.8f", r.H, area/math.Pi, r.Ratio)
		near(t, "minimal area of the saddle circle", area/math.Pi, r.Ratio, 1e-5)
	}
}

// The stored values are those the script gives today, where scipy is installed.
func TestScipyOracleReruns(t *testing.T) {
	const python = "/usr/bin/python3"
	if exec.Command(python, "-c", "import scipy").Run() != nil {
		t.Skip("python3-scipy is not installed: the stored oracle is used as it is")
	}
	script := exec.Command(python, "testdata/oracle.py")
	script.Env = append(os.Environ(), "OMP_NUM_THREADS=1", "OPENBLAS_NUM_THREADS=1")
	now, err := script.Output()
	if err != nil {
		t.Fatal(err)
	}
	stored, err := os.ReadFile("testdata/oracle.json")
	if err != nil {
		t.Fatal(err)
	}
	var a, b map[string]any
	readOracle(t, now, &a)
	readOracle(t, stored, &b)
	delete(a, "scipy")
	delete(b, "scipy")
	if n := compareJSON(t, "", a, b); n < 100 {
		t.Errorf("only %d numbers compared", n)
	}
}

// compareJSON compares all numbers to 1e-6 relative and returns how many there were.
func compareJSON(t *testing.T, path string, a, b any) int {
	t.Helper()
	switch x := a.(type) {
	case float64:
		y, ok := b.(float64)
		if !ok || math.Abs(x-y) > 1e-6*(1e-3+math.Abs(y)) {
			t.Errorf("%s: now %v, stored %v", path, a, b)
		}
		return 1
	case map[string]any:
		y, _ := b.(map[string]any)
		n := 0
		for k, v := range x {
			n += compareJSON(t, path+"/"+k, v, y[k])
		}
		return n
	case []any:
		y, _ := b.([]any)
		if len(x) != len(y) {
			t.Errorf("%s: %d values now, %d stored", path, len(x), len(y))
			return 0
		}
		n := 0
		for i, v := range x {
			n += compareJSON(t, path, v, y[i])
		}
		return n
	}
	t.Errorf("%s: unexpected %T", path, a)
	return 0
}

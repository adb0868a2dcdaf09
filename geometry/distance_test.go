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

// Segment to segment against a brute-force grid: never farther than the grid, never nearer than the grid allows.
func TestNearestSegmentsProperty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a := []r3.Vec{drawVec(rt, "a0"), drawVec(rt, "a1")}
		b := []r3.Vec{drawVec(rt, "b0"), drawVec(rt, "b1")}
		if rapid.Bool().Draw(rt, "parallel") {
			b[1] = r3.Add(b[0], r3.Scale(1.5, r3.Sub(a[1], a[0])))
		}
		got := MinDistance(a, false, b, false)
		const n = 60
		grid := math.Inf(1)
		for i := range n + 1 {
			for j := range n + 1 {
				p := r3.Add(a[0], r3.Scale(float64(i)/n, r3.Sub(a[1], a[0])))
				q := r3.Add(b[0], r3.Scale(float64(j)/n, r3.Sub(b[1], b[0])))
				grid = math.Min(grid, r3.Norm(r3.Sub(p, q)))
			}
		}
		slack := (Length(a) + Length(b)) / (2 * n)
		if got.DistanceMM > grid+1e-9 || got.DistanceMM < grid-slack-1e-9 {
			rt.Errorf("distance %g, grid %g ± %g", got.DistanceMM, grid, slack)
		}
		near(rt, "distance of the points", r3.Norm(r3.Sub(got.A, got.B)), got.DistanceMM, 1e-12)
		near(rt, "arc A", r3.Norm(r3.Sub(got.A, a[0])), got.ArcA, 1e-9)
		near(rt, "arc B", r3.Norm(r3.Sub(got.B, b[0])), got.ArcB, 1e-9)
	})
}

// Two linked circles of radius 1 in planes at right angles, one centred on the other's rim: distance 0; moved apart: d.
func TestMinDistanceCircles(t *testing.T) {
	c := circle(1, 400)
	other := make([]r3.Vec, len(c))
	for i, p := range c {
		other[i] = r3.Vec{X: 2.5 + p.X, Z: p.Y}
	}
	n := MinDistance(c, true, other, true)
	near(t, "distance", n.DistanceMM, 0.5, 1e-12)
	near(t, "place", r3.Norm(r3.Sub(n.A, r3.Vec{X: 1})), 0, 1e-12)
	near(t, "half way round the other", n.ArcB, Perimeter(other)/2, 1e-9)
}

// A concentric arc covers exactly its share of the circle, also across the circle's first point.
func TestProjectOnCurve(t *testing.T) {
	c := circle(20, 720)
	arc := make([]r3.Vec, 91)
	for i := range arc {
		s, co := math.Sincos((330 - 2*float64(i)) * math.Pi / 180) // 330° down to 150°
		arc[i] = r3.Vec{X: 30 * co, Y: 30 * s, Z: 5}
	}
	f := ProjectOnCurve(arc, c)
	near(t, "coverage", f.Coverage, 0.5, 1e-6)
	near(t, "distance", f.DistanceMM[45], math.Hypot(10, 5), 1e-3)
	across := make([]r3.Vec, 21)
	for i := range across {
		s, co := math.Sincos((10 - float64(i)) * math.Pi / 180)
		across[i] = r3.Vec{X: 25 * co, Y: 25 * s}
	}
	near(t, "coverage across the first point", ProjectOnCurve(across, c).Coverage, 20.0/360, 1e-6)
}

// Beside a circle at constant distance and elevation the vessel is a circle of radius R + distance.
func TestBesideCircle(t *testing.T) {
	a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 40, CommissuralMM: 40, Outline: Ellipse})
	rad := math.Pi / 180
	c, err := PlaceBeside(a, []Station{{0, 330 * rad, 8, 3}, {50, 270 * rad, 8, 3}, {110, 180 * rad, 8, 3}}, 201)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "length", c.LengthMM(), 150*rad*28, 1e-2)
	for i, p := range c.Points {
		near(t, "radius", math.Hypot(p.X, p.Y), 28, 1e-9)
		near(t, "elevation", p.Z, 3, 1e-12)
		near(t, "φ", PhiOf(p), c.Phi[i], 1e-9)
	}
	if c.Points[0].X <= 0 || c.Points[200].X >= 0 {
		t.Error("the ostium is not at the right, or the far end not at the left, seen from the atrium")
	}
	w, err := WindBeside(a, 330*rad, true, []Station{{MM: 0, DistanceMM: 8, ElevationMM: 3}, {MM: 28 * 150 * rad, DistanceMM: 8, ElevationMM: 3}}, 201)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "φ at the end", w.Phi[200], 180*rad, 1e-7)
}

// WindBeside keeps true arc length along a saddle with changing distance and elevation; distances hold everywhere.
func TestWindBesideUnitSpeed(t *testing.T) {
	a := mustAnnulus(t, normalShape)
	stations := []Station{{0, 0, 6, 9}, {30, 0, 10, 6}, {60, 0, 9, 2}, {100, 0, 12, 4}, {130, 0, 25, 0}}
	c, err := WindBeside(a, 330*math.Pi/180, true, stations, 131)
	if err != nil {
		t.Fatal(err)
	}
	fine, err := WindBeside(a, 330*math.Pi/180, true, stations, 1041)
	if err != nil {
		t.Fatal(err)
	}
	// A polyline falls short of its curve by h²κ²/24; extrapolate, then the length is the station.
	mid, _ := WindBeside(a, 330*math.Pi/180, true, stations, 521)
	near(t, "length", (4*fine.LengthMM()-mid.LengthMM())/3, 130, 1e-4)
	near(t, "end point of coarse and fine", r3.Norm(r3.Sub(c.Points[130], fine.Points[1040])), 0, 1e-5)
	near(t, "distance at 60 mm", c.DistanceMM[60], 9, 1e-9)
	for i := 1; i < len(c.Phi); i++ {
		if c.Phi[i] >= c.Phi[i-1] {
			t.Fatalf("φ does not fall at sample %d", i)
		}
	}
	for i := range c.Points {
		// Outward distance measured back in the plane.
		p := a.At(c.Phi[i])
		d := r3.Sub(c.Points[i], p)
		near(t, "distance outward", r3.Dot(d, a.Outward(c.Phi[i])), c.DistanceMM[i], 1e-9)
		near(t, "elevation", d.Z, c.ElevationMM[i], 1e-9)
	}
}

func TestStationsRejected(t *testing.T) {
	a := mustAnnulus(t, normalShape)
	bad := [][]Station{
		{{MM: 0}},
		{{MM: 0, DistanceMM: 5}, {MM: 0, DistanceMM: 5}},
		{{MM: 0, DistanceMM: math.NaN()}, {MM: 5}},
		{{MM: 0, DistanceMM: -9}, {MM: 5}},
	}
	for _, s := range bad {
		if _, err := PlaceBeside(a, s, 10); err == nil {
			t.Errorf("PlaceBeside accepted %+v", s)
		}
		if _, err := WindBeside(a, 5.5, true, s, 10); err == nil {
			t.Errorf("WindBeside accepted %+v", s)
		}
	}
	steep := []Station{{MM: 0, DistanceMM: 5}, {MM: 5, DistanceMM: 30}}
	if _, err := WindBeside(a, 5.5, true, steep, 10); err == nil {
		t.Error("WindBeside accepted a distance that changes by 25 mm over 5 mm of vessel")
	}
}

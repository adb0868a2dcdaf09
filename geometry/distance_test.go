package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Beside a circle at constant distance and elevation the vessel is a circle of radius R + distance.
func TestBesideCircle(t *testing.T) {
	a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 40, CommissuralMM: 40, Outline: Ellipse})
	rad := math.Pi / 180
	w, err := WindBeside(a, 330*rad, true, []Station{{MM: 0, DistanceMM: 8, ElevationMM: 3}, {MM: 28 * 150 * rad, DistanceMM: 8, ElevationMM: 3}}, 201)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range w.Points {
		near(t, "radius", math.Hypot(p.X, p.Y), 28, 1e-7)
		near(t, "elevation", p.Z, 3, 1e-12)
		near(t, "φ", PhiOf(p), w.Phi[i], 1e-9)
	}
	if w.Points[0].X <= 0 || w.Points[200].X >= 0 {
		t.Error("the ostium is not at the right, or the far end not at the left, seen from the atrium")
	}
	near(t, "φ at the end", w.Phi[200], 180*rad, 1e-7)
}

// WindBeside keeps true arc length along a saddle with changing distance and elevation; distances hold everywhere.
func TestWindBesideUnitSpeed(t *testing.T) {
	a := mustAnnulus(t, normalShape)
	stations := []Station{{0, 6, 9}, {30, 10, 6}, {60, 9, 2}, {100, 12, 4}, {130, 25, 0}}
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
		if _, err := WindBeside(a, 5.5, true, s, 10); err == nil {
			t.Errorf("WindBeside accepted %+v", s)
		}
	}
	steep := []Station{{MM: 0, DistanceMM: 5}, {MM: 5, DistanceMM: 30}}
	if _, err := WindBeside(a, 5.5, true, steep, 10); err == nil {
		t.Error("WindBeside accepted a distance that changes by 25 mm over 5 mm of vessel")
	}
}

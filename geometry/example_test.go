package geometry_test

import (
	"fmt"
	"math"

	"annuloscope/geometry"
)

// The normal mid-systolic annulus of anatomy.md S01, its landmarks and measures.
func ExampleAnnulusShape() {
	shape := geometry.AnnulusShape{SeptalLateralMM: 28, CommissuralMM: 39, HeightMM: 6.9}
	annulus, err := geometry.NewAnnulus(shape)
	if err != nil {
		fmt.Println(err)
		return
	}
	const n = 128
	m := geometry.Measure(shape.Curve(n), annulus.MarksOf(n))
	marks := annulus.Landmarks()
	fmt.Printf("perimeter %.1f mm, height ratio %.2f\n", m.PerimeterMM, m.HeightRatio)
	fmt.Printf("A2 at φ = %.0f°, %.1f mm above the commissures\n", marks.A2.Phi*180/math.Pi, marks.A2.Point.Z-marks.PosteromedialCommissure.Point.Z)
	// Output:
	// perimeter 111.8 mm, height ratio 0.18
	// A2 at φ = 90°, 6.9 mm above the commissures
}

// A vein wound clockwise along the annulus from its ostium at the right, seen from the atrium.
func ExampleWindBeside() {
	annulus, _ := geometry.NewAnnulus(geometry.AnnulusShape{SeptalLateralMM: 28, CommissuralMM: 39, HeightMM: 6.9})
	vein, err := geometry.WindBeside(annulus, 330*math.Pi/180, true, []geometry.Station{
		{MM: 0, DistanceMM: 6, ElevationMM: 8},
		{MM: 70, DistanceMM: 10, ElevationMM: 3},
	}, 201)
	if err != nil {
		fmt.Println(err)
		return
	}
	end := vein.Points[200]
	fmt.Printf("length %.1f mm, from the right (x %.0f) to the left (x %.0f)\n", vein.LengthMM(), vein.Points[0].X, end.X)
	// Output:
	// length 70.0 mm, from the right (x 21) to the left (x -29)
}

package verify

import (
	"fmt"
	"math"

	"annuloscope/geometry"

	"gonum.org/v1/gonum/spatial/r3"
)

// annulus builds one; a shape of this file that is out of range is a mistake here.
func annulus(s geometry.AnnulusShape) *geometry.Annulus {
	a, err := geometry.NewAnnulus(s)
	if err != nil {
		panic("verify: " + err.Error())
	}
	return a
}

// annuli checks the curves of geometry.
func annuli() []Row {
	s := &sheet{group: "E curves", source: "physics.md E, "}
	for i, ratio := range []float64{0.9, 0.8, 0.75, 0.7, 0.6, 0.5} {
		a := annulus(geometry.AnnulusShape{SeptalLateralMM: 40 * ratio, CommissuralMM: 40, Outline: geometry.Ellipse})
		s.exact(fmt.Sprintf("perimeter of an ellipse of axis ratio %g over its long half axis", ratio), "1",
			[]float64{5.97316043, 5.67233358, 5.52587304, 5.38236898, 5.10539977, 4.84422411}[i], a.LengthMM()/20, 1e-8, "ellipse perimeter")
	}
	for _, c := range [][3]float64{{20, 16, 1005.310}, {19, 14.5, 865.509}, {22, 19, 1313.186}} {
		a := annulus(geometry.AnnulusShape{SeptalLateralMM: 2 * c[1], CommissuralMM: 2 * c[0], Outline: geometry.Ellipse})
		s.share(fmt.Sprintf("area of an ellipse of half axes %g and %g mm", c[0], c[1]), "mm²", c[2], geometry.AreaVector(a.CurveTo(make([]r3.Vec, 4096))).Z, 1e-5, "sizes")
	}
	for i, h := range []float64{0, 2, 3, 4} {
		a := annulus(geometry.AnnulusShape{SeptalLateralMM: 32, CommissuralMM: 40, HeightMM: 2 * h, Outline: geometry.Ellipse})
		s.exact(fmt.Sprintf("length of a saddle of amplitude %g mm on a 20 × 16 mm ellipse", h), "mm", []float64{113.4467, 114.8282, 116.5210, 118.8322}[i], a.LengthMM(), 6e-5, "saddle on ellipse")
	}
	for i, h := range []float64{0.05, 0.1, 0.2, 0.3, 0.4} {
		sp := geometry.NewClosedSpline(saddle(h, 256))
		s.exact(fmt.Sprintf("length of the spline through a saddle of h/R %g on a circle, over 2πR", h), "1",
			[]float64{1.0024953, 1.0099262, 1.0388736, 1.0846895, 1.1446328}[i], sp.LengthMM()/(2*math.Pi), 1e-7, "saddle on circle")
	}
	dShapes(s)
	normal := geometry.AnnulusShape{SeptalLateralMM: 28, CommissuralMM: 39, HeightMM: 6.9}
	small := geometry.AnnulusShape{SeptalLateralMM: 25.2, CommissuralMM: 35.1, HeightMM: 6.21}
	big := annulus(normal).CurveTo(make([]r3.Vec, 500))
	s.exact("area kept by an isometric shrink of the perimeter by 10 %", "1", 0.81,
		geometry.AreaVector(annulus(small).CurveTo(make([]r3.Vec, 500))).Z/geometry.AreaVector(big).Z, 1e-9, "isometric shrink")
	return s.rows
}

// saddle is z = h·cos 2θ on the unit circle at n points.
func saddle(h float64, n int) []r3.Vec {
	out := make([]r3.Vec, n)
	for i := range out {
		t := 2 * math.Pi * float64(i) / float64(n)
		out[i] = r3.Vec{X: math.Cos(t), Y: math.Sin(t), Z: h * math.Cos(2*t)}
	}
	return out
}

// dShapes measures sampled D-shapes.
func dShapes(s *sheet) {
	half := func(a, b, from, to float64) (out []r3.Vec) {
		const n = 4000
		for i := range n {
			sin, cos := math.Sincos(from + (to-from)*float64(i)/n)
			out = append(out, r3.Vec{X: a * cos, Y: b * sin})
		}
		return out
	}
	cut := math.Asin(8.0 / 18)
	for _, c := range []struct {
		name            string
		curve           []r3.Vec
		area, perimeter float64
	}{
		{"two half ellipses 18 × 9 + 15", append(half(18, 9, 0, math.Pi), half(18, 15, math.Pi, 2*math.Pi)...), 678.584, 95.5415},
		{"straight edge 32, half ellipse 24", append(half(16, 24, math.Pi, 2*math.Pi), r3.Vec{X: 16}), 603.186, 95.4618},
		{"circle 18 cut 8 from its centre", append(half(18, 18, math.Pi-cut, 2*math.Pi+cut), r3.Vec{X: 18 * math.Cos(cut), Y: 8}), 787.154, 105.3776},
	} {
		s.share("area of a D: "+c.name, "mm²", c.area, geometry.AreaVector(c.curve).Z, 1e-5, "D-shape")
		s.share("perimeter of a D: "+c.name, "mm", c.perimeter, geometry.Perimeter(c.curve), 1e-5, "D-shape")
	}
}

// surfaces checks minimal surfaces, and the annulus against published means.
func surfaces() []Row {
	s := &sheet{group: "E surfaces", source: "physics.md E, "}
	for i, h := range []float64{0.1, 0.2, 0.3, 0.4} {
		got, _ := geometry.MinimalArea(saddle(h, 256))
		s.exact(fmt.Sprintf("minimal surface over a saddle of h/R %g, over πR²", h), "1", []float64{1.0099342, 1.0389865, 1.0851618, 1.1458032}[i], got/math.Pi, 1e-6, "minimal surface")
	}
	for _, c := range []struct {
		name            string
		sl, cc, h       float64
		area, surf, len float64
	}{{"normal", 28, 39, 6.9, 890, 920, 112}, {"functional leak", 34, 43, 5.9, 1220, 1240, 129}} {
		a := annulus(geometry.AnnulusShape{SeptalLateralMM: c.sl, CommissuralMM: c.cc, HeightMM: c.h})
		curve := a.CurveTo(make([]r3.Vec, 256))
		m := geometry.Measure(curve, a.MarksOf(256))
		surf, _ := geometry.MinimalArea(curve)
		s.add(Published, c.name+" annulus, projected area", "mm²", c.area, m.ProjectedAreaMM2, 0.06*c.area, "S38")
		s.add(Published, c.name+" annulus, surface", "mm²", c.surf, surf, 0.06*c.surf, "S38")
		s.add(Published, c.name+" annulus, circumference", "mm", c.len, m.PerimeterMM, 0.06*c.len, "S38")
	}
	a := annulus(geometry.AnnulusShape{SeptalLateralMM: 28, CommissuralMM: 39, HeightMM: 6.9})
	l := a.Landmarks()
	between := r3.Norm(r3.Sub(l.AnterolateralTrigone.Point, l.PosteromedialTrigone.Point))
	s.add(Published, "septal-lateral over inter-trigone distance", "1", 1.11, 28/between, 0.111, "S39")
	s.add(Published, "commissural over inter-trigone distance", "1", 1.44, 39/between, 0.144, "S39")
	return s.rows
}

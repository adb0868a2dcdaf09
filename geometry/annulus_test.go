package geometry

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

var normalShape = AnnulusShape{SeptalLateralMM: 28, CommissuralMM: 39, HeightMM: 6.9} // anatomy.md S01, mid-systole
var functionalShape = AnnulusShape{SeptalLateralMM: 34, CommissuralMM: 43, HeightMM: 5.9}

// reporter is what *testing.T and *rapid.T share.
type reporter interface {
	Helper()
	Errorf(string, ...any)
	Fatal(...any)
}

func mustAnnulus(t reporter, s AnnulusShape) *Annulus {
	t.Helper()
	a, err := NewAnnulus(s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func near(t reporter, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g ± %g", what, got, want, tol)
	}
}

// physics.md E, "Saddle on ellipse 20×16, θ = eccentric angle": tolerance 1e-6 relative; the sheet prints 7 digits.
func TestSaddleOnEllipseLength(t *testing.T) {
	for _, r := range []struct{ h, want float64 }{{0, 113.4467}, {2, 114.8282}, {3, 116.5210}, {4, 118.8322}} {
		a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 32, CommissuralMM: 40, HeightMM: 2 * r.h, Outline: Ellipse})
		near(t, "L", a.LengthMM(), r.want, 6e-5)
	}
}

// physics.md E, "Saddle z=h cos2θ on circle R": L/2πR, tolerance 1e-7. The circle is an ellipse of equal axes.
func TestSaddleOnCircleLength(t *testing.T) {
	const R = 20.0
	for _, r := range []struct{ h, want float64 }{
		{0.05, 1.0024953}, {0.1, 1.0099262}, {0.15, 1.0221339}, {0.2, 1.0388736}, // taller saddles exceed the height range;
	} { // TestSaddleCircleLengthClosedForm covers them
		a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 2 * R, CommissuralMM: 2 * R, HeightMM: 2 * r.h * R, Outline: Ellipse})
		near(t, "L/2πR", a.LengthMM()/(2*math.Pi*R), r.want, 1e-7)
	}
}

// physics.md E, "Ellipse perimeter" (1e-8) and "Sizes (mm)" (1e-5 relative).
func TestEllipsePerimeterAndArea(t *testing.T) {
	for _, r := range []struct{ ratio, want float64 }{
		{0.9, 5.97316043}, {0.8, 5.67233358}, {0.75, 5.52587304}, {0.7, 5.38236898}, {0.6, 5.10539977}, {0.5, 4.84422411},
	} {
		a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 40 * r.ratio, CommissuralMM: 40, Outline: Ellipse})
		near(t, "perimeter/a", a.LengthMM()/20, r.want, 1e-8)
	}
	for _, r := range []struct{ a, b, p, area float64 }{{20, 16, 113.4467, 1005.310}, {19, 14.5, 105.7187, 865.509}, {22, 19, 128.9778, 1313.186}} {
		a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 2 * r.b, CommissuralMM: 2 * r.a, Outline: Ellipse})
		near(t, "P", a.LengthMM(), r.p, 1e-5*r.p)
		curve := a.CurveTo(make([]r3.Vec, 4096))
		near(t, "A", AreaVector(curve).Z, r.area, 1e-5*r.area)
	}
}

// physics.md E, "Normal annulus" and "Functional-MR annulus" (S38), ±6 %, and "Intertrigonal proportion" (S39), ±10 %.
func TestPublishedAnnuli(t *testing.T) {
	for _, r := range []struct {
		name               string
		shape              AnnulusShape
		area, circumfMM    float64
		area3D, ratio      float64
		apPerIT, wideIT    float64
		checkIntertrigonal bool
	}{
		{"normal", normalShape, 890, 112, 920, 0.177, 1.11, 1.44, true},
		{"functional", functionalShape, 1220, 129, 1240, 0.137, 0, 0, false},
	} {
		a := mustAnnulus(t, r.shape)
		curve := a.CurveTo(make([]r3.Vec, 256))
		m := Measure(curve, a.MarksOf(256))
		area3D, _ := MinimalArea(curve)
		check := func(what string, got, want, tol float64) {
			t.Logf("%s %s: published %g, ours %.4g, gap %+.1f %%", r.name, what, want, got, 100*(got/want-1))
			near(t, r.name+" "+what, got, want, tol*want)
		}
		check("projected area", m.ProjectedAreaMM2, r.area, 0.06)
		check("minimal-surface area", area3D, r.area3D, 0.06)
		check("circumference", m.PerimeterMM, r.circumfMM, 0.06)
		near(t, "height ratio", m.HeightRatio, r.ratio, 0.001)
		if r.checkIntertrigonal {
			l := a.Landmarks()
			it := r3.Norm(r3.Sub(l.AnterolateralTrigone.Point, l.PosteromedialTrigone.Point))
			check("AP over intertrigonal distance", m.SeptalLateralMM/it, r.apPerIT, 0.10)
			check("lateromedial over intertrigonal distance", m.CommissuralMM/it, r.wideIT, 0.10)
		}
	}
}

// DEVELOPERS.md "Frames and signs": landmarks and orientation.
func TestAnnulusOrientation(t *testing.T) {
	l := mustAnnulus(t, normalShape).Landmarks()
	if p := l.PosteromedialCommissure.Point; !(p.X > 0) || math.Abs(p.Y) > 1e-12 {
		t.Errorf("posteromedial commissure %v is not on +x", p)
	}
	if p := l.AnterolateralCommissure.Point; !(p.X < 0) || math.Abs(p.Y) > 1e-12 {
		t.Errorf("anterolateral commissure %v is not on −x", p)
	}
	if l.A2.Point.Y <= 0 || l.P2.Point.Y >= 0 {
		t.Errorf("A2 %v is not towards the aorta, or P2 %v is", l.A2.Point, l.P2.Point)
	}
	low := math.Max(l.PosteromedialCommissure.Point.Z, l.AnterolateralCommissure.Point.Z)
	near(t, "A2 above the commissures", l.A2.Point.Z-low, 6.9, 1e-12)
	near(t, "P2 above the commissures", l.P2.Point.Z-low, 6.9, 1e-12)
	if !(l.AnterolateralTrigone.Point.X < 0 && l.PosteromedialTrigone.Point.X > 0 && l.PosteromedialTrigone.Point.Y > 0) {
		t.Errorf("trigones %v, %v are on the wrong side", l.AnterolateralTrigone, l.PosteromedialTrigone)
	}
	mid := r3.Add(l.PosteromedialCommissure.Point, l.AnterolateralCommissure.Point)
	near(t, "midpoint x", mid.X, 0, 1e-12)
	near(t, "midpoint y", mid.Y, 0, 1e-12)
	if a := AreaVector(mustAnnulus(t, normalShape).CurveTo(make([]r3.Vec, 100))); a.Z <= 0 {
		t.Error("the curve does not run counter-clockwise seen from the atrium")
	}
}

// The D-shape is flatter in front than behind, and its measures hold exactly, over the whole allowed range.
func TestAnnulusMeasuresExactProperty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := rapid.Float64Range(20, 60).Draw(rt, "commissural")
		s := AnnulusShape{
			CommissuralMM:      c,
			SeptalLateralMM:    c * rapid.Float64Range(0.61, 1.15).Draw(rt, "ratio"),
			HeightMM:           c * rapid.Float64Range(0, 0.3).Draw(rt, "heightRatio"),
			IntertrigoneShare:  rapid.Float64Range(0.15, 0.32).Draw(rt, "share"),
			AnteriorDepthShare: rapid.Float64Range(0.33, 0.5).Draw(rt, "depth"),
			Outline:            Outline(rapid.IntRange(0, 1).Draw(rt, "outline")),
		}
		a := mustAnnulus(rt, s)
		const n = 240
		curve := a.CurveTo(make([]r3.Vec, n))
		m := Measure(curve, a.MarksOf(n))
		l := a.Landmarks()
		near(rt, "septal-lateral", l.A2.Point.Y-l.P2.Point.Y, s.SeptalLateralMM, 1e-11)
		near(rt, "commissural", l.PosteromedialCommissure.Point.X-l.AnterolateralCommissure.Point.X, s.CommissuralMM, 1e-11)
		near(rt, "septal-lateral of the polygon", m.SeptalLateralMM, s.SeptalLateralMM, 1e-4*c)
		near(rt, "commissural of the polygon", m.CommissuralMM, s.CommissuralMM, 1e-4*c)
		near(rt, "height", m.HeightMM, s.HeightMM, 2e-4*c)
		p := FitPlane(a.CurveTo(make([]r3.Vec, 1920))) // chord weights approach arc weights as n⁻²
		if s.HeightMM > 0.01 {
			near(rt, "plane normal z", p.Normal.Z, 1, 1e-9)
			near(rt, "plane height at the origin", p.Height(r3.Vec{}), 0, 1e-6*c)
		}
		if len(SelfCrossings(curve, true, r3.Vec{Z: 1})) > 0 {
			rt.Error("the outline crosses itself")
		}
		for i := range curve { // convex outline; heights between the landmarks
			q, r := curve[(i+1)%n], curve[(i+2)%n]
			if d := r3.Cross(r3.Sub(q, curve[i]), r3.Sub(r, q)); d.Z < -1e-9*c*c {
				rt.Errorf("not convex at point %d of %+v", i, s)
				break
			}
		}
		for range 4 {
			phi := rapid.Float64Range(0, 2*math.Pi-1e-6).Draw(rt, "phi")
			near(rt, "φ of At(φ)", math.Remainder(PhiOf(a.At(phi))-phi, 2*math.Pi), 0, 1e-12)
			near(rt, "φ of the arc of φ", math.Remainder(a.PhiOfArc(a.ArcOf(phi))-phi, 2*math.Pi), 0, 1e-9)
			near(rt, "outward", r3.Dot(a.Outward(phi), a.Tangent(phi)), 0, 1e-12)
		}
	})
}

// Mirrored in x, the annulus is itself: the left and right commissures change places.
func TestAnnulusMirror(t *testing.T) {
	c := mustAnnulus(t, normalShape).CurveTo(make([]r3.Vec, 200))
	a := mustAnnulus(t, normalShape)
	for i, p := range MirrorX(c) {
		// The mirrored curve starts at the anterolateral commissure and still runs counter-clockwise.
		q := a.AtArc(a.ArcOf(math.Pi) + a.LengthMM()*float64(i)/200)
		near(t, "mirrored point", r3.Norm(r3.Sub(p, q)), 0, 1e-9)
	}
}

// physics.md E, "Isometric shrink": perimeter −10 % with the same shape gives area × 0.81.
func TestIsometricShrink(t *testing.T) {
	a := mustAnnulus(t, normalShape)
	small := normalShape
	small.SeptalLateralMM *= 0.9
	small.CommissuralMM *= 0.9
	small.HeightMM *= 0.9
	b := mustAnnulus(t, small)
	near(t, "perimeter ratio", b.LengthMM()/a.LengthMM(), 0.9, 1e-12)
	ca, cb := a.CurveTo(make([]r3.Vec, 500)), b.CurveTo(make([]r3.Vec, 500))
	near(t, "area ratio", AreaVector(cb).Z/AreaVector(ca).Z, 0.81, 1e-12)
}

// The arc length of the Gauss table against eight times finer panels.
func TestAnnulusArcTable(t *testing.T) {
	for _, s := range []AnnulusShape{normalShape, functionalShape, {SeptalLateralMM: 27, CommissuralMM: 60, HeightMM: 20, IntertrigoneShare: 0.32, AnteriorDepthShare: 0.33}} {
		a := mustAnnulus(t, s)
		fine := 0.0
		for i := range 8 * annulusPanels {
			h := 2 * math.Pi / (8 * annulusPanels)
			fine += a.arcBetween(h*float64(i), h*float64(i+1))
		}
		near(t, "relative length error", a.LengthMM()/fine, 1, 1e-12)
		near(t, "halfway", a.ArcOf(PhiOf(a.AtArc(0.37*fine))), 0.37*fine, 1e-9)
	}
}

func TestAnnulusDerivatives(t *testing.T) {
	a := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 30, CommissuralMM: 39, HeightMM: 8, IntertrigoneShare: 0.29})
	const h = 1e-5
	for i := range 40 {
		x := 2 * math.Pi * float64(i) / 40
		d := r3.Scale(1/(2*h), r3.Sub(a.point(x+h), a.point(x-h)))
		near(t, "first derivative", r3.Norm(r3.Sub(d, a.deriv(x))), 0, 1e-7)
		dd := r3.Scale(1/(2*h), r3.Sub(a.deriv(x+h), a.deriv(x-h)))
		near(t, "second derivative", r3.Norm(r3.Sub(dd, a.deriv2(x))), 0, 1e-6)
	}
}

func TestAnnulusRejects(t *testing.T) {
	for _, r := range []struct {
		change func(*AnnulusShape)
		names  string
	}{
		{func(s *AnnulusShape) { s.SeptalLateralMM = 2.8 }, "SeptalLateralMM = 2.8"},
		{func(s *AnnulusShape) { s.CommissuralMM = math.NaN() }, "CommissuralMM = NaN"},
		{func(s *AnnulusShape) { s.HeightMM = -1 }, "HeightMM = -1"},
		{func(s *AnnulusShape) { s.IntertrigoneShare = 0.6 }, "IntertrigoneShare = 0.6"},
		{func(s *AnnulusShape) { s.AnteriorDepthShare = 0.1 }, "AnteriorDepthShare = 0.1"},
		{func(s *AnnulusShape) { s.SeptalLateralMM = 60 }, "SeptalLateralMM/CommissuralMM"},
		{func(s *AnnulusShape) { s.Outline = 7 }, "Outline = 7"},
	} {
		s := normalShape
		r.change(&s)
		err := s.Validate()
		if err == nil || !strings.Contains(err.Error(), r.names) {
			t.Errorf("%+v: error %v does not name %q", s, err, r.names)
		}
	}
}

// What the D-shape's flatness actually is, over the range of inter-trigone shares.
func TestSagittaRatio(t *testing.T) {
	near(t, "default", mustAnnulus(t, normalShape).SagittaRatio(), intertrigoneSagitta, 1e-9)
	circle := mustAnnulus(t, AnnulusShape{SeptalLateralMM: 40, CommissuralMM: 40, Outline: Ellipse})
	half := DefaultIntertrigoneShare * math.Pi
	near(t, "circle", circle.SagittaRatio(), (1-math.Cos(half))/(2*math.Sin(half)), 1e-9)
}

package contour

import (
	"fmt"
	"math"
	"strings"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/spatial/r3"
)

// Options of the fits. The zero value is: points in mm in any order, automatic smoothing, landmarks found.
type Options struct {
	Scale     float64 // mm per unit of the points; 0 means 1
	Lambda    float64 // smoothing; 0 chooses by generalised cross-validation
	KeepOrder bool    // the points come in order along the curve; a contour that crosses itself is then an error
	Samples   int     // points of the resulting curve; 0 means 256
	Landmarks Given   // of an annulus, in the frame and unit of the points
}

func (o Options) samples() int {
	if o.Samples == 0 {
		return 256
	}
	return o.Samples
}

// Annulus is a measured annulus in the standard frame.
type Annulus struct {
	// Curve has evenly spaced points on the fitted spline, counter-clockwise seen from the atrium, from the posteromedial
	// commissure.
	Curve     []r3.Vec
	Marks     geometry.Marks        // landmarks as fractional indices of Curve
	Measures  geometry.Measures     // of Curve
	Shape     geometry.AnnulusShape // the model shape with the same measures
	ShapeGap  Residuals             // how far Curve lies from that shape; MaxAt is an index of Curve
	Frame     Frame                 // where the standard frame lies among the measured points (scaled to mm)
	Residuals Residuals             // of the points against the fitted curve
	Found     []string              // landmarks found rather than given
	Warnings  []string              // what the user should look at
}

// FitAnnulus fits a closed contour of at least 12 points and moves it to the standard frame. Errors name what cannot be
// used or decided and the fix.
func FitAnnulus(points []r3.Vec, o Options) (Annulus, error) {
	p, err := checkPoints(points, o.Scale, minClosedPoints)
	if err != nil {
		return Annulus{}, err
	}
	given := o.Landmarks.scaled(o.Scale)
	if err := given.check(); err != nil {
		return Annulus{}, err
	}
	order, angle, radius, gap := orderByAngle(p)
	var out Annulus
	if err := checkLength("perimeter", 2*math.Pi*radius, minPerimeterMM, maxPerimeterMM); err != nil {
		return Annulus{}, err
	}
	if gap > maxGapDeg {
		return Annulus{}, fmt.Errorf("contour: %.0f° of the contour has no points (at most %g°): it is not closed", gap, maxGapDeg)
	}
	if gap > warnGapDeg {
		out.Warnings = append(out.Warnings, fmt.Sprintf("%.0f° of the contour has no points", gap))
	}
	if o.KeepOrder && len(p) <= 5000 { // the test costs the square of the number
		if x, yes := crossing(p); yes {
			return Annulus{}, fmt.Errorf("contour: the contour crosses itself between points %d and %d: correct the order or the points", x.SegmentA+1, x.SegmentB+1)
		}
	}
	u, sorted := make([]float64, len(p)), make([]r3.Vec, len(p))
	for i, k := range order {
		u[i], sorted[i] = angle[i]*radius, p[k]
	}
	spline, res, err := fitCurve(u, sorted, order, 2*math.Pi*radius, o.Lambda)
	if err != nil {
		return Annulus{}, err
	}
	out.Residuals = res
	curve := spline.even(denseCurve, 0)
	sparse := make([]r3.Vec, 0, denseCurve/4) // the test costs the square of the number
	for i := 0; i < len(curve); i += 4 {
		sparse = append(sparse, curve[i])
	}
	if _, yes := crossing(sparse); yes {
		return Annulus{}, fmt.Errorf("contour: the fitted contour crosses itself: the points do not run once round a ring")
	}
	perimeter := geometry.Perimeter(curve)
	if err := checkLength("perimeter", perimeter, minPerimeterMM, maxPerimeterMM); err != nil {
		return Annulus{}, err
	}
	if res.RMSMM > 0.03*perimeter/math.Pi {
		out.Warnings = append(out.Warnings, fmt.Sprintf("the points scatter by %.1f mm round the fitted curve", res.RMSMM))
	}
	frame, marks, err := findFrame(curve, given, min(max(int(res.Fit.DoF/2), minDetail), maxDetail))
	if err != nil {
		return Annulus{}, err
	}
	out.Frame, out.Found = frame, marks.found
	out.place(&spline, curve, marks, o.samples())
	if given.Normal != nil { // the height over the plane as given, which is z = 0 of the standard frame
		out.Measures.HeightMM = geometry.Extent(out.Curve, geometry.Plane{Normal: r3.Vec{Z: 1}})
	}
	out.fitShape()
	return out, nil
}

// even returns n points equally spaced by arc length from the given arc length on.
func (s *Spline) even(n int, fromMM float64) []r3.Vec {
	_, at := s.dense(denseCurve)
	arc, total := s.arcTable(at)
	out := make([]r3.Vec, n)
	parts := n
	if !s.Closed {
		parts = n - 1
	}
	for i := range out {
		mm := fromMM + total*float64(i)/float64(parts)
		if s.Closed {
			mm = math.Mod(mm, total)
		}
		out[i], _, _ = s.Eval(s.paramAt(mm, at, arc))
	}
	return out
}

// place moves the curve to the standard frame, starting at the posteromedial commissure and running counter-clockwise.
func (a *Annulus) place(spline *Spline, dense []r3.Vec, l landmarkSet, n int) {
	_, at := spline.dense(denseCurve)
	_, total := spline.arcTable(at)
	start := l.pm / float64(len(dense)) * total
	curve := spline.even(n, start)
	turn := func(index float64) float64 { // index of dense → index of the new curve
		x := math.Mod((index-l.pm)/float64(len(dense)), 1)
		if x < 0 {
			x++
		}
		return x * float64(n)
	}
	a.Marks = geometry.Marks{A2: turn(l.a2), AnterolateralCommissure: turn(l.al), P2: turn(l.p2)}
	for i, p := range curve {
		curve[i] = a.Frame.ToStandard(p)
	}
	if geometry.AreaVector(curve).Z < 0 {
		back := make([]r3.Vec, n)
		for i, p := range curve {
			back[(n-i)%n] = p
		}
		curve = back
		flip := func(x float64) float64 { return math.Mod(float64(n)-x, float64(n)) }
		a.Marks = geometry.Marks{A2: flip(a.Marks.A2), AnterolateralCommissure: flip(a.Marks.AnterolateralCommissure), P2: flip(a.Marks.P2)}
	}
	a.Curve = curve
	a.Measures = geometry.Measure(curve, a.Marks)
}

// fitShape finds the model shape with the measures of the curve and how far the two lie apart. The inter-trigone share is
// the one whose flatness fits best, but the default when that is no better than the scatter of the points can tell.
func (a *Annulus) fitShape() {
	a2, p2 := geometry.AtIndex(a.Curve, a.Marks.A2), geometry.AtIndex(a.Curve, a.Marks.P2)
	shape := geometry.AnnulusShape{
		SeptalLateralMM:    a.Measures.SeptalLateralMM,
		CommissuralMM:      a.Measures.CommissuralMM,
		HeightMM:           a.Measures.HeightMM,
		IntertrigoneShare:  geometry.DefaultIntertrigoneShare,
		AnteriorDepthShare: math.Min(math.Max(a2.Y/(a2.Y-p2.Y), minDepthShare), maxDepthShare),
	}
	var err error
	a.Shape = shape
	if a.ShapeGap, err = shapeGap(a.Curve, shape); err != nil {
		a.Warnings = append(a.Warnings, "no model shape has these measures: "+strings.TrimPrefix(err.Error(), "geometry: "))
		return
	}
	gain := 0.5*a.Residuals.RMSMM + 0.01 // what a share must win over the default to be believed; chosen
	best := a.ShapeGap.RMSMM - gain
	if best <= 0 {
		return
	}
	share := shape.IntertrigoneShare
	for i := range shareSteps + 1 {
		shape.IntertrigoneShare = minShare + (maxShare-minShare)*float64(i)/shareSteps
		if g := quickGap(a.Curve, shape); g < best {
			best, share = g, shape.IntertrigoneShare
		}
	}
	shape.IntertrigoneShare = share
	if g, err := shapeGap(a.Curve, shape); err == nil {
		a.Shape, a.ShapeGap = shape, g
	}
}

// shapeGap tells how far the points of the curve lie from the model shape.
func shapeGap(curve []r3.Vec, shape geometry.AnnulusShape) (Residuals, error) {
	model, err := geometry.NewAnnulus(shape)
	if err != nil {
		return Residuals{MaxAt: -1}, err
	}
	points := model.CurveTo(make([]r3.Vec, 240))
	res := Residuals{Points: len(curve)}
	sum := 0.0
	for i, p := range curve {
		d := geometry.NearestOnCurve(points, true, p).DistanceMM
		sum += d * d
		if d > res.MaxMM {
			res.MaxMM, res.MaxAt = d, i
		}
	}
	res.RMSMM = math.Sqrt(sum / float64(res.Points))
	return res, nil
}

// quickGap is the root mean square distance of every fourth point from the model point at the same angle.
func quickGap(curve []r3.Vec, shape geometry.AnnulusShape) float64 {
	model, err := geometry.NewAnnulus(shape)
	if err != nil {
		return math.Inf(1)
	}
	sum, n := 0.0, 0.0
	for i := 0; i < len(curve); i += 4 {
		sum += r3.Norm2(r3.Sub(curve[i], model.At(geometry.PhiOf(curve[i]))))
		n++
	}
	return math.Sqrt(sum / n)
}

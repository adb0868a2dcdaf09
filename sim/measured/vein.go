package measured

import (
	"fmt"
	"math"

	"annuloscope/geometry"
	"annuloscope/geometry/contour"
	"annuloscope/geometry/meshio"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/fault"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// course is the measured vein beside the measured annulus, at evenly spaced nodes.
type course struct {
	points              []r3.Vec
	beside              []r3.Vec // the annulus point each lies beside
	distance, elevation []float64
	radius              []float64 // nil when not measured
	lengthMM            float64
	arteryAt            []place // where the artery passes, once it has been read
}

// readSinus fits the vein and puts its numbers into the case.
func (r *Result) readSinus(in Input, ring *contour.Annulus) (*course, error) {
	v, err := fitVessel("sinus", *in.Sinus, r.Unit, ring.Frame)
	if err != nil {
		return nil, err
	}
	r.warn("sinus", v.Warnings)
	r.add("sinus points", "their fitted curve", v.Residuals)
	c := besideOf(&v, ring.Curve)
	p, base := &r.Case.Patient, in.Base.Patient.Sinus
	p.Sinus.LengthMM = c.lengthMM * (1 + base.Tortuosity)
	p.Sinus.MouthDeg = geometry.PhiOf(c.beside[0]) * 180 / math.Pi
	stretch(p, p.Sinus.LengthMM/base.LengthMM)
	at := func(f func(valve.Rest) []float64, want []float64) func(q *anatomy.Patient) ([]float64, error) {
		return func(q *anatomy.Patient) ([]float64, error) {
			rest, err := valve.RestOf(q)
			if err != nil {
				return nil, err
			}
			return less(f(rest), want), nil
		}
	}
	clipped := make([]float64, nodes)
	for i, d := range c.distance {
		clipped[i] = math.Max(0, d)
	}
	d, e := &p.Sinus.DistanceMM, &p.Sinus.ElevationMM
	d.Mouth, d.Middle, d.Distal = clipped[0], clipped[nodes*2/5], clipped[nodes*4/5]
	e.Mouth, e.Middle, e.Distal = c.elevation[0], c.elevation[nodes*2/5], c.elevation[nodes*4/5]
	if err := leastSquares(p, at(func(r valve.Rest) []float64 { return r.VeinDistance }, clipped),
		"sinus.distance.mouth_mm", "sinus.distance.middle_mm", "sinus.distance.distal_mm"); err != nil {
		return nil, err
	}
	if err := leastSquares(p, at(func(r valve.Rest) []float64 { return r.VeinElevation }, c.elevation),
		"sinus.elevation.mouth_mm", "sinus.elevation.middle_mm", "sinus.elevation.distal_mm", "sinus.arch_mm"); err != nil {
		return nil, err
	}
	if c.radius != nil {
		if err := leastSquares(p, at(func(r valve.Rest) []float64 { return r.VeinRadius }, c.radius),
			"sinus.diameter.mouth_mm", "sinus.diameter.middle_mm", "sinus.diameter.distal_mm"); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// stretch keeps every station's share of the vein's length.
func stretch(p *anatomy.Patient, by float64) {
	for _, s := range []*float64{&p.Sinus.CoverFromMM, &p.Sinus.CoverToMM, &p.Sinus.BendMM, &p.Artery.CrossingMM, &p.Artery.DeepFromMM,
		&p.Artery.DeepToMM, &p.Artery.MarginalMM, &p.Artery.DiagonalMM} {
		*s *= by
	}
}

// fitVessel fits a centreline, running from its posteromedial end, and refuses one that crosses itself.
func fitVessel(name string, l meshio.Polyline, u Unit, frame contour.Frame) (contour.Vessel, error) {
	if l.Closed {
		return contour.Vessel{}, &fault.Field{Path: name, Problem: "the curve is closed", Allowed: "an open centreline", Fix: "check that this is the file of the " + name}
	}
	points, radii := l.Points, l.Radii
	keep := ordered(l, false)
	o := contour.Options{Scale: u.Scale(), Samples: nodes, KeepOrder: keep}
	if n := len(points); keep && frame.ToStandard(r3.Scale(u.Scale(), points[0])).X < frame.ToStandard(r3.Scale(u.Scale(), points[n-1])).X {
		points, radii = backwards(points), backwards(radii)
	}
	v, err := contour.FitVessel(points, radii, frame, o)
	if err != nil {
		return v, bad(name, err)
	}
	for i := range v.Points {
		for j := i + 1; j < len(v.Points); j++ {
			if v.ArcMM[j]-v.ArcMM[i] > apartMM && r3.Norm(r3.Sub(v.Points[i], v.Points[j])) < touchingMM {
				return v, &fault.Field{Path: name, Problem: fmt.Sprintf("the centreline meets itself %.0f and %.0f mm from its end", v.ArcMM[i], v.ArcMM[j]),
					Allowed: "one open curve", Fix: "correct the order or the points"}
			}
		}
	}
	return v, nil
}

func backwards[T any](s []T) []T {
	if s == nil {
		return nil
	}
	out := make([]T, len(s))
	for i, x := range s {
		out[len(s)-1-i] = x
	}
	return out
}

// besideOf finds, in plan, the annulus point nearest to each node of a vessel: there the way out of the annulus is at
// right angles to it, as the model has it.
func besideOf(v *contour.Vessel, annulus []r3.Vec) *course {
	flat := make([]r3.Vec, len(annulus))
	for i, p := range annulus {
		flat[i] = r3.Vec{X: p.X, Y: p.Y}
	}
	round := geometry.Perimeter(flat)
	c := &course{points: v.Points, radius: v.Radii, lengthMM: v.LengthMM}
	arc := make([]float64, len(flat))
	geometry.Cumulative(arc, flat, false)
	for _, q := range v.Points {
		near := geometry.NearestOnCurve(flat, true, r3.Vec{X: q.X, Y: q.Y})
		at := indexOf(arc, round, near.ArcMM)
		p := geometry.AtIndex(annulus, at)
		d := near.DistanceMM
		if out := r3.Sub(geometry.AtIndex(flat, at+0.5), geometry.AtIndex(flat, at-0.5)); out.Y*(q.X-p.X)-out.X*(q.Y-p.Y) < 0 {
			d = -d
		}
		c.beside = append(c.beside, p)
		c.distance, c.elevation = append(c.distance, d), append(c.elevation, q.Z-p.Z)
	}
	return c
}

// indexOf turns an arc length of a closed polyline into its fractional index.
func indexOf(arc []float64, round, mm float64) float64 {
	n := len(arc)
	for i := range n {
		end := round
		if i+1 < n {
			end = arc[i+1]
		}
		if mm <= end && end > arc[i] {
			return float64(i) + (mm-arc[i])/(end-arc[i])
		}
	}
	return 0
}

func less(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] - b[i]
	}
	return out
}

package contour

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/spatial/r3"
)

// Vessel is a measured centreline in the frame of an annulus.
type Vessel struct {
	Points    []r3.Vec  // evenly spaced along the fitted spline, mm, standard frame
	ArcMM     []float64 // arc length along the spline
	Radii     []float64 // mm, nil when none were given
	LengthMM  float64
	Residuals Residuals
	Warnings  []string
}

// FitVessel fits an open centreline of at least 4 points with optional radii (one per point, in the unit of the points)
// and moves it by frame, which is that of the annulus it belongs to. Without KeepOrder the points are put in order
// along their minimum spanning tree; the vessel then starts at the end with the larger x (posteromedial, where the sinus has its
// ostium). Radii are averaged where points coincide and interpolated linearly, not smoothed.
func FitVessel(points []r3.Vec, radii []float64, frame Frame, o Options) (Vessel, error) {
	p, err := checkPoints(points, o.Scale, minOpenPoints)
	if err != nil {
		return Vessel{}, err
	}
	if radii != nil && len(radii) != len(points) {
		return Vessel{}, fmt.Errorf("contour: %d radii for %d points: give one per point or none", len(radii), len(points))
	}
	scale := o.Scale
	if scale == 0 {
		scale = 1
	}
	var r []float64
	for i, x := range radii {
		if !(x > 0) || x*scale > 50 {
			return Vessel{}, fmt.Errorf("contour: point %d radius = %g mm is outside 0 to 50 mm: correct it", i+1, x*scale)
		}
		r = append(r, x*scale)
	}
	var u []float64
	var index []int
	if o.KeepOrder {
		u, index = make([]float64, len(p)), make([]int, len(p))
		geometry.Cumulative(u, p, false)
		for i := range index {
			index[i] = i
		}
	} else if p, r, u, index = chain(p, r); frame.ToStandard(p[0]).X < frame.ToStandard(p[len(p)-1]).X {
		slices.Reverse(p)
		slices.Reverse(r)
		slices.Reverse(u)
		slices.Reverse(index)
		length := u[0]
		for i := range u {
			u[i] = length - u[i]
		}
	}
	if err := checkLength("length", u[len(u)-1], minLengthMM, roughLengthMM); err != nil {
		return Vessel{}, err
	}
	var out Vessel
	if w := widestStep(u); w > 8 {
		out.Warnings = append(out.Warnings, fmt.Sprintf("one step between neighbours is %.0f times the usual one: a part may be missing or the order wrong", w))
	}
	spline, res, err := fitCurve(u, p, index, 0, o.Lambda)
	if err != nil {
		return Vessel{}, err
	}
	_, at := spline.dense(denseCurve)
	arc, total := spline.arcTable(at)
	if err := checkLength("length", total, minLengthMM, maxLengthMM); err != nil {
		return Vessel{}, err
	}
	out.Residuals, out.LengthMM = res, total
	n := max(o.samples(), 2)
	out.ArcMM = make([]float64, n)
	for i, q := range spline.even(n, 0) {
		out.Points = append(out.Points, frame.ToStandard(q))
		out.ArcMM[i] = total * float64(i) / float64(n-1)
	}
	if r != nil {
		dense, _ := spline.dense(denseCurve)
		where := make([]float64, len(p))
		for i, q := range p {
			where[i] = spline.arcAt(spline.foot(q, math.Min(u[i], spline.Period()), dense, at), at, arc)
		}
		out.Radii = interpolateRadii(where, r, out.ArcMM)
	}
	return out, nil
}

// widestStep is the widest step between neighbours over the usual one.
func widestStep(u []float64) float64 {
	steps := make([]float64, 0, len(u))
	for i := 1; i < len(u); i++ {
		if u[i] > u[i-1] {
			steps = append(steps, u[i]-u[i-1])
		}
	}
	sort.Float64s(steps)
	return steps[len(steps)-1] / steps[len(steps)/2]
}

// interpolateRadii gives the radius at each wanted arc length from radii known at others, constant beyond the ends.
func interpolateRadii(at, r, want []float64) []float64 {
	order := make([]int, len(at))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return at[order[i]] < at[order[j]] })
	var x, y, n []float64
	for _, k := range order {
		if l := len(x); l > 0 && at[k]-x[l-1] < 1e-9 {
			y[l-1] = (y[l-1]*n[l-1] + r[k]) / (n[l-1] + 1)
			n[l-1]++
			continue
		}
		x, y, n = append(x, at[k]), append(y, r[k]), append(n, 1)
	}
	out := make([]float64, len(want))
	if len(x) == 1 {
		for i := range out {
			out[i] = y[0]
		}
		return out
	}
	var f interp.PiecewiseLinear
	if err := f.Fit(x, y); err != nil {
		panic("contour: " + err.Error()) // x rises strictly by construction
	}
	for i, w := range want {
		out[i] = f.Predict(w)
	}
	return out
}

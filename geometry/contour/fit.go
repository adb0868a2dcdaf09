package contour

import (
	"math"
	"sort"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/spatial/r3"
)

// Residuals tell how far the measured points lie from the fitted curve. Fit.NoiseMM then counts only errors across the
// curve, since the feet follow the points along it: for equal errors in all directions it is √⅔ of them.
type Residuals struct {
	Points  int     // used
	RMSMM   float64 // root mean square of the distances
	MaxMM   float64
	MaxAt   int // index of the farthest point in the order given (of the cell means above 4000 unordered points)
	Fit     Smoothing
	KnotsOf int // distinct positions along the curve that the spline was fitted to
}

// fitCurve fits a smoothing spline to points with first parameters u (sorted, with period 0 when open) and moves the
// parameters to the feet of the points a few times, so that the parameter becomes arc length. index gives the original
// position of each point.
func fitCurve(u []float64, p []r3.Vec, index []int, period, lambda float64) (Spline, Residuals, error) {
	u, p, index = append([]float64(nil), u...), append([]r3.Vec(nil), p...), append([]int(nil), index...)
	var spline Spline
	var res Residuals
	for round := range refits {
		ub, pb, w := bins(u, p, period)
		s, fit, err := Smooth(ub, pb, w, period, lambda)
		if err != nil {
			return Spline{}, Residuals{}, err
		}
		spline, res = s, Residuals{Points: len(p), Fit: fit, KnotsOf: len(ub), MaxAt: -1}
		if round == refits-1 {
			break
		}
		dense, at := s.dense(denseCurve)
		arc, total := s.arcTable(at)
		for i, q := range p {
			u[i] = s.arcAt(s.foot(q, u[i], dense, at), at, arc)
		}
		if period != 0 {
			period = total
		}
		sortTogether(u, p, index)
	}
	dense, at := spline.dense(denseCurve)
	sum := 0.0
	for i, q := range p {
		f, _, _ := spline.Eval(spline.foot(q, u[i], dense, at))
		d := r3.Norm(r3.Sub(f, q))
		sum += d * d
		if d > res.MaxMM || res.MaxAt < 0 {
			res.MaxMM, res.MaxAt = d, index[i]
		}
	}
	res.RMSMM = math.Sqrt(sum / float64(len(p)))
	return spline, res, nil
}

func sortTogether(u []float64, p []r3.Vec, index []int) {
	sort.Stable(&together{u, p, index})
}

type together struct {
	u     []float64
	p     []r3.Vec
	index []int
}

func (t *together) Len() int           { return len(t.u) }
func (t *together) Less(i, j int) bool { return t.u[i] < t.u[j] }
func (t *together) Swap(i, j int) {
	t.u[i], t.u[j] = t.u[j], t.u[i]
	t.p[i], t.p[j] = t.p[j], t.p[i]
	t.index[i], t.index[j] = t.index[j], t.index[i]
}

// crossing reports whether a closed curve crosses itself seen along the normal of its plane.
func crossing(curve []r3.Vec) (geometry.Crossing, bool) {
	x := geometry.SelfCrossings(curve, true, geometry.FitPlane(curve).Normal)
	if len(x) == 0 {
		return geometry.Crossing{}, false
	}
	return x[0], true
}

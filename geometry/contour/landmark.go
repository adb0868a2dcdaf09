package contour

import (
	"fmt"
	"math"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/spatial/r3"
)

// lowsAndHighs finds the two low and the two high points of a saddle among evenly spaced curve points, as fractional
// indices, and the side of the atrium (±1 along the plane's normal) when sign is 0: the commissures are the low pair and
// lie farther apart.
//
// detail is how many waves round the ring the heights are low-passed to before extremes are sought: as many as the fit
// of the points resolved, since the place of a flat extreme is sensitive to noise.
func lowsAndHighs(curve []r3.Vec, plane geometry.Plane, sign float64, detail int) (low, high [2]float64, side float64, err error) {
	n := len(curve)
	w := newWaves(curve, plane, detail)
	if w.height < minSaddleMM {
		return low, high, 0, fmt.Errorf("contour: the annulus is flat (%.2g mm high, at least %g needed), so its landmarks cannot be found: give both commissures and A2", w.height, minSaddleMM)
	}
	// The phase of the second harmonic, cos(2θ − δ), says roughly where the heights and depths lie.
	delta := math.Atan2(w.sine[2], w.cosine[2])
	var up, down [2]float64
	for k := range 2 {
		up[k] = w.extreme(delta/2+math.Pi*float64(k), 1)
		down[k] = w.extreme(delta/2+math.Pi*(float64(k)+0.5), -1)
	}
	apart := func(pair [2]float64) float64 {
		d := r3.Sub(w.at(curve, pair[0]), w.at(curve, pair[1]))
		return r3.Norm(r3.Sub(d, r3.Scale(r3.Dot(d, plane.Normal), plane.Normal)))
	}
	if sign == 0 {
		a, b := apart(down), apart(up)
		if math.Abs(a-b) < minDifference*(a+b)/2 {
			return low, high, 0, fmt.Errorf("contour: the contour is as wide along its low points as along its high points (%.1f and %.1f mm), so the atrial side cannot be told: give the landmark AtrialSide", a, b)
		}
		sign = 1
		if b > a {
			sign = -1
		}
	}
	if sign < 0 {
		up, down = down, up
	}
	for k := range 2 {
		high[k], low[k] = up[k]/(2*math.Pi)*float64(n), down[k]/(2*math.Pi)*float64(n)
	}
	return low, high, sign, nil
}

// waves are the heights of evenly spaced curve points over their plane as a short Fourier series in θ = 2π·index/n.
type waves struct {
	cosine, sine []float64
	height       float64 // extent
}

func newWaves(curve []r3.Vec, plane geometry.Plane, detail int) waves {
	w := waves{cosine: make([]float64, detail+1), sine: make([]float64, detail+1)}
	n := len(curve)
	for i, p := range curve {
		h := plane.Height(p)
		for m := range w.cosine {
			s, c := math.Sincos(2 * math.Pi * float64(m*i%n) / float64(n))
			w.cosine[m] += 2 * h * c / float64(n)
			w.sine[m] += 2 * h * s / float64(n)
		}
	}
	w.height = geometry.Extent(curve, plane)
	return w
}

func (w waves) value(theta float64) (h, slope float64) {
	for m := 1; m < len(w.cosine); m++ {
		s, c := math.Sincos(float64(m) * theta)
		h += w.cosine[m]*c + w.sine[m]*s
		slope += float64(m) * (w.sine[m]*c - w.cosine[m]*s)
	}
	return h, slope
}

// extreme returns the highest (sign +1) or lowest place within an eighth of a turn of theta, in [0, 2π).
func (w waves) extreme(theta, sign float64) float64 {
	const steps = 90
	best, at := math.Inf(-1), theta
	for i := range steps + 1 {
		x := theta + (float64(i)/steps-0.5)*math.Pi/2
		if h, _ := w.value(x); sign*h > best {
			best, at = sign*h, x
		}
	}
	lo, hi := at-math.Pi/2/steps, at+math.Pi/2/steps
	for range 60 { // the slope falls through zero
		mid := (lo + hi) / 2
		if _, s := w.value(mid); sign*s > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	at = math.Mod((lo+hi)/2, 2*math.Pi)
	if at < 0 {
		at += 2 * math.Pi
	}
	return at
}

func (w waves) at(curve []r3.Vec, theta float64) r3.Vec {
	return geometry.AtIndex(curve, theta/(2*math.Pi)*float64(len(curve)))
}

// nearestIndex returns the fractional index of the place on a closed curve of evenly spaced points nearest to p.
func nearestIndex(curve []r3.Vec, p r3.Vec) float64 {
	n := geometry.NearestOnCurve(curve, true, p)
	return n.ArcMM / geometry.Perimeter(curve) * float64(len(curve))
}

// crossIndex returns the fractional index at which the curve, projected along the plane of x and dir, crosses the ray
// from mid along dir, or NaN.
func crossIndex(curve []r3.Vec, mid, dir, x r3.Vec) float64 {
	flat := make([]r3.Vec, len(curve))
	for i, p := range curve {
		d := r3.Sub(p, mid)
		flat[i] = r3.Vec{X: r3.Dot(d, x), Y: r3.Dot(d, dir)}
	}
	return geometry.IndexAtPhi(flat, math.Pi/2)
}

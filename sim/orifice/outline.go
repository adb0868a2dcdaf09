package orifice

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"annuloscope/sim/units"
)

// lineY is the height of the line of coaptation in plan at x.
func lineY(commissural, septalLateral, x float64) float64 {
	u := 2 * x / commissural
	return septalLateral * (lineMid + lineBow*u*u)
}

func onLine(in Input, x float64) r2.Vec {
	return r2.Vec{X: x, Y: lineY(in.CommissuralMM, in.SeptalLateralMM, x)}
}

// outline draws the opening between two cuts as a polygon whose planimetry is area (mm²) to rounding: upper and
// lower chain share their x stations, so the bow of the line cancels, and the heights are scaled by the small ratio
// between smooth and polygonal area. Nil when it has no extent.
func outline(in Input, mix []weighted, a, b, area float64) []r2.Vec {
	xs := stations(mix, a, b)
	heights := make([]float64, len(xs))
	for i, x := range xs {
		for _, m := range mix {
			for _, s := range m.parts {
				heights[i] += m.weight * s.height(x)
			}
		}
	}
	for len(xs) > 1 && heights[0] == 0 && heights[1] == 0 {
		xs, heights = xs[1:], heights[1:]
	}
	for n := len(xs); n > 1 && heights[n-1] == 0 && heights[n-2] == 0; n = len(xs) {
		xs, heights = xs[:n-1], heights[:n-1]
	}
	sum := 0.0
	for i := 1; i < len(xs); i++ {
		sum += (heights[i] + heights[i-1]) / 2 * (xs[i] - xs[i-1])
	}
	if sum <= 0 {
		return nil
	}
	scale := area / sum
	var poly []r2.Vec
	for i, x := range xs { // lower chain, posterior side, rightwards
		poly = append(poly, r2.Vec{X: x, Y: onLine(in, x).Y - heights[i]*scale/2})
	}
	for i := len(xs) - 1; i >= 0; i-- { // upper chain, back; a closed end is one point
		if heights[i] == 0 && (i == 0 || i == len(xs)-1) {
			continue
		}
		poly = append(poly, r2.Vec{X: xs[i], Y: onLine(in, xs[i]).Y + heights[i]*scale/2})
	}
	return poly
}

// stations are x values between two cuts, denser towards every end of a stretch.
func stations(mix []weighted, a, b float64) []float64 {
	breaks := []float64{a, b}
	for _, m := range mix {
		for _, s := range m.parts {
			for _, x := range []float64{s.from, s.to} {
				if x > a && x < b {
					breaks = append(breaks, x)
				}
			}
		}
	}
	sort.Float64s(breaks)
	xs := breaks[:1:1]
	for i := 1; i < len(breaks); i++ {
		from, to := breaks[i-1], breaks[i]
		if to-from < 1e-9*(b-a) {
			continue
		}
		for k := 1; k < stationsPerStretch; k++ {
			xs = append(xs, from+(to-from)*(1-math.Cos(math.Pi*float64(k)/stationsPerStretch))/2)
		}
		xs = append(xs, to)
	}
	return xs
}

// PlanimetryCM2 measures a closed polygon in mm by the shoelace rule: positive when counter-clockwise.
func PlanimetryCM2(polygon []r2.Vec) units.AnatomicCM2 {
	sum := 0.0
	for i, p := range polygon {
		sum += r2.Cross(p, polygon[(i+1)%len(polygon)])
	}
	return units.AnatomicCM2(units.AreaToCM2(sum / 2))
}

// At returns the orifices at an opening fraction from 0 (closed) to 1 (fully open) for the animation: heights over
// the line, and so areas, are multiplied by the fraction. Fractions outside are taken as 0 or 1.
func (r Result) At(fraction float64) []Orifice {
	f := math.Max(0, math.Min(1, fraction))
	out := make([]Orifice, len(r.Orifices))
	for i, o := range r.Orifices {
		out[i] = o
		out[i].Area *= units.AnatomicCM2(f)
		out[i].Outline = make([]r2.Vec, len(o.Outline))
		for k, p := range o.Outline {
			mid := lineY(r.commissuralMM, r.septalLateralMM, p.X)
			out[i].Outline[k] = r2.Vec{X: p.X, Y: mid + f*(p.Y-mid)}
		}
	}
	return out
}

// OpeningFraction returns how far the leaflets are open, 0 to 1, at a forward flow in mL/s (0 for backward flow):
// tanh of the mean speed through the fully open valve over 2·openingSpeed/ln 3. For the animation only.
func (r Result) OpeningFraction(flowMLPerS float64) float64 {
	if flowMLPerS <= 0 || r.Effective <= 0 {
		return 0
	}
	return math.Tanh(flowMLPerS / float64(r.Effective) / openingSpeed * math.Log(3) / 2)
}

package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Nodes and weights of the five-point Gauss-Legendre rule on [−1, 1].
var gauss5 = [5][2]float64{
	{-0.9061798459386640, 0.2369268850561891},
	{-0.5384693101056831, 0.4786286704993665},
	{0, 0.5688888888888889},
	{0.5384693101056831, 0.4786286704993665},
	{0.9061798459386640, 0.2369268850561891},
}

// arcBetween integrates the speed from t0 to t1 with one Gauss panel.
func (a *Annulus) arcBetween(t0, t1 float64) float64 {
	mid, half := (t0+t1)/2, (t1-t0)/2
	sum := 0.0
	for _, g := range gauss5 {
		sum += g[1] * r3.Norm(a.deriv(mid+half*g[0]))
	}
	return sum * half
}

// fitSamples is the number of samples on the right half of the curve (the left half is its mirror): the midpoint rule on
// a smooth periodic integrand, exact to rounding for these curves (the fitted plane is tested to 1e-6 of the width).
const fitSamples = 64

func fitParam(i int) float64 { return math.Pi * ((float64(i)+0.5)/fitSamples - 0.5) }

// level chooses k and m so that the arc-length weighted mean of z and of z·y vanish: z = 0 is then the least-squares
// plane (z·x vanishes by symmetry). The weights depend weakly on z, hence the fixed point.
func (a *Annulus) level() {
	for range 30 {
		var w, y, g, yy, yg, h, yh float64 // sums; g = s², h = s·sin²2t
		for i := range fitSamples {
			t := fitParam(i)
			s, c := math.Sincos(t)
			ds := r3.Norm(a.deriv(t))
			py := a.halfS*s + a.e*s*s
			pg, ph := s*s, 4*s*s*s*c*c
			w += ds
			y += ds * py
			yy += ds * py * py
			g += ds * pg
			h += ds * ph
			yg += ds * py * pg
			yh += ds * py * ph
		}
		k := 0.0
		if a.shape.Outline == DShape {
			k = -(yg - y*g/w) / (yh - y*h/w)
		}
		done := math.Abs(k-a.k) < 1e-14
		a.k, a.m = k, (g+k*h)/w
		if done {
			return
		}
	}
}

// flatten chooses q so that the inter-trigone part of the projected outline bows out of its chord by intertrigoneSagitta,
// or as near to that as minFlatten and maxFlatten allow (SagittaRatio tells what was reached).
func (a *Annulus) flatten() {
	excess := func(q float64) float64 {
		a.q = q
		return a.SagittaRatio() - intertrigoneSagitta
	}
	lo, hi := excess(minFlatten), excess(maxFlatten)
	switch {
	case lo <= 0:
		a.q = minFlatten
	case hi >= 0:
		a.q = maxFlatten
	default:
		a.q = fallingZero(excess, minFlatten, maxFlatten, lo, hi)
	}
}

// fallingZero finds the zero of a falling function by the Illinois form of false position, given its values at the ends.
func fallingZero(f func(float64) float64, a, b, fa, fb float64) float64 {
	for range 60 {
		x := (a*fb - b*fa) / (fb - fa)
		fx := f(x)
		if math.Abs(fx) < 1e-15 || math.Abs(b-a) < 1e-15 {
			return x
		}
		if fx*fb < 0 {
			a, fa = b, fb
		} else {
			fa /= 2
		}
		b, fb = x, fx
	}
	return b
}

// SagittaRatio returns how far the inter-trigone part of the projected outline bows out of its chord, as a share of the
// chord (a circular arc of the default share: 0.19). A DShape aims at 0.06 and reaches it unless the wanted inter-trigone
// share is extreme for its diameters.
func (a *Annulus) SagittaRatio() float64 {
	flat := *a
	flat.shape.HeightMM = 0
	return flat.planarSagittaRatio()
}

func (a *Annulus) planarSagittaRatio() float64 {
	perimeter := 0.0
	for i := range fitSamples {
		perimeter += r3.Norm(a.deriv(fitParam(i))) * 2 * math.Pi / fitSamples
	}
	arc := perimeter * a.shape.IntertrigoneShare / 2
	top := math.Pi / 2
	t := top - arc/r3.Norm(a.deriv(top))
	for range 8 {
		mid := (t + top) / 2 // two panels
		dt := (a.arcBetween(t, mid) + a.arcBetween(mid, top) - arc) / r3.Norm(a.deriv(t))
		t += dt
		if math.Abs(dt) < 1e-8 {
			break
		}
	}
	p, high := a.point(t), a.point(top)
	return (high.Y - p.Y) / (2 * p.X)
}

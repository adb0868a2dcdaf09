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

const fitSamples = 256 // trapezium rule on a smooth periodic integrand, exact to rounding for these curves

// level chooses k and m so that the arc-length weighted mean of z and of z·y vanish: z = 0 is then the least-squares
// plane (z·x vanishes by symmetry). The weights depend weakly on z, hence the fixed point.
func (a *Annulus) level() {
	for range 30 {
		var w, y, g, yy, yg, h, yh float64 // sums; g = s², h = s·sin²2t
		for i := range fitSamples {
			t := 2 * math.Pi * float64(i) / fitSamples
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
		done := math.Abs(k-a.k) < 1e-15
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
	switch {
	case excess(minFlatten) <= 0:
		a.q = minFlatten
	case excess(maxFlatten) >= 0:
		a.q = maxFlatten
	default:
		a.q = bisect(excess, minFlatten, maxFlatten)
	}
}

// bisect finds the zero of a falling function between lo and hi to the last bits.
func bisect(f func(float64) float64, lo, hi float64) float64 {
	for range 52 {
		mid := (lo + hi) / 2
		if f(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
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
	const panels = 48 // a quarter turn each 12
	perimeter := 0.0
	for i := range panels {
		perimeter += a.arcBetween(2*math.Pi*float64(i)/panels, 2*math.Pi*float64(i+1)/panels)
	}
	rest := perimeter * a.shape.IntertrigoneShare / 2
	t := math.Pi / 2
	step := 2 * math.Pi / panels
	for range panels / 4 {
		d := a.arcBetween(t-step, t)
		if d > rest {
			break
		}
		rest -= d
		t -= step
	}
	t0 := t
	for range 6 {
		t += (a.arcBetween(t, t0) - rest) / r3.Norm(a.deriv(t))
	}
	p, top := a.point(t), a.point(math.Pi/2)
	return (top.Y - p.Y) / (2 * p.X)
}

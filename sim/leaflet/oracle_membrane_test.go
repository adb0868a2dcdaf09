package leaflet

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// physics.md D2: a clamped disc under follower pressure at large deflection, neo-Hookean and incompressible. Our fibres are
// no rubber: they are linear here, and given the secant stiffness that the sheet's rubber has at the pole at the stretch of
// the row, μh(λ − λ⁻⁵)/(λ − 1) (both are stretched alike in all directions there). Off the pole the two differ: linear fibres
// are ν = 1/3, rubber is ν = 1/2. What that makes is known for small loads from D1's table, at equal biaxial stiffness
// E/(1 − ν): a rise 1.5 % lower, a tension 3.9 % higher, a volume 0.7 % smaller. With these factors the sheet's rows are
// expected within 1 %, D1's tolerance, up to 5 % of strain; beyond it rubber softens too unevenly: logged, not judged.
func TestPressurisedDiscAgainstRubber(t *testing.T) {
	const a, rings = 10.0, 16
	// D1's columns at ν = 0.2, 0.3, 0.4, of which the parabola gives ν = 1/3, and at 0.5. Lengths go with the cube root of
	// 1/E and tensions with that of E, and E is 1.5·(1 − ν) at a biaxial stiffness of 1.5.
	factor := func(low, mid, high, half, power float64) float64 {
		const x = 1. / 3 // of the way from the middle to the higher
		third := mid + x*(high-low)/2 + x*x*(high-2*mid+low)/2
		return third / half * math.Pow((1-1./3)/(1-0.5), power)
	}
	riseBy := factor(0.677435, 0.653443, 0.626255, 0.594879, -1./3)
	poleBy := factor(0.420683, 0.431101, 0.444218, 0.461328, 1./3)
	volumeBy := factor(1.114378, 1.070317, 1.021091, 0.965163, -1./3)
	for _, c := range []struct{ load, stretch, rise, pole, volume float64 }{
		{0.05, 1.01591, 0.15573, 0.09037, 0.25502}, {0.1, 1.02615, 0.19924, 0.14350, 0.32818}, {0.2, 1.04405, 0.25761, 0.22792, 0.42860},
		{0.5, 1.09507, 0.37430, 0.42011, 0.63980},
	} {
		l := c.stretch
		k := (l - math.Pow(l, -5)) / (l - 1) // N/mm, at μh = 1 N/mm
		pts, tris := disc(rings, a)
		s, where := flat(pts, tris, func(p r3.Vec) bool { return r3.Norm(p) > a*0.999 }, linear(k), 0)
		s.finish()
		s.pressure = c.load / a
		for v := s.fixed; v < len(s.x); v++ {
			s.x[v].Z = c.rise * a * (1 - r3.Norm2(s.rest[v])/(a*a))
		}
		settle(t, s, 1e-7, 300)
		rise := s.x[where[0]].Z / a
		strain := 0.0 // mean over the six spokes of the innermost ring
		for i := 1; i <= 6; i++ {
			strain += (r3.Norm(r3.Sub(s.x[where[i]], s.x[where[0]]))/(a/rings) - 1) / 6
		}
		pole := k * strain / (1 + strain) // tension per present length: 4 families of w = 0.5 give k·e per rest length
		volume := 0.0
		for _, v := range tris {
			p, q, r := s.x[where[v[0]]], s.x[where[v[1]]], s.x[where[v[2]]]
			volume += r3.Dot(p, r3.Cross(q, r)) / 6 / (a * a * a)
		}
		t.Logf("D2: load %g: rise %.5f (sheet %.5f), pole stretch %.5f (%.5f), tension %.5f (%.5f), volume %.5f (%.5f)",
			c.load, rise, c.rise, 1+strain, c.stretch, pole, c.pole, volume, c.volume)
		if c.stretch > 1.05 {
			continue
		}
		for _, q := range []struct {
			what            string
			got, want, with float64
		}{{"rise", rise, c.rise, riseBy}, {"strain of the pole", strain, c.stretch - 1, poleBy}, {"tension at the pole", pole, c.pole, poleBy}, {"volume", volume, c.volume, volumeBy}} {
			if off := q.got/(q.want*q.with) - 1; math.Abs(off) > 0.01 {
				t.Errorf("load %g: %s %g, physics.md D2 %g times %.4f for ν (%+.1f %%), tolerance 1 %%", c.load, q.what, q.got, q.want, q.with, 100*off)
			}
		}
	}
}

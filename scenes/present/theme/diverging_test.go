package theme_test

import (
	"math"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// A signed map is lightest in the middle and darkens to both ends; the ends tell from each other and from the middle for
// people without red or green cones too. Dichromat simulation after Viénot, Brettel and Mollon 1999
// (doi 10.1002/(SICI)1520-6378(199908)24:4<243::AID-COL5>3.0.CO;2-3), matrices from memory, on linear values.
func TestDivergingMap(t *testing.T) {
	for _, sign := range []float64{-1, 1} {
		last := 2.0
		for i := 0; i <= 32; i++ {
			l := theme.Luminance(theme.Diverging(sign * float64(i) / 32))
			if l >= last {
				t.Fatalf("sign %v: luminance does not fall at %d: %v after %v", sign, i, l, last)
			}
			last = l
		}
	}
	if theme.Diverging(math.NaN()) != theme.Diverging(0) || theme.Diverging(3) != theme.Diverging(1) || theme.Diverging(-3) != theme.Diverging(-1) {
		t.Error("ends and middle")
	}
	for name, m := range map[string][3][3]float64{
		"normal":       {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
		"protanopia":   {{0.1124, 0.8876, 0}, {0.1124, 0.8876, 0}, {0.0040, -0.0040, 1}},
		"deuteranopia": {{0.2929, 0.7071, 0}, {0.2929, 0.7071, 0}, {-0.0223, 0.0223, 1}},
	} {
		see := func(c draw.Color) (out [3]float64) {
			lin := func(v uint8) float64 { return math.Pow(float64(v)/255, 2.2) }
			in := [3]float64{lin(c.R), lin(c.G), lin(c.B)}
			for i := range out {
				for j := range in {
					out[i] += m[i][j] * in[j]
				}
			}
			return out
		}
		a, b, mid := see(theme.Diverging(-1)), see(theme.Diverging(1)), see(theme.Diverging(0))
		apart := func(p, q [3]float64) float64 { return math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2]) }
		if apart(a, b) < 0.2 || apart(a, mid) < 0.5 || apart(b, mid) < 0.5 {
			t.Errorf("%s: ends %.2f apart, from the middle %.2f and %.2f", name, apart(a, b), apart(a, mid), apart(b, mid))
		}
	}
}

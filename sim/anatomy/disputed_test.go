package anatomy

import (
	"math"
	"testing"
)

// anatomy.md S53: 14.2 mm without valve disease, 16 mm with a severe leak; S68: no link. Both can be chosen, and the
// choice matters only where there is a leak.
func TestLeakDistance(t *testing.T) {
	p := Normal()
	p.LeakDistance = DistanceRaised
	if d := p.LeakDistanceMM(); d != 0 {
		t.Errorf("a tight valve moves the vein by %g mm", d)
	}
	p.Mechanism = Functional
	for _, c := range []struct{ orifice, want float64 }{{0.4, 1.8}, {0.2, 0.9}, {0.6, 1.8}, {0, 0}, {math.NaN(), 1.8}} {
		p.Measured.EffectiveOrificeCM2 = c.orifice
		if got := p.LeakDistanceMM(); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("orifice %g: %g mm, want %g", c.orifice, got, c.want)
		}
	}
	p.LeakDistance = DistanceUnchanged
	if d := p.LeakDistanceMM(); d != 0 {
		t.Errorf("unchanged, but %g mm", d)
	}
}

// anatomy.md S05: diameters in proportion to body surface; S18: the trigones' distance by 5.4·ln(surface) + 15.5 mm. At the
// reference surface nothing changes.
func TestSized(t *testing.T) {
	p := Normal()
	p.Scaling = BySurface
	if p.Sized() != p.Annulus {
		t.Errorf("at 1.8 m² %+v, stated %+v", p.Sized(), p.Annulus)
	}
	p.BodySurfaceM2 = 2.16
	a := p.Sized()
	for _, c := range [][2]float64{{a.SeptalLateralMM, 1.2 * 28}, {a.CommissuralMM, 1.2 * 39}, {a.HeightMM, 1.2 * 6.9},
		{1.2 * a.IntertrigoneShare / 0.23, (5.4*math.Log(2.16) + 15.5) / (5.4*math.Log(1.8) + 15.5)}} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%g, want %g", c[0], c[1])
		}
	}
	p.Scaling = AsStated
	if p.Sized() != p.Annulus {
		t.Error("as stated, but scaled")
	}
}

package anatomy

import "math"

// LeakDistance says which published view of the vein's distance from the annulus holds when the valve leaks. The sources
// disagree, so both can be chosen.
type LeakDistance string

// The views. Raised: anatomy.md S53, 14.2 ± 3.6 mm without valve disease and 16 ± 4.1 mm with a severe leak (and M11, from
// memory, 5.1 and 7.3 mm near the mouth). Unchanged: S68, no link with ejection fraction or chamber sizes in functional
// leak. S67 lies between: farther on the side, nearer behind.
const (
	DistanceUnchanged LeakDistance = "unchanged"
	DistanceRaised    LeakDistance = "raised"
)

// Scaling says whether sizes belong to this body or to one of 1.8 m².
type Scaling string

// The scalings. BySurface scales what a source gives per body surface and nothing else: diameters and height of the annulus
// (S05: 16.4, 18.7 and 4.4 mm/m²) in proportion, the distance of the trigones by 5.4·ln(surface) + 15.5 mm (S18). No source
// scales vein, artery or leaflet margin.
const (
	AsStated  Scaling = "as-stated"
	BySurface Scaling = "by-surface"
)

const (
	severeOrificeCM2   = 0.40      // physics.md B3: severe from here
	raisedBySevereMM   = 16 - 14.2 // S53
	referenceSurfaceM2 = 1.8       // body.surface_m2 of the invented normal adult
)

// LeakDistanceMM is what a leak adds to the vein's distance from the annulus under the chosen view, mm: the published
// difference for a severe orifice, in proportion to a smaller one (chosen). Where no orifice was measured, a leaking valve
// counts as severe.
func (p *Patient) LeakDistanceMM() float64 {
	if p.LeakDistance != DistanceRaised || p.Mechanism == NoLeak {
		return 0
	}
	if math.IsNaN(p.Measured.EffectiveOrificeCM2) {
		return raisedBySevereMM
	}
	return raisedBySevereMM * math.Min(1, p.Measured.EffectiveOrificeCM2/severeOrificeCM2)
}

// Sized is the annulus at this body's size.
func (p *Patient) Sized() Annulus {
	a := p.Annulus
	if p.Scaling != BySurface {
		return a
	}
	k := p.BodySurfaceM2 / referenceSurfaceM2
	a.SeptalLateralMM *= k
	a.CommissuralMM *= k
	a.HeightMM *= k
	trigones := func(m2 float64) float64 { return 5.4*math.Log(m2) + 15.5 }
	a.IntertrigoneShare *= trigones(p.BodySurfaceM2) / trigones(referenceSurfaceM2) / k
	return a
}

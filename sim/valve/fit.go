package valve

import (
	"fmt"
	"math"

	"annuloscope/sim/repair"
	"annuloscope/sim/ring"
)

// Fit is why a device does not fit: a size of this patient against what a device of that kind takes. Allowed ranges are
// those of the invented devices of this program; no maker's device is meant.
type Fit struct {
	Device      string  `json:"device"`   // a repair's kind
	Quantity    string  `json:"quantity"` // what was measured, in words
	Value       float64 `json:"value"`
	Low         float64 `json:"low"`  // allowed from
	High        float64 `json:"high"` // allowed to; equal to Unbounded when there is no upper limit
	Unit        string  `json:"unit"`
	Consequence string  `json:"consequence"`
}

// Unbounded is Fit.High where only the lower limit matters.
const Unbounded = 1e6

// Sizes that the invented devices take. Common practice, no source, unless another is named.
const (
	anchorLeastMM   = 3.0  // vein diameter; a catheter of about 3 mm must pass
	anchorMostMM    = 12.0 // vein diameter at which an anchor still seats
	bendMostDeg     = 60.0 // abrupt bend that a stiff delivery catheter follows
	spanLeastMM     = 40.0 // between the anchors
	spanMostMM      = 110.0
	shortenMost     = 0.5 // of the span: more draws the anchors together instead of the wall
	rodMM           = 1.2 // diameter of one rod
	rodClearanceMM  = 0.5
	arcLeastMM      = 50.0 // posterior arc that a posterior band covers (anatomy.md S30: 56 to 114 mm)
	arcMostMM       = 120.0
	downsizeMostPct = 30.0 // more tears the stitches out (anatomy.md S46 pulled to 32 %)
	ringLeastShare  = 0.60 // of the commissural diameter: more undersizing tears the ring out
	ringMostShare   = 1.00 // a wider ring gathers nothing
	ovalEndsMM      = 15.0 // station where the mouth's oval has become round; chosen
)

// fits lists what does not fit of the repairs in place.
func fits(s *Solver, p *plan, r *Report) []Finding {
	f := fitter{s: s, p: p}
	if b := p.band; b != nil {
		f.veinDevice(repair.SinusBand, p.proximal, p.distal)
		f.band(b)
	}
	if rods := p.rods; rods != nil {
		f.veinDevice(repair.SinusRods, rods.ProximalMM, rods.DistalMM)
		f.rods(rods)
	}
	if b := p.posterior; b != nil {
		f.within("posterior-arc", Fit{string(repair.PosteriorBand), "posterior annulus from trigone to trigone", f.posteriorArc(), arcLeastMM, arcMostMM, "mm",
			"no band of this length: part of the arc stays bare or the band bunches"}, "S30")
		f.within("posterior-downsizing", Fit{string(repair.PosteriorBand), "shortening of the posterior annulus", b.DownsizingPercent, 0, downsizeMostPct, "%",
			"the stitches may tear out of the annulus"}, "S46; "+common)
	}
	if g := p.fullRing; g != nil {
		c := s.base.patient.Sized().CommissuralMM
		f.within("ring-size", Fit{string(repair.FullRing), "size of the ring", g.SizeMM, ringLeastShare * c, ringMostShare * c, "mm",
			"too small a ring tears out or narrows the inflow; too large a ring gathers nothing"}, common)
	}
	f.clips(r)
	return f.out
}

type fitter struct {
	s   *Solver
	p   *plan
	out []Finding
}

// within adds a finding when the value lies outside its allowed range.
func (f *fitter) within(code string, q Fit, source string) {
	if q.Value >= q.Low && q.Value <= q.High {
		return
	}
	f.out = append(f.out, Finding{Code: code, Severity: caution, Text: q.String(), Source: source, Fit: &q})
}

// String words a misfit: what, how much, what is allowed, and what follows.
func (q Fit) String() string {
	allowed := fmt.Sprintf("%.4g to %.4g %s", q.Low, q.High, q.Unit)
	switch {
	case q.High >= Unbounded:
		allowed = fmt.Sprintf("at least %.4g %s", q.Low, q.Unit)
	case q.Low == 0:
		allowed = fmt.Sprintf("at most %.4g %s", q.High, q.Unit)
	}
	return fmt.Sprintf("Does not fit (%s): %s is %.1f %s; allowed %s. Consequence: %s.", q.Device, q.Quantity, q.Value, q.Unit, allowed, q.Consequence)
}

// veinDevice checks what every device in the vein needs: enough vein, and a way through it.
func (f *fitter) veinDevice(kind repair.Kind, proximal, distal float64) {
	v, device := f.s.base.patient.Sinus, string(kind)
	half := ring.Default().AnchorLength / 2
	f.within("vein-length", Fit{device, "length of the vein", v.LengthMM, distal + half, Unbounded, "mm",
		"the far end would lie in the interventricular vein or beyond it"}, "S53")
	f.within("vein-mouth", Fit{device, "station of the near end", proximal, half, Unbounded, "mm",
		"it would hang out of the mouth into the right atrium"}, common)
	if v.BendDeg > 0 && v.BendMM <= distal {
		f.within("vein-bend", Fit{device, fmt.Sprintf("bend of the vein at %.0f mm", v.BendMM), v.BendDeg, 0, bendMostDeg, "°",
			"the delivery catheter may not pass it"}, common)
	}
}

func (f *fitter) band(b *ring.Band) {
	const device = string(repair.SinusBand)
	for _, a := range []struct {
		name string
		at   float64
	}{{"near", f.p.proximal}, {"far", f.p.distal}} {
		wide, narrow := f.veinWidths(a.at)
		q := Fit{device, "width of the vein at the " + a.name + " anchor", wide, anchorLeastMM, anchorMostMM, "mm", "the anchor may not seat and may slip or wander"}
		if wide > anchorMostMM {
			f.within("anchor-wide", q, common)
		} else {
			q.Value, q.Consequence = narrow, "the catheter may not pass, or the anchor may hurt the vein"
			f.within("anchor-narrow", q, common)
		}
	}
	span := b.DistalMM - b.ProximalMM
	q := Fit{device, "vein between the anchors", span, spanLeastMM, spanMostMM, "mm", "too short a path cannot gather the annulus"}
	if span > spanMostMM {
		q.Consequence = "no tether of this length"
		f.within("band-long", q, common)
	} else {
		f.within("band-short", q, common)
	}
	f.within("band-shortening", Fit{device, "shortening", b.ShorteningMM, 0, shortenMost * span, "mm", "the anchors are drawn together rather than the annulus"}, common)
}

func (f *fitter) rods(rods *ring.Rods) {
	least, at := math.Inf(1), 0.0
	for i, st := range f.s.base.shape.vein.Station {
		if w := 2 * f.s.base.shape.veinRadius[i]; st >= rods.ProximalMM && st <= rods.DistalMM && w < least {
			least, at = w, st
		}
	}
	f.within("rods-wide", Fit{string(repair.SinusRods), fmt.Sprintf("width of the vein at %.0f mm", at), least, bundleMM(rods.Count) + rodClearanceMM, Unbounded, "mm",
		fmt.Sprintf("%d rods side by side do not go through", rods.Count)}, "geometry of touching rods of 1.2 mm (chosen)")
}

// bundleMM is the diameter round n touching rods: 1, 2 and 1 + 2/√3 = 2.155 rod diameters.
func bundleMM(n int) float64 {
	return rodMM * [...]float64{0, 1, 2, 1 + 2/math.Sqrt(3)}[min(max(n, 0), 3)]
}

// veinWidths is the larger and the smaller diameter of the vein at a station: oval at the mouth with the area of the
// stated diameter, round from ovalEndsMM on.
func (f *fitter) veinWidths(at float64) (wide, narrow float64) {
	d := 2 * f.s.base.shape.radiusAt(&f.s.base.patient, at)
	oval := 1 + (f.s.base.patient.Sinus.MouthOval-1)*math.Max(0, 1-at/ovalEndsMM)
	return d * math.Sqrt(oval), d / math.Sqrt(oval)
}

// posteriorArc is the length of the annulus from trigone to trigone behind, mm.
func (f *fitter) posteriorArc() float64 {
	return f.s.base.shape.annulus.LengthMM() * (1 - f.s.base.patient.Sized().IntertrigoneShare)
}

// clips checks room along the line and calcium; reach and hold are found with the clip itself (clipFit).
func (f *fitter) clips(r *Report) {
	leaflet, line := f.s.base.patient.Leaflet, r.After.Annulus.CommissuralMM
	for i, c := range r.After.Clips {
		for k, other := range r.After.Clips[:i] {
			apart := math.Abs(c.Position-other.Position) / 2 * line
			f.within("clip-room", Fit{c.Kind, fmt.Sprintf("distance of bonds %d and %d", k+1, i+1), apart, (c.WidthMM + other.WidthMM) / 2, Unbounded, "mm",
				"the two lie on each other"}, "geometry")
		}
		half := c.WidthMM / line // half a width in units of the line's position
		if on := math.Min(leaflet.CalcifiedTo, c.Position+half) - math.Max(leaflet.CalcifiedFrom, c.Position-half); on > 0 {
			f.within("clip-calcium", Fit{c.Kind, fmt.Sprintf("calcified edge under the bond at %.2f", c.Position), on / 2 * line, 0, 0, "mm",
				"calcium in the grip keeps the edges apart and may tear"}, "physics.md A3: S14, exclusions; "+common)
		}
	}
}

// clipFit is the misfit behind a clip that grasps nothing or holds badly.
func clipFit(p *plan, i int, c *Clip) *Fit {
	if c.Condition == "not grasped" {
		return &Fit{c.Kind, fmt.Sprintf("gap at %.2f before the clip", c.Position), c.GapMM, 0, p.clips[i].ReachMM, "mm",
			"it cannot grasp both edges and bonds nothing"}
	}
	if p.clipSteps[i].Kind == repair.EdgeClip {
		return &Fit{c.Kind, fmt.Sprintf("leaflet held at %.2f", c.Position), p.clipSteps[i].Value("leaflet_held_mm"), goodHoldMM, Unbounded, "mm",
			"the edge may slip out of the clip"}
	}
	return nil
}

package valve

import (
	"fmt"
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/artery"

	"gonum.org/v1/gonum/spatial/r3"
)

// VesselShape is the circumflex artery or one of its branches along the vein, station by station: every list has the
// length of StationMM. Lengths in mm, forces in N per mm of vein, narrowing in %.
type VesselShape struct {
	Name      string    // "circumflex", "marginal branch", "diagonal branch"
	StationMM []float64 // sinus station it lies beside
	LumenMM   []float64 // diameter open
	Deep      []float64 // 1: between vein and annulus ("under" the vein seen from outside), 0: beside it, smooth between
	// ClearanceMM is the soft tissue from the vein's inner wall, where the band lies, to the wall of the lumen.
	ClearanceMM []float64
	BandNPerMM  []float64 // force of the band that reaches the vessel
	// AnchorNPerMM is the same of the anchors; the two add up to the whole contact.
	AnchorNPerMM []float64
	WorstViewPct []float64 // narrowing in the view that shows most
	BestViewPct  []float64 // in the view at right angles: negative, it looks wider
	AreaLossPct  []float64
	Occluded     []bool

	// The same vessel with one of the two taken away: the largest narrowing along it, worst view.
	BandAlonePct, AnchorAlonePct float64
	FlowReserve                  float64
	Risk                         string
}

// vesselShapes turns the artery's answer into lists along the vein.
func (s *shape) vesselShapes(b *baseline, r *artery.Report) []VesselShape {
	var out []VesselShape
	for _, v := range r.Vessels {
		q := VesselShape{Name: v.Name, BandAlonePct: v.BandAlone.WorstViewPct, AnchorAlonePct: v.AnchorAlone.WorstViewPct,
			FlowReserve: v.FlowReserve, Risk: v.Risk.String()}
		main := v.Name == mainVessel
		for _, st := range v.Stations {
			lumen, deep := b.patient.Artery.BranchMM, 1.0
			if main {
				lumen, deep = b.patient.Artery.DiameterMM, deepShare(b, st.AtMM)
			}
			q.StationMM, q.LumenMM, q.Deep = append(q.StationMM, st.AtMM), append(q.LumenMM, lumen), append(q.Deep, deep)
			q.ClearanceMM = append(q.ClearanceMM, st.ClearanceMM)
			q.BandNPerMM, q.AnchorNPerMM = append(q.BandNPerMM, st.BandNPerMM), append(q.AnchorNPerMM, st.AnchorNPerMM)
			q.WorstViewPct, q.BestViewPct = append(q.WorstViewPct, st.WorstViewPct), append(q.BestViewPct, st.BestViewPct)
			q.AreaLossPct, q.Occluded = append(q.AreaLossPct, st.AreaLossPct), append(q.Occluded, st.Occluded)
		}
		out = append(out, q)
	}
	return out
}

const mainVessel = "circumflex"

// arteryFrom is the station where the circumflex ends on its way round the heart. A left-dominant one reaches the crux,
// where the middle cardiac vein enters at 7 mm (anatomy.md S55); a right-dominant one ends on the side of the heart (25 mm,
// chosen: S71, rarer towards the mouth); a balanced one between.
func arteryFrom(d anatomy.Dominance) float64 {
	switch d {
	case anatomy.LeftDominant:
		return 7
	case anatomy.BalancedDominant:
		return 16
	}
	return 25
}

// lumenByDominance is the published lumen of the circumflex and twice its spread, mm (anatomy.md S76, S77; balanced from
// S78 with the spread of S76).
func lumenByDominance(d anatomy.Dominance) (mean, spread float64, source string) {
	switch d {
	case anatomy.LeftDominant:
		return 4.2, 2 * 0.6, "S76, S77"
	case anatomy.BalancedDominant:
		return 3.8, 2 * 0.5, "S78"
	}
	return 3.4, 2 * 0.5, "S76"
}

// dominanceFinding notes an artery whose stated lumen is unusual for the stated dominance.
func (s *Solver) dominanceFinding(add func(code, severity, text, source string)) {
	p := &s.base.patient
	mean, spread, source := lumenByDominance(p.Dominance)
	if d := p.Artery.DiameterMM; math.Abs(d-mean) > spread {
		add("artery-size", note, fmt.Sprintf("A circumflex artery of %.1f mm is unusual in a %s-dominant heart: published %.1f ± %.1f mm (twice the spread).", d, p.Dominance, mean, spread), source)
	}
}

// veinStrip fills the vein's lists of a state: distance and elevation against the annulus of that state, and what presses
// on it.
func (out *Shapes) veinStrip(s *shape, p *plan, vein, annulus []r3.Vec, push []float64) {
	out.VeinPush = append([]float64(nil), push...)
	for i, v := range vein {
		now, rest := r3.Sub(v, s.partnerOf(i, annulus)), r3.Sub(s.vein.Rest[i], s.partnerOf(i, s.rest))
		out.VeinDistance = append(out.VeinDistance, math.Max(0, s.vein.Distance[i]+math.Hypot(now.X, now.Y)-math.Hypot(rest.X, rest.Y)))
		out.VeinElevation = append(out.VeinElevation, s.vein.Elevation[i]+now.Z-rest.Z)
		q := s.partnerOf(i, annulus)
		out.VeinPhiDeg = append(out.VeinPhiDeg, math.Mod(math.Atan2(q.Y, q.X)*180/math.Pi+360, 360))
		out.VeinAnchor = append(out.VeinAnchor, s.anchorForce(p, s.vein.Station[i]))
	}
}

// partnerOf is the place on an annulus that vein node i lies beside.
func (s *shape) partnerOf(i int, annulus []r3.Vec) r3.Vec {
	at := s.vein.Partner[i]
	n := len(annulus)
	j, t := int(at)%n, at-math.Floor(at)
	return r3.Add(r3.Scale(1-t, annulus[j]), r3.Scale(t, annulus[(j+1)%n]))
}

// pressing returns what a device in the vein presses on its wall at each node: the size of the band's force per length
// together with the rods' push towards the annulus, which is what can squeeze an artery lying there, and the whole push
// towards the annulus with its sign (negative: outward, as at the ends of rods). N/mm; nil without a device.
func (t *treated) pressing(s *shape, p *plan) (contact, push []float64) {
	if p.band == nil && p.rods == nil {
		return nil, nil
	}
	vein := t.ring.Vein
	contact, push = make([]float64, len(vein)), make([]float64, len(vein))
	for i, v := range vein {
		inward := s.towardsAnnulus(i, v, t.ring.Annulus)
		if p.band != nil {
			f := t.ring.Band.ContactNPerMM[i]
			contact[i], push[i] = r3.Norm(f), r3.Dot(f, inward)
		}
		if p.rods != nil {
			length := 0.0
			if i > 0 {
				length += r3.Norm(r3.Sub(v, vein[i-1])) / 2
			}
			if i+1 < len(vein) {
				length += r3.Norm(r3.Sub(vein[i+1], v)) / 2
			}
			f := r3.Dot(t.ring.Rods.ForceN[i], inward) / length
			push[i] += f
			contact[i] += math.Max(0, f)
		}
	}
	return contact, push
}

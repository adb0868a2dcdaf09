package closure

import "math"

// profile is what a State does to one station.
type profile struct {
	excess    [2]float64 // chord length added, mm
	compliant [2]float64 // share of the strain and bending left by calcification
	clamped   bool
}

// box is a stretch of given centre and width (mm) with logistic edges: 1 inside, 0 outside.
func box(x, centre, width, edge float64) float64 {
	return logistic((x-centre+width/2)/edge) * logistic((centre+width/2-x)/edge)
}

// stretch is a box that vanishes with its width: one rising edge less the next.
func stretch(x, centre, width, edge float64) float64 {
	return logistic((x-centre+width/2)/edge) - logistic((x-centre-width/2)/edge)
}

func logistic(v float64) float64 { return 1 / (1 + math.Exp(-v)) }

// softplus is max(v, 0) rounded over the length edge.
func softplus(v, edge float64) float64 {
	if v > 40*edge {
		return v
	}
	return edge * math.Log1p(math.Exp(v/edge))
}

// clampExcess limits e to top with a rounded corner and says whether e was beyond top.
func clampExcess(e, top float64) (float64, bool) {
	if e <= 0 || e < top-20*excessRoundingMM {
		return e, false
	}
	return top - softplus(top-e, excessRoundingMM) + softplus(top, excessRoundingMM) - top, e > top
}

// at returns the profile at x (mm from the middle of a line of half length half).
func (s *State) at(x, half float64) profile {
	p := profile{compliant: [2]float64{1, 1}}
	p.excess[Posterior] = -s.RestrictionMM
	for _, f := range s.Faults {
		centre := f.Position * half
		e := f.ElongationMM * box(x, centre, f.WidthMM, faultEdgeMM) * (1 + s.excessChange)
		if f.Ruptured {
			inside := f.WidthMM/2 - math.Sqrt((x-centre)*(x-centre)+faultEdgeMM*faultEdgeMM/4)
			e += ruptureSlope * softplus(inside, faultEdgeMM/2)
		}
		p.excess[f.Leaflet] += e
	}
	for k, e := range p.excess {
		var clamped bool
		p.excess[k], clamped = clampExcess(e, ExcessMaxMM)
		p.clamped = p.clamped || clamped
	}
	for _, c := range s.Calcifications {
		p.compliant[c.Leaflet] *= 1 - c.Severity*stretch(x, c.Position*half, c.WidthMM, faultEdgeMM)
	}
	return p
}

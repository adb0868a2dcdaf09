package ring

import "math"

// settle minimises the energy and lets the weaker anchor slip until the tension no longer exceeds its grip. The slip
// is added to s.state. An anchor never slips back.
func (s *Solver) settle(in *Input, iterations *int) (Status, float64) {
	for id, d := range s.last {
		r := s.first[id]
		s.u[r], s.u[r+1], s.u[r+2] = d.X, d.Y, d.Z
	}
	if in.Band != nil {
		s.state = in.Band.State
	} else {
		s.state = BandState{}
	}
	status, residual := s.minimise(iterations)
	if s.bandAt < 0 || !status.OK() || in.Band.TensionN > 0 {
		return status, residual
	}
	grip, distal := in.Band.ProximalGripN, false
	if g := in.Band.DistalGripN; g > 0 && (grip == 0 || g <= grip) {
		grip, distal = g, true
	}
	if grip <= 0 {
		return status, residual
	}
	c := &s.cables[s.bandAt]
	tension := func() float64 { _, t, _ := c.pull(c.length(s.x)); return t }
	over := tension() - grip
	if over <= 0 {
		return status, residual
	}
	start := s.state
	try := func(slip float64) float64 {
		s.state = start
		if distal {
			s.state.DistalShiftMM += slip
		} else {
			s.state.ProximalShiftMM += slip
		}
		s.runBand(c, in, in.Band.ProximalMM+s.state.ProximalShiftMM, in.Band.DistalMM-s.state.DistalShiftMM)
		status, residual = s.minimise(iterations)
		return tension() - grip
	}
	most := in.Band.DistalMM - in.Band.ProximalMM - start.ProximalShiftMM - start.DistalShiftMM - in.Constants.AnchorLength
	lo, flo := 0.0, over
	hi, fhi := most, math.NaN()
	if most <= 0 {
		return AnchorsMet, residual
	}
	// First guess: tension is about proportional to what is left of the shortening.
	at := min(most, (in.Band.ShorteningMM-s.slack)*over/(over+grip))
	for range 60 {
		f := try(at)
		if !status.OK() || math.Abs(f) <= gripTolerance || hi-lo < 1e-13*most {
			return status, residual
		}
		if f > 0 {
			if at >= most {
				return AnchorsMet, residual
			}
			if !math.IsNaN(fhi) && lo > 0 {
				fhi /= 2 // Illinois: halve the value of the end kept twice
			}
			lo, flo = at, f
		} else {
			if !math.IsNaN(fhi) {
				flo /= 2
			}
			hi, fhi = at, f
		}
		if math.IsNaN(fhi) {
			// Still gripping too little: extend by the same rule, half again as far.
			at = min(most, lo+1.5*(in.Band.ShorteningMM-s.slack-lo)*f/(f+grip)+1e-3)
			continue
		}
		at = lo + (hi-lo)*flo/(flo-fhi)
	}
	return Stalled, residual
}

package ring

import "math"

// settle minimises the energy and lets the weaker anchor slip until the tension no longer exceeds its grip. The slip
// is added to s.state. An anchor never slips back.
func (s *Solver) settle(in *Input, iterations *int) (Status, float64) {
	s.start()
	if in.Band != nil {
		s.state = in.Band.State
	} else {
		s.state = BandState{}
	}
	// Beyond the grip this state need not be an equilibrium: it only tells whether an anchor slips.
	status, residual := s.minimise(iterations)
	if status == Converged && s.bandAt >= 0 && s.room(in) <= 0 {
		return AnchorsMet, residual
	}
	if s.bandAt < 0 || status == NotFinite || in.Band.TensionN > 0 {
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
	if _, t, _ := c.pull(c.length(s.x)); t <= grip {
		return status, residual
	}
	// While it slips the tension is the grip. For a given slip the equilibrium under that constant tension has a path
	// length; the slip is right when that length is the band's own. Length falls by about one per one of slip, so a
	// secant needs few steps, and no such solve sees more than the grip; they
	// start where this solve started, so that the state beyond the grip leaves no trace.
	s.start()
	own := c.target + c.stretchAt(grip)
	c.held = grip
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
		return c.length(s.x) - own
	}
	most := s.room(in)
	before, f0 := 0.0, try(0)
	at := min(max(f0, 0), most)
	for range 30 {
		f := try(at)
		switch {
		case !status.OK():
			return status, residual
		case math.Abs(f) <= slipTolerance:
			c.held = 0 // the same state, held by the band's own stiffness
			return status, residual
		case f > 0 && at >= most:
			return AnchorsMet, residual
		}
		slope := min(-0.1, (f-f0)/(at-before))
		before, f0 = at, f
		at = min(max(0, at-f/slope), most)
	}
	return Stalled, residual
}

// start puts the displacements back to where this solve began: the last solve's, or zero.
func (s *Solver) start() {
	for id, d := range s.last {
		r := s.first[id]
		s.u[r], s.u[r+1], s.u[r+2] = d.X, d.Y, d.Z
	}
}

// room is how far the anchors can still move together before they touch, mm.
func (s *Solver) room(in *Input) float64 {
	b := in.Band
	return b.DistalMM - b.ProximalMM - s.state.ProximalShiftMM - s.state.DistalShiftMM - in.Constants.AnchorLength
}

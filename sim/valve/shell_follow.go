package valve

import "annuloscope/sim/closure"

// followMost is how many iterations of the shell one answer may wait for, 1 to 3 ms each. Chosen: under a slider most states
// come to rest in ten.
const followMost = 20

// Follow is the shell on its way: the closed leaflets that s has settled, brought to the annulus and the muscles of the
// case that quick has solved last, and come to rest there under the pressure at which they were settled. Circulation and
// ring do not answer to it, the open leaflets stay those that were settled, and no number of a Report is taken from it: it
// is for pictures while a slider moves. It is nil when the shell would have to start afresh (nothing settled yet, another
// patient, torn chords, another clip), and when it does not come to rest in a bounded number of iterations.
func (s *Solver) Follow(quick *Solver) *ShellShapes {
	e, b, p := s.shell, s.base, quick.plan
	if e == nil || e.patient == nil || e.patient != b || p == nil || !b.patient.Same(&quick.base.patient) || b.torn() || e.openSurface.Empty() {
		return nil
	}
	t := &quick.after
	annulus, pap, line := b.shape.rest, papillaryAt(&b.patient, true, [2]closure.PapillaryShift{}), &b.input.Line
	if p.hasRepairs {
		annulus, pap, line = t.ring.Annulus, t.pap, &t.input.Line
	}
	in := b.shellInput(e.fit, annulus, pap, 0)
	in.PressureNMM2, in.Bonds = e.pressed, shellBonds(p, t.closed.Clips)
	if in.Validate() != nil || !e.closed.Continues(in) || e.closed.Set(*in) != nil || !e.closed.Near(followMost) {
		return nil
	}
	e.keepClosed(&e.way, b.fitted, line, e.closed.Result(), p.clips, t.closed.Clips[:len(p.clips)])
	return &ShellShapes{Closed: e.way.closedSurface, Open: e.openSurface}
}

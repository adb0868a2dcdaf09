package ring

// TransmittedFraction is the septal-lateral change the sinus band of in brings about, divided by that of the same band
// (same shortening, or same tension if it is held at one) fixed on the annulus itself over its full posterior arc. It
// is the whole difference between reaching the annulus through the vein and holding it directly. Other devices and
// loads of in stay in place in both. r is the solve of in itself. The fraction is 0 without a working band. The status
// is the worst of the solves needed.
func (s *Solver) TransmittedFraction(in *Input, r *Result) (float64, Status) {
	if in.Band == nil || in.Band.ShorteningMM <= 0 && in.Band.TensionN <= 0 {
		return 0, r.Status
	}
	if s.reference == nil { // one solver for each question, so that each starts from its own last answer
		s.reference, s.bare = &Solver{}, &Solver{}
	}
	base := *in
	base.Band = nil
	before := r.Before.SeptalLateralMM
	status := r.Status
	worst := func(t Status) { status = max(status, t) }
	if in.Rods != nil || in.Posterior != nil || in.FullRing != nil || len(in.Loads) > 0 || in.Annulus.Shift != nil {
		s.bare.Solve(&base, &s.refResult)
		worst(s.refResult.Status)
		before = s.refResult.After.SeptalLateralMM
	}
	base.Posterior = &s.refBand
	s.refBand = PosteriorBand{ShorteningMM: in.Band.ShorteningMM, TensionN: in.Band.TensionN}
	if in.Band.TensionN > 0 {
		s.refBand.ShorteningMM = 0
	}
	s.reference.Solve(&base, &s.refResult)
	worst(s.refResult.Status)
	direct := before - s.refResult.After.SeptalLateralMM
	if direct == 0 {
		return 0, status
	}
	return (before - r.After.SeptalLateralMM) / direct, status
}

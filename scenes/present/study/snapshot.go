package study

// Snapshot returns an independent study of the case and report at hand, with a runner of its own that must answer with
// the closed loop, for work that goes on while the person changes the case. It has no history.
func (s *Study) Snapshot(r Runner) *Study {
	c := *s
	c.runner, c.undo, c.redo, c.settling = r, nil, nil, false
	c.Case, c.start = s.Case.Clone(), s.start.Clone()
	c.plans = nil
	for _, p := range s.plans {
		c.plans = append(c.plans, p.clone())
	}
	if s.Updating() {
		c.submit()
	}
	return &c
}

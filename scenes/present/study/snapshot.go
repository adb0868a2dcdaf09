package study

// Snapshot returns an independent study of the case and report at hand, with a runner of its own that must answer with
// the closed loop, for work that goes on while the person changes the case. It has no history; it settles where s does.
func (s *Study) Snapshot(r Runner) *Study {
	c := *s
	c.runner, c.undo, c.redo, c.settling = r, nil, nil, false
	c.Case, c.start = s.Case.Clone(), s.start.Clone()
	c.plans = nil
	for _, p := range s.plans {
		c.plans = append(c.plans, p.clone())
	}
	d, ok := r.(deepener)
	if c.shell = s.shell && ok; c.shell {
		d.Deepen(true)
	}
	if s.Updating() || s.Settling() {
		c.submit()
	}
	return &c
}

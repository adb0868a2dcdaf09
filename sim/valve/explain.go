package valve

import "annuloscope/sim/casefile"

// Explain puts into r, the report of the case last solved by s without Options.Attribution, what that option adds: where
// the shortening went and what rods on trial do, also among the findings. All other numbers stay. goOn, if not nil, is asked between the equilibria;
// when it says no, because something newer waits, r is left as it is and done is false. It panics before any Solve.
func (s *Solver) Explain(c casefile.Case, r *Report, goOn func() bool) (done bool, err error) {
	if s.plan == nil {
		panic("valve: Explain before Solve")
	}
	var why *Attribution
	if s.plan.hasRepairs {
		var ok bool
		if why, ok = attribute(&s.after.ringIn, goOn); !ok {
			return false, nil
		}
	}
	side, err := trial(c, s.baseOpts, &r.After)
	if err != nil {
		return false, err
	}
	r.Attribution, r.Trial = why, side
	s.judge(r, s.plan) // a trial is a finding
	return true, nil
}

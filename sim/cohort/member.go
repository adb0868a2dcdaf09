package cohort

import (
	"fmt"
	"slices"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Plan says what to draw and what to do to everybody.
type Plan struct {
	Seed    uint64
	Mix     Mix
	Repairs []repair.Step
	Full    bool // run the closed-loop circulation
}

// Member is one virtual patient with the outcome.
type Member struct {
	Index    int
	Group    Group
	Case     casefile.Case // with the repairs
	Rejected []string      // why earlier draws for this patient were impossible
	Fits     bool          // the repairs could be done
	Unfit    string        // why not
	Solved   bool          // After and its Report hold numbers
	Failure  string        // why not, or what did not converge
	Before   valve.State
	After    valve.State // zero unless Solved
}

// Worker makes members one after another; one for each thread.
type Worker struct {
	plan    Plan
	sampler *sampler
	solver  *valve.Solver
}

// NewWorker returns a worker; it panics on shares that are not usable.
func NewWorker(p Plan) *Worker { return &Worker{p, newSampler(p.Mix), valve.NewSolver()} }

// unfit lists the findings of a report that mean the repair could not be done. Common practice, no source.
var unfit = []string{"anchor-wide", "anchor-narrow", "vein-bend", "band-short", "clip-not-grasped"}

// Member makes patient index. The error means that the tables and the program's limits do not go together.
func (w *Worker) Member(index int) (Member, error) {
	r := source(w.plan.Seed, index)
	m := Member{Index: index, Group: w.sampler.group(r)}
	for range maxAttempts {
		c := virtual(index, m.Group, w.sampler.draw(r, m.Group))
		err := c.Validate()
		if err == nil {
			if err = w.solve(&m, c); err == nil {
				return m, nil
			}
		}
		m.Rejected = append(m.Rejected, reason(err))
	}
	return m, fmt.Errorf("cohort: patient %d: no possible draw in %d; last: %s", index, maxAttempts, m.Rejected[maxAttempts-1])
}

// solve solves a possible patient; an error means that no valve with these numbers can be. A repair that has no place in
// this anatomy (an anchor beyond the end of the vein) leaves the patient, unfit and untreated.
func (w *Worker) solve(m *Member, c casefile.Case) error {
	options := valve.Options{Circulation: w.plan.Full}
	treated := c
	treated.Repairs = w.plan.Repairs
	noPlace := treated.Validate()
	if noPlace == nil {
		r, err := w.solver.Solve(treated, options)
		if err != nil {
			return err
		}
		m.Case, m.Before = treated.Clone(), r.Before
		m.take(&r)
		return nil
	}
	r, err := w.solver.Solve(c, options)
	if err != nil {
		return err
	}
	m.Case, m.Before, m.Unfit = treated.Clone(), r.Before, reason(noPlace)
	return nil
}

func (m *Member) take(r *valve.Report) {
	m.After, m.Solved, m.Fits = r.After, true, true
	if !r.Provenance.Converged {
		m.Failure = r.Provenance.Status
	}
	for _, f := range r.Findings {
		if slices.Contains(unfit, f.Code) {
			m.Fits, m.Unfit = false, f.Code
			break
		}
	}
}

package cohort

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Plan says what to draw and what to do to everybody.
type Plan struct {
	Seed    uint64
	Mix     Mix
	Repairs []repair.Step
	Full    bool   // run the closed-loop circulation
	Engine  string // of the leaflets; valve.SectionsEngine where empty
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
	Engine   string      // that closed the leaflets
}

// Worker makes members one after another; one for each thread.
type Worker struct {
	drawer *Drawer
	solver *valve.Solver
}

// NewWorker returns a worker; it panics on shares that are not usable.
func NewWorker(p Plan) *Worker { return &Worker{NewDrawer(p), valve.NewSolver()} }

// poorGrip is a misfit with which a clip can still be placed.
const poorGrip = "clip-poor-grip"

// Member makes patient index. The error means that the tables and the program's limits do not go together.
func (w *Worker) Member(index int) (Member, error) {
	d := w.drawer.Draft(index)
	for {
		c, err := d.Next()
		if err != nil {
			return d.member, err
		}
		r, err := w.solver.Solve(c, w.drawer.Options())
		if m, ok := d.Take(&r, err); ok {
			return m, nil
		}
	}
}

func (m *Member) take(r *valve.Report) {
	m.After, m.Solved, m.Fits = r.After, true, true
	if !r.Provenance.Converged {
		m.Failure = r.Provenance.Status
	}
	for _, f := range r.Findings {
		if f.Fit != nil && f.Code != poorGrip {
			m.Fits, m.Unfit = false, f.Code
			break
		}
	}
}

package cohortview

import (
	"fmt"
	"strings"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/cohort"
	"annuloscope/sim/valve"
)

// Cold is the engine that solves a patient of a cohort: the quick tier and without history, as the command line does, so
// that a patient has the same numbers here and there.
type Cold struct{ solver *valve.Solver }

// NewCold returns a Cold.
func NewCold() *Cold { return &Cold{valve.NewSolver()} }

// Solve answers with the orifice equation at rest.
func (c *Cold) Solve(cs casefile.Case) (valve.Report, error) {
	return c.solver.Solve(cs, valve.Options{Brief: true})
}

// gather makes the members of a cohort in the order of their index, one case at a time.
type gather struct {
	runner  study.Runner
	members []cohort.Member
	failed  error

	key    string
	drawer *cohort.Drawer
	draft  *cohort.Draft
	asked  uint64
	waits  bool // for the answer to the number asked
}

// follow makes the cohort that of a plan and goes on until it has n members; it tells whether something changed. At most
// one answer is taken and one case handed out.
func (g *gather) follow(p cohort.Plan, n int) bool {
	changed := false
	if key := planKey(p); key != g.key {
		*g = gather{runner: g.runner, key: key, drawer: cohort.NewDrawer(p), asked: g.asked, members: g.members[:0:0]}
		changed = true
	}
	for g.waits {
		r, ok := g.runner.Poll()
		if !ok {
			return changed
		}
		if r.N != g.asked || !r.Final {
			continue
		}
		g.waits, changed = false, true
		if m, ok := g.draft.Take(&r.Report, r.Err); ok {
			g.members, g.draft = append(g.members, m), nil
		}
	}
	if len(g.members) >= n || g.failed != nil {
		return changed
	}
	if g.draft == nil {
		g.draft = g.drawer.Draft(len(g.members))
	}
	c, err := g.draft.Next()
	if err != nil {
		g.failed = err
		return true
	}
	g.asked++
	g.waits = true
	g.runner.Submit(g.asked, c)
	return changed
}

func planKey(p cohort.Plan) string {
	var b strings.Builder
	fmt.Fprint(&b, p.Seed, p.Mix)
	for _, r := range p.Repairs {
		b.WriteString(" " + r.String())
	}
	return b.String()
}

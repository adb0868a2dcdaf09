package study_test

import (
	"testing"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// twoEngines answers by the sections and, after a few steps, by the shell, unless a case has so many repairs.
type twoEngines struct {
	solved, settled int
	refuse          int
	last            valve.Report
	repairs         int
}

func (e *twoEngines) Solve(c casefile.Case) (valve.Report, error) {
	e.solved++
	e.repairs = len(c.Repairs)
	e.last = valve.Report{}
	e.last.Provenance.Engine = valve.SectionsEngine
	return e.last, nil
}

func (e *twoEngines) Settle(_ casefile.Case, goOn func() bool) (valve.Report, bool, error) {
	for range 6 {
		if !goOn() {
			return valve.Report{}, false, nil
		}
	}
	e.settled++
	r := e.last
	r.Engines = &valve.Engines{Status: "settled"}
	if e.repairs == e.refuse {
		r.Engines.Status = "refused"
	} else {
		r.Provenance.Engine = valve.ShellEngine
	}
	return r, true, nil
}

// Numbers of two engines never stand beside each other, however the comparison is changed while it is being solved; one
// column that does not settle keeps all with the sections, and says which.
func TestComparisonNeverMixesEngines(t *testing.T) {
	clip, band := repair.Must(repair.EdgeClip), repair.Must(repair.SinusBand)
	plans := []study.Plan{{Name: "one", Repairs: []repair.Step{clip}}, {Name: "two", Repairs: []repair.Step{band, clip}}}
	e := &twoEngines{refuse: -1}
	c := study.NewComparison(study.NewSync(e))
	check := func(when string) (engine string) {
		t.Helper()
		for i := range c.Columns {
			if k := &c.Columns[i]; k.Solved && !k.Stale {
				if now := k.Report.Provenance.Engine; engine != "" && now != engine {
					t.Fatalf("%s: column %d by %s beside %s", when, i, now, engine)
				} else {
					engine = now
				}
			}
		}
		return engine
	}
	follow := func(when string, p []study.Plan) {
		t.Helper()
		for i := 0; i < 200 && (i == 0 || c.Busy()); i++ {
			c.Follow(normal(), p)
			check(when)
		}
	}
	c.SetShell(true)
	follow("first", plans)
	if got := check("first"); got != valve.ShellEngine || e.settled != 3 || e.solved != 6 || c.Settling() {
		t.Fatalf("by %s, settled %d, solved %d", got, e.settled, e.solved)
	}
	c.SetShell(false) // both answers are at hand
	if got := check("off"); got != valve.SectionsEngine || c.Busy() {
		t.Fatalf("switched off: by %s, busy %v", got, c.Busy())
	}
	c.SetShell(true)
	if got := check("on again"); got != valve.ShellEngine || c.Busy() {
		t.Fatalf("switched on again: by %s, busy %v", got, c.Busy())
	}
	changed := []study.Plan{plans[0], {Name: "two", Repairs: []repair.Step{band}}}
	for range 4 { // in the midst of a settling …
		c.Follow(normal(), changed)
		check("changing")
	}
	follow("changed again", plans[1:]) // … something else is asked for
	if got := check("changed again"); got != valve.ShellEngine || len(c.Columns) != 2 {
		t.Fatalf("by %s in %d columns", got, len(c.Columns))
	}
	e.refuse = 1
	follow("refused", plans)
	if got := check("refused"); got != valve.SectionsEngine || len(c.Refused()) != 1 || c.Refused()[0] != 1 || c.Settling() {
		t.Fatalf("by %s, refused %v, settling %v", got, c.Refused(), c.Settling())
	}
}

// A film or a picture of a study in three dimensions settles with a runner of its own.
func TestSnapshotSettles(t *testing.T) {
	s := study.New(study.NewSync(&twoEngines{refuse: -1}), normal())
	s.SetShell(true)
	c := s.Snapshot(study.NewSync(&twoEngines{refuse: -1}))
	c.Settle()
	if c.Report.Provenance.Engine != valve.ShellEngine || c.Settling() {
		t.Errorf("by %s, settling %v", c.Report.Provenance.Engine, c.Settling())
	}
}

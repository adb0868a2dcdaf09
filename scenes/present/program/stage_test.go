package program_test

import (
	"slices"
	"testing"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/valve"
)

// A move is answered stage by stage, none left out, each tick; the last is the causes, or the leaflets in three
// dimensions where they are chosen by the choice of the engine. The program is pending until then, and only then.
func TestAnswerComesInStages(t *testing.T) {
	s := study.NewSolver()
	s.Coarse = true
	p := program.New(program.Config{Runner: study.NewSync(s), Cases: cases(t)})
	move := func(mm float64) (seen []present.Stage) {
		turn(t, p, shortening, mm)
		for range 100000 {
			if now := p.Stage(); len(seen) == 0 || seen[len(seen)-1] != now {
				seen = append(seen, now)
			}
			if !p.Pending() {
				return seen
			}
			p.Tick(0)
		}
		t.Fatal("no end of the answer")
		return nil
	}
	settle(p)
	paint(p, 1024, 768)
	if got, want := move(8), []present.Stage{present.Asked, present.Geometry, present.Numbers, present.Causes}; !slices.Equal(got, want) {
		t.Errorf("sections: stages %v, want %v", got, want)
	}
	if err := p.Act("engine", "1"); err != nil {
		t.Fatal(err)
	}
	settle(p)
	if got, want := move(9), []present.Stage{present.Asked, present.Geometry, present.Numbers, present.Causes, present.Settled}; !slices.Equal(got, want) {
		t.Errorf("shell: stages %v, want %v", got, want)
	}
	if e := p.Desk().S.Report.Provenance.Engine; e != valve.ShellEngine {
		t.Errorf("the last stage shows the engine %s", e)
	}
}

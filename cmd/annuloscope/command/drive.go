package command

import (
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

// drive opens a case in the program without a window and places its repairs, the last of them as the latest change, so
// that the sentence on top tells what it did. The program is solved when drive returns.
func drive(c casefile.Case) (*program.Program, error) {
	bare := c.Clone()
	bare.Repairs = nil
	n := len(c.Repairs)
	if n > 1 {
		bare.Repairs = append(bare.Repairs, c.Repairs[:n-1]...)
	}
	p := program.New(program.Config{Runner: study.NewSync(study.NewSolver()), Cases: []casefile.Case{bare}})
	s := p.Desk().S
	s.Settle()
	if n > 0 {
		if err := s.Add(c.Repairs[n-1]); err != nil {
			return nil, err
		}
		s.Settle()
	}
	return p, s.Failure
}

// placed is the sentence that tells what one repair with its defaults does to a patient, and why.
func placed(base casefile.Case, kind repair.Kind) (string, error) {
	c := base.Clone()
	c.Repairs = []repair.Step{repair.Must(kind)}
	p, err := drive(c)
	if err != nil {
		return "", err
	}
	return p.Announcement(), nil
}

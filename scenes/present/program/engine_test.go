package program_test

import (
	"errors"
	"sync"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// remembered is the real engine, which answers a case it has met before from memory, so that many tests can start from
// the same few patients. Answers are read only.
type remembered struct{}

var memory = struct {
	sync.Mutex
	answers map[string]valve.Report
}{answers: map[string]valve.Report{}}

func recall(key string, solve func() (valve.Report, error)) (valve.Report, error) {
	memory.Lock()
	defer memory.Unlock()
	if a, ok := memory.answers[key]; ok {
		return a, nil
	}
	a, err := solve()
	if err == nil {
		memory.answers[key] = a
	}
	return a, err
}

func (remembered) Solve(c casefile.Case) (valve.Report, error) {
	return recall("quick "+c.Name+casefile.Hash(c), func() (valve.Report, error) { return study.NewSolver().Solve(c) })
}

func (remembered) Refine(c casefile.Case) (valve.Report, error) {
	return recall("full "+c.Name+casefile.Hash(c), func() (valve.Report, error) {
		s := study.NewSolver()
		r, err := s.Refine(c)
		if err == nil {
			r, _, err = s.Explain(c, nil)
		}
		return r, err
	})
}

// noSweep leaves the charts over many values empty, where a test is not about them.
type noSweep struct{}

func (noSweep) Solve(casefile.Case) (valve.Report, error) {
	return valve.Report{}, errors.New("no sweep in this test")
}

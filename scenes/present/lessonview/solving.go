package lessonview

import (
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// solving solves the plans of lessons one after another and remembers the answers.
type solving struct {
	runner  study.Runner
	done    map[string]*valve.Report
	asked   uint64
	asking  string // hash of the case in hand; empty: none
	failure string
}

func newSolving(r study.Runner) solving {
	return solving{runner: r, done: map[string]*valve.Report{}}
}

// key tells cases apart: the numbers alone, whatever their titles.
func key(c casefile.Case) string { return casefile.Hash(c) }

// step takes an answer in and asks for the next plan; it tells whether something changed.
func (s *solving) step(l *lesson.Lesson) bool {
	changed := false
	for {
		r, ok := s.runner.Poll()
		if !ok {
			break
		}
		if r.N != s.asked || !r.Final {
			continue
		}
		changed = true
		if r.Err != nil {
			s.failure = r.Err.Error()
		} else {
			report := r.Report
			s.done[s.asking] = &report
		}
		s.asking = ""
	}
	if s.asking != "" || s.failure != "" {
		return changed
	}
	for _, p := range l.Plans {
		if k := key(p.Case); s.done[k] == nil {
			s.asked++
			s.asking = k
			s.runner.Submit(s.asked, p.Case)
			return true
		}
	}
	return changed
}

// results returns the reports of a lesson's plans that are there, and whether all are.
func (s *solving) results(l *lesson.Lesson) (lesson.Results, bool) {
	res := lesson.Results{}
	for _, p := range l.Plans {
		if r := s.done[key(p.Case)]; r != nil {
			res[p.Name] = r
		}
	}
	return res, len(res) == len(l.Plans)
}

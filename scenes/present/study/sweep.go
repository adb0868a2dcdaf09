package study

import (
	"math"
	"strings"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Sweep solves one case for several values of one number, a value at a time, with a Runner of its own. The number belongs
// to a repair, or is one that decides several of its numbers.
type Sweep struct {
	Values []float64
	States []valve.State // of the first Done values
	Done   int
	Failed bool // the last value asked for has no answer; the sweep ends there

	runner Runner
	key    string
	c      casefile.Case
	kind   repair.Kind
	set    func(st repair.Step, v float64) repair.Step
	asked  uint64
	shell  bool
}

// SetShell chooses whether the leaflets are settled in three dimensions; the sweep then begins again.
func (s *Sweep) SetShell(on bool) {
	if d, ok := s.runner.(deepener); ok && s.shell != on {
		s.shell, s.key = on, ""
		d.Deepen(on)
	}
}

// NewSweep returns an empty sweep of the number KIND/KEY over n equal steps from lo to hi.
func NewSweep(r Runner, kind repair.Kind, key string, lo, hi float64, n int) *Sweep {
	return NewSweepOf(r, kind, func(st repair.Step, v float64) repair.Step { return st.With(key, v) }, lo, hi, n)
}

// NewSweepOf returns an empty sweep of a number that set puts into the repair of that kind; cases that give the
// same repair at the first value are taken for the same.
func NewSweepOf(r Runner, kind repair.Kind, set func(st repair.Step, v float64) repair.Step, lo, hi float64, n int) *Sweep {
	s := &Sweep{runner: r, kind: kind, set: set, States: make([]valve.State, n)}
	for i := range n {
		s.Values = append(s.Values, lo+(hi-lo)*float64(i)/float64(n-1))
	}
	return s
}

// Follow makes the sweep that of a case, beginning again when anything but the swept number has changed, takes in an
// answer and asks for the next. It tells whether something changed. A case without the repair gets it with defaults.
func (s *Sweep) Follow(c casefile.Case) bool {
	c = c.Clone()
	_, at, ok := locate(c, string(s.kind))
	if !ok {
		st, err := defaults(c, s.kind)
		if err != nil {
			return false
		}
		c.Repairs = append(c.Repairs, st)
		at = len(c.Repairs) - 1
	}
	swept := c.Clone()
	swept.Repairs[at] = s.set(swept.Repairs[at], s.Values[0])
	changed := false
	if key := casefile.Hash(swept); key != s.key {
		s.key, s.c, s.Done, s.Failed, changed = key, c, 0, false, true
		s.ask(at)
	}
	for {
		r, ok := s.runner.Poll()
		if !ok {
			return changed
		}
		if r.N != s.asked || !r.Final || r.Settling {
			continue
		}
		changed = true
		if r.Err != nil {
			s.Failed = true
			return true
		}
		s.States[s.Done] = r.Report.After
		s.Done++
		s.ask(at)
		return true
	}
}

func (s *Sweep) ask(at int) {
	if s.Done >= len(s.Values) {
		return
	}
	c := s.c.Clone()
	c.Repairs[at] = s.set(c.Repairs[at], s.Values[s.Done])
	if err := c.Validate(); err != nil { // more than this case can take: the curve ends here
		s.Failed = true
		return
	}
	s.asked++
	s.runner.Submit(s.asked, c)
}

// Busy tells whether values are still to come.
func (s *Sweep) Busy() bool { return s.Done < len(s.Values) && !s.Failed }

// Curve returns the values done and one quantity at each.
func (s *Sweep) Curve(path string) (x, y []float64) {
	q, ok := valve.FindQuantity(path)
	if !ok {
		panic("study: no quantity " + path)
	}
	for i := range s.Done {
		v := q.Of(&s.States[i])
		if math.IsNaN(v) && strings.HasPrefix(path, "sinus.") {
			v = 0
		}
		x, y = append(x, s.Values[i]), append(y, v)
	}
	return x, y
}

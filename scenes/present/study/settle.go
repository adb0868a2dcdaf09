package study

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Settler is an Engine that can also settle the leaflets in three dimensions, for the case last solved (refined, if it
// refines). goOn is asked every few milliseconds; when it says false the work ends and ok is false.
type Settler interface {
	Engine
	Settle(c casefile.Case, goOn func() bool) (r valve.Report, ok bool, err error)
}

// deepener is a Runner that can settle.
type deepener interface{ Deepen(on bool) }

// Follower is a Settler that can put the leaflets in three dimensions into the pictures of the answers that come before they
// have settled: r is what Solve has just returned, and what follows to the same case shows them too.
type Follower interface {
	Settler
	Follow(r *valve.Report)
}

// follow does it where it can be done.
func follow(e Engine, r *valve.Report) {
	if f, ok := e.(Follower); ok {
		f.Follow(r)
	}
}

// SetShell chooses whether the leaflets are settled in three dimensions behind every answer.
func (s *Study) SetShell(on bool) {
	if d, ok := s.runner.(deepener); ok && s.shell != on {
		s.shell = on
		d.Deepen(on)
		s.submit()
	}
}

// Shell tells whether the leaflets are settled in three dimensions.
func (s *Study) Shell() bool { return s.shell }

// Settling tells whether the leaflets in three dimensions are still on their way.
func (s *Study) Settling() bool { return s.shell && (s.Updating() || s.settling) }

// How much one Poll of a synchronous runner does. Chosen.
const (
	perSlice = 2 // iterations of the leaflets, a few milliseconds each in the page
	perCause = 6 // equilibria of the ring, some four milliseconds each in the page; there are at most 41
)

// slices is a Settle or an Explain that runs in pieces: its goroutine and the caller take turns, so that only one of them ever works.
type slices struct {
	resume chan bool
	paused chan bool // true: there is more to do
	result Result
	ok     bool
}

// begin starts work that has done nothing yet; it pauses when it has asked so many times whether to go on.
func begin(work func(casefile.Case, func() bool) (valve.Report, bool, error), j *job, most int) *slices {
	s := &slices{resume: make(chan bool), paused: make(chan bool)}
	go func() {
		if <-s.resume {
			count := 0
			r, ok, err := work(j.c, func() bool {
				if count++; count%most != 0 {
					return true
				}
				s.paused <- true
				return <-s.resume
			})
			s.result, s.ok = Result{N: j.n, Report: r, Err: err, Final: true}, ok
		}
		s.paused <- false
	}()
	return s
}

// next does one slice and returns the answer when that was the last; a nil s has nothing to do.
func (s *slices) next() (Result, bool) {
	if s == nil {
		return Result{}, false
	}
	s.resume <- true
	if <-s.paused {
		return Result{}, false
	}
	return s.result, true
}

// stop ends the work and returns nil.
func (s *slices) stop() *slices {
	if s != nil {
		s.resume <- false
		<-s.paused
	}
	return nil
}

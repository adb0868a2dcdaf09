package study

import (
	"sync"

	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Engine solves a case. Solve is called from one goroutine at a time.
type Engine interface {
	Solve(c casefile.Case) (valve.Report, error)
}

// Refiner is an Engine that can also give a better, slower answer to the same case.
type Refiner interface {
	Engine
	Refine(c casefile.Case) (valve.Report, error)
}

// Explainer is a Refiner that can also say why, for the case last refined: the same numbers and where they come from. goOn
// is asked every few milliseconds; when it says false the work ends and ok is false.
type Explainer interface {
	Refiner
	Explain(c casefile.Case, goOn func() bool) (r valve.Report, ok bool, err error)
}

// Result is the answer to the request numbered N. Final is false when a better one follows; Explaining is true when that
// one only says more about the same numbers, Settling when the leaflets in three dimensions follow.
type Result struct {
	N          uint64
	Report     valve.Report
	Err        error
	Final      bool
	Explaining bool
	Settling   bool
}

// Runner takes requests and gives answers; of several requests waiting only the newest counts.
type Runner interface {
	Submit(n uint64, c casefile.Case)
	Poll() (Result, bool)
}

// Sync solves within Submit. It refines at the first Poll that has nothing else to give, and explains and settles in
// slices, one at each Poll after that.
type Sync struct {
	engine  Engine
	ready   []Result
	refine  *job
	deep    bool
	explain *job // what the slices explain; nil when they settle
	slices  *slices
}

type job struct {
	n uint64
	c casefile.Case
}

// NewSync returns a runner that solves at once, for the page, tests and batch.
func NewSync(e Engine) *Sync { return &Sync{engine: e} }

// Submit solves the case.
func (s *Sync) Submit(n uint64, c casefile.Case) {
	s.slices, s.explain = s.slices.stop(), nil
	r, err := s.engine.Solve(c)
	if s.deep && err == nil {
		follow(s.engine, &r)
	}
	_, more := s.engine.(Refiner)
	j := &job{n, c.Clone()}
	s.refine = nil
	if more && err == nil {
		s.refine = j
		s.ready = append(s.ready[:0], Result{N: n, Report: r})
		return
	}
	s.ready = append(s.ready[:0], s.last(j, r, err))
}

// last is the answer after which nothing but the settling comes, which it begins.
func (s *Sync) last(j *job, r valve.Report, err error) Result {
	settler, more := s.engine.(Settler)
	if more = more && err == nil && s.deep; more {
		s.slices = begin(settler.Settle, j, perSlice)
	}
	return Result{N: j.n, Report: r, Err: err, Final: true, Settling: more}
}

// Poll returns the next answer.
func (s *Sync) Poll() (Result, bool) {
	if len(s.ready) > 0 {
		r := s.ready[0]
		s.ready = s.ready[:0]
		return r, true
	}
	if j := s.refine; j != nil {
		s.refine = nil
		r, err := s.engine.(Refiner).Refine(j.c)
		if e, more := s.engine.(Explainer); more && err == nil {
			s.explain, s.slices = j, begin(e.Explain, j, perCause)
			return Result{N: j.n, Report: r, Explaining: true}, true
		}
		return s.last(j, r, err), true
	}
	r, ok := s.slices.next()
	if !ok {
		return Result{}, false
	}
	s.slices = nil
	if j := s.explain; j != nil {
		s.explain = nil
		return s.last(j, r.Report, r.Err), true
	}
	return r, true
}

// Deepen chooses whether requests from now on are settled.
func (s *Sync) Deepen(on bool) { s.deep = on }

// Async solves in its own goroutine, so that the screen never waits. Close ends it.
type Async struct {
	engine Engine
	mu     sync.Mutex
	wake   *sync.Cond
	next   *job
	done   []Result
	closed bool
	deep   bool
}

// NewAsync starts a runner.
func NewAsync(e Engine) *Async {
	a := &Async{engine: e}
	a.wake = sync.NewCond(&a.mu)
	go a.run()
	return a
}

// Submit asks for a case; a request that has not begun is dropped.
func (a *Async) Submit(n uint64, c casefile.Case) {
	a.mu.Lock()
	a.next = &job{n, c.Clone()}
	a.mu.Unlock()
	a.wake.Signal()
}

// Poll returns the next answer, if there is one.
func (a *Async) Poll() (Result, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if len(a.done) == 0 {
		return Result{}, false
	}
	r := a.done[0]
	a.done = a.done[1:]
	return r, true
}

// Close ends the goroutine after the request in hand.
func (a *Async) Close() {
	a.mu.Lock()
	a.closed = true
	a.mu.Unlock()
	a.wake.Signal()
}

func (a *Async) run() {
	for {
		a.mu.Lock()
		for a.next == nil && !a.closed {
			a.wake.Wait()
		}
		if a.closed {
			a.mu.Unlock()
			return
		}
		j := a.next
		a.next = nil
		a.mu.Unlock()
		r, err := a.engine.Solve(j.c)
		if err == nil && a.deeper() {
			follow(a.engine, &r)
		}
		if ref, more := a.engine.(Refiner); more && err == nil {
			if a.finish(Result{N: j.n, Report: r}) {
				continue
			}
			r, err = ref.Refine(j.c)
		}
		if e, more := a.engine.(Explainer); more && err == nil {
			if a.finish(Result{N: j.n, Report: r, Explaining: true}) {
				continue
			}
			why, ok, failed := e.Explain(j.c, a.idle)
			if !ok && failed == nil {
				continue // called off: something newer waits
			}
			r, err = why, failed
		}
		settler, deep := a.engine.(Settler)
		deep = deep && err == nil && a.deeper()
		if newer := a.finish(Result{N: j.n, Report: r, Err: err, Final: true, Settling: deep}); deep && !newer {
			if r, ok, err := settler.Settle(j.c, a.idle); ok {
				a.finish(Result{N: j.n, Report: r, Err: err, Final: true})
			}
		}
	}
}

// Deepen chooses whether requests from now on are settled.
func (a *Async) Deepen(on bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.deep = on
}

func (a *Async) deeper() bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.deep
}

// idle tells whether nothing newer waits.
func (a *Async) idle() bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.next == nil && !a.closed
}

// finish puts an answer out and tells whether a newer request waits.
func (a *Async) finish(r Result) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.done = append(a.done, r)
	return a.next != nil
}

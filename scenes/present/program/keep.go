package program

import "annuloscope/scenes/present/study"

// Times of the keeping, s. Chosen: at most two seconds of work are lost when the machine stops; a full disk is asked
// again now and then.
const (
	saveEvery  = 2.0
	tryAgainIn = 10.0
)

// mark is what a person would miss; the phase of a running beat is not among it.
type mark struct {
	touched  uint64
	view     study.View
	settings study.Settings
	scene    int
	lecture  uint64
}

func (p *Program) mark() mark {
	m := mark{p.d.S.Touched(), p.d.V, p.d.P, p.at, p.lectern.Version()}
	m.view.Phase = 0
	return m
}

// all is the whole state with what is not shared but would be missed: the running order.
func (p *Program) all() []byte {
	d := p.Document()
	d.Lecture = p.lectern.Kept()
	return d.Encode()
}

// keeping is the state of the keeping.
type keeping struct {
	to    study.Keeper // nil: nothing is kept
	begun bool         // ticking: what was there before the first tick is no change
	last  mark         // kept
	next  float64      // not before, s
	fails bool
}

// keep hands a changed state to the keeper, at most every saveEvery seconds. A failure is said once, and so is its end;
// what is on the screen stays, and is tried again. It tells whether there is something new to show.
func (p *Program) keep(now float64) bool {
	k, m := &p.keeping, p.mark()
	if !k.begun {
		k.begun, k.last = true, m
	}
	if k.to == nil || now < k.next || m == k.last && !k.fails {
		return false
	}
	k.next = now + saveEvery
	err := k.to.Keep(p.all())
	failed := k.fails
	k.fails = err != nil
	w := p.d.W()
	switch {
	case err != nil:
		k.next = now + tryAgainIn
		if failed {
			return false
		}
		p.d.Say(w.F("message.unkept", "why", err.Error()), true)
		return true
	case failed:
		p.d.Say(w.T("message.kept"), false)
	}
	k.last = m
	return failed
}

// Close keeps what has changed since the last time. A shell calls it when the window is closed.
func (p *Program) Close() error {
	k, m := &p.keeping, p.mark()
	if k.to == nil || !k.begun || m == k.last && !k.fails {
		return nil
	}
	err := k.to.Keep(p.all())
	if err == nil {
		k.last, k.fails = m, false
	}
	return err
}

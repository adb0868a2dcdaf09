package study

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Deed says what kind of change was made.
type Deed uint8

// The deeds.
const (
	Opened  Deed = iota // a case
	Turned              // a knob
	Placed              // a repair
	Removed             // a repair
	Chosen              // a worded parameter
	Undone
	Redone
	Restored // to the case as it was opened
)

// Change is the last thing done.
type Change struct {
	Deed     Deed
	ID       string // the knob, or the repair as KIND or KIND#n, or the path of a choice
	From, To float64
	Word     string
}

// Study is one case being worked on. Use New.
type Study struct {
	Case    casefile.Case // read only; use the methods to change it
	Report  valve.Report  // of the newest case that was solved
	Solved  bool          // Report holds an answer
	Failure error         // why the newest case has none
	Last    Change
	Base    valve.Report // the report before the last change
	Had     bool         // Base holds an answer
	Version uint64       // rises with every change of case or report

	start    casefile.Case
	undo     []step
	redo     []step
	runner   Runner
	asked    uint64
	answered uint64
	final    bool
	settling bool
	explains bool // the explanation of the report is on its way
	shell    bool
	touched  uint64 // version of the case
	plans    []Plan
}

type step struct {
	c    casefile.Case
	last Change
}

const mostUndo = 200 // steps kept; chosen

// New opens a case with a runner.
func New(r Runner, c casefile.Case) *Study {
	s := &Study{runner: r, Case: c.Clone(), start: c.Clone(), Last: Change{Deed: Opened}}
	s.submit()
	s.touched = s.Version
	return s
}

// Open replaces the case; it can be undone.
func (s *Study) Open(c casefile.Case) error {
	if err := c.Validate(); err != nil {
		return err
	}
	s.remember()
	s.start = c.Clone()
	s.install(c, Change{Deed: Opened}, false)
	return nil
}

// Waiting tells whether the report is older than the case.
func (s *Study) Waiting() bool { return s.answered != s.asked }

// Updating tells whether the report is older than the case, or will be refined or explained.
func (s *Study) Updating() bool { return s.Waiting() || !s.final }

// Stale tells whether the numbers of the report are older than the case, or will be refined.
func (s *Study) Stale() bool { return s.Updating() && !s.Explaining() }

// Explaining tells whether the numbers are final, and only where they come from is still on its way.
func (s *Study) Explaining() bool { return s.answered == s.asked && s.explains }

// Poll takes answers in and tells whether something changed.
func (s *Study) Poll() bool {
	changed := false
	for {
		r, ok := s.runner.Poll()
		if !ok {
			return changed
		}
		if r.N < s.answered {
			continue
		}
		s.answered, s.final, s.settling, s.explains, changed = r.N, r.Final, r.Settling, r.Explaining, true
		s.Version++
		if r.Err != nil {
			s.Failure = r.Err
			continue
		}
		s.Report, s.Solved, s.Failure = r.Report, true, nil
		if !r.Final { // to be shown before a runner without a goroutine refines it
			return true
		}
	}
}

// Settle polls a synchronous runner until its last answer is in.
func (s *Study) Settle() {
	for i := 0; i < mostSlices && (s.Updating() || s.Settling()); i++ {
		s.Poll()
	}
}

const mostSlices = 100000 // far beyond any settling; guards against a runner that never answers

func (s *Study) submit() {
	s.asked++
	s.Version++
	s.runner.Submit(s.asked, s.Case)
}

func (s *Study) remember() {
	s.undo = append(s.undo, step{s.Case.Clone(), s.Last})
	if len(s.undo) > mostUndo {
		s.undo = s.undo[1:]
	}
	s.redo = nil
}

// install makes c the case. A continued change keeps the base and the start value of the gesture.
func (s *Study) install(c casefile.Case, ch Change, continued bool) {
	if continued && s.Last.Deed == ch.Deed && s.Last.ID == ch.ID {
		ch.From = s.Last.From
	} else {
		s.Base, s.Had = s.Report, s.Solved
	}
	s.Case, s.Last = c, ch
	s.submit()
	s.touched = s.Version // asking again about the same case does not touch it
}

// apply checks c and makes it the case; the caller's change is refused with the error otherwise.
func (s *Study) apply(c casefile.Case, ch Change, continued bool) error {
	if err := c.Validate(); err != nil {
		return err
	}
	if !(continued && s.Last.Deed == ch.Deed && s.Last.ID == ch.ID) {
		s.remember()
	}
	s.install(c, ch, continued)
	return nil
}

// Undo goes back one change.
func (s *Study) Undo() bool { return s.travel(&s.undo, &s.redo, Undone) }

// Redo takes back the last Undo.
func (s *Study) Redo() bool { return s.travel(&s.redo, &s.undo, Redone) }

func (s *Study) travel(from, to *[]step, d Deed) bool {
	n := len(*from)
	if n == 0 {
		return false
	}
	st := (*from)[n-1]
	*from = (*from)[:n-1]
	*to = append(*to, step{s.Case.Clone(), s.Last})
	s.install(st.c, Change{Deed: d}, false)
	return true
}

// CanUndo and CanRedo tell what the buttons can do.
func (s *Study) CanUndo() bool { return len(s.undo) > 0 }

// CanRedo tells whether there is something to take back.
func (s *Study) CanRedo() bool { return len(s.redo) > 0 }

// Reset goes back to the case as it was opened; it can be undone.
func (s *Study) Reset() {
	s.remember()
	s.install(s.start.Clone(), Change{Deed: Restored}, false)
}

// Start returns the case as it was opened.
func (s *Study) Start() casefile.Case { return s.start }

// Touched returns the version at which the case last changed, for saving.
func (s *Study) Touched() uint64 { return s.touched }

// Placed tells whether the repair KIND or KIND#n is there.
func (s *Study) Placed(ref string) bool { _, _, ok := locate(s.Case, ref); return ok }

// Place puts a repair with its defaults at the end of the list, or takes it away.
func (s *Study) Place(ref string, on bool) error {
	c := s.Case.Clone()
	kind, i, ok := locate(c, ref)
	if ok == on {
		return nil
	}
	if !on {
		c.Repairs = append(c.Repairs[:i:i], c.Repairs[i+1:]...)
		return s.apply(c, Change{Deed: Removed, ID: ref}, false)
	}
	st, err := defaults(c, kind)
	if err != nil {
		return err
	}
	c.Repairs = append(c.Repairs, st)
	return s.apply(c, Change{Deed: Placed, ID: ref}, false)
}

// Choose puts a word at the path of a choice.
func (s *Study) Choose(path, word string) error {
	c := s.Case.Clone()
	if err := c.Patient.SetChoice(path, word); err != nil {
		return err
	}
	return s.apply(c, Change{Deed: Chosen, ID: path, Word: word}, false)
}

// defaults returns a new step of a kind, fitted to the patient: anchors on the vein, a clip beside the others.
func defaults(c casefile.Case, kind repair.Kind) (repair.Step, error) {
	st, err := repair.New(kind)
	if err != nil {
		return st, err
	}
	switch kind {
	case repair.SinusBand, repair.SinusRods:
		if l := c.Patient.Sinus.LengthMM; st.Value("distal_mm") > l {
			st = st.With("distal_mm", l)
		}
	case repair.EdgeClip, repair.EdgeStitch:
		st = st.With("position", freePosition(c))
	}
	return st, nil
}

// freePosition is where a new clip goes: at the jet, then beside it.
func freePosition(c casefile.Case) float64 {
	jet := c.Patient.Jet.Position
	if c.Patient.Chord.RupturedMM > 0 || c.Patient.Chord.ElongatedMM > 0 {
		jet = c.Patient.Chord.Position
	}
	for _, d := range []float64{0, 0.25, -0.25, 0.5, -0.5} {
		p, free := jet+d, true
		if p < -0.85 || p > 0.85 {
			continue
		}
		for _, r := range c.Repairs {
			if r.Kind == repair.EdgeClip || r.Kind == repair.EdgeStitch {
				free = free && (r.Value("position")-p > 0.2 || p-r.Value("position") > 0.2)
			}
		}
		if free {
			return p
		}
	}
	return 0
}

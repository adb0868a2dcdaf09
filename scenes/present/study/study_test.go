package study_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// fake answers with the case's septal-lateral diameter, so that a test can tell answers apart.
type fake struct {
	calls int
	wait  chan struct{}
	fail  error
}

func (f *fake) Solve(c casefile.Case) (valve.Report, error) {
	f.calls++
	if f.wait != nil {
		<-f.wait
	}
	var r valve.Report
	r.After.Annulus.SeptalLateralMM = c.Patient.Annulus.SeptalLateralMM
	return r, f.fail
}

func normal() casefile.Case {
	return casefile.Case{Name: "normal", Title: "Normal", Patient: anatomy.Normal()}
}

const shortening, width = "repair/sinus-band/shortening_mm", "anatomy/annulus.septal_lateral_mm"

func TestTurnUndoRedoReset(t *testing.T) {
	s := study.New(study.NewSync(&fake{}), normal())
	s.Poll()
	for i, v := range []float64{5, 6, 7} { // one gesture
		if err := s.Turn(shortening, v, i > 0); err != nil {
			t.Fatal(err)
		}
	}
	if !s.Placed("sinus-band") || s.Case.Repairs[0].Value("shortening_mm") != 7 {
		t.Fatalf("repairs %v", s.Case.Repairs)
	}
	if s.Last.From != 0 || s.Last.To != 7 {
		t.Errorf("a gesture starts where it began: %+v", s.Last)
	}
	if err := s.Turn(width, 33, false); err != nil {
		t.Fatal(err)
	}
	s.Undo()
	if got := s.Case.Patient.Annulus.SeptalLateralMM; got != 28 {
		t.Errorf("undo left %v", got)
	}
	s.Undo()
	if s.Placed("sinus-band") {
		t.Error("one undo takes the whole gesture back")
	}
	s.Redo()
	if s.Case.Repairs[0].Value("shortening_mm") != 7 {
		t.Error("redo")
	}
	s.Reset()
	if s.Placed("sinus-band") || !s.CanUndo() {
		t.Error("reset goes to the start and can be undone")
	}
	s.Undo()
	if !s.Placed("sinus-band") {
		t.Error("undo of a reset")
	}
}

func TestRefusedTurnChangesNothing(t *testing.T) {
	s := study.New(study.NewSync(&fake{}), normal())
	if err := s.Turn(shortening, 10, false); err != nil {
		t.Fatal(err)
	}
	before := s.Version
	err := s.Turn("repair/sinus-band/proximal_mm", 80, false) // the far anchor is at 84
	if err == nil || !strings.Contains(err.Error(), "cross") {
		t.Fatalf("crossed anchors: %v", err)
	}
	if s.Version != before || s.Case.Repairs[0].Value("proximal_mm") == 80 {
		t.Error("a refused change must change nothing")
	}
	if err := s.Turn(width, math.NaN(), false); err == nil {
		t.Error("NaN accepted")
	}
	if err := s.Turn("anatomy/no.such", 1, false); err == nil {
		t.Error("unknown knob accepted")
	}
}

func TestGroupMovesTogether(t *testing.T) {
	s := study.New(study.NewSync(&fake{}), normal())
	e := s.Case.Patient.Sinus.ElevationMM
	if err := s.Turn("group/elevation", e.Middle+4, false); err != nil {
		t.Fatal(err)
	}
	if g := s.Case.Patient.Sinus.ElevationMM; g.Middle != e.Middle+4 || g.Mouth != e.Mouth+4 || g.Distal != e.Distal+4 {
		t.Errorf("elevation %+v, was %+v", g, e)
	}
}

func TestNewestRequestWins(t *testing.T) {
	f := &fake{wait: make(chan struct{}, 100)}
	a := study.NewAsync(f)
	defer a.Close()
	s := study.New(a, normal())
	for v := 29.0; v <= 40; v++ {
		if err := s.Turn(width, v, true); err != nil {
			t.Fatal(err)
		}
	}
	if !s.Updating() {
		t.Error("not marked as updating")
	}
	for range 20 {
		f.wait <- struct{}{}
	}
	for i := 0; s.Updating(); i++ {
		if i > 2000 {
			t.Fatal("no answer")
		}
		s.Poll()
		time.Sleep(time.Millisecond)
	}
	if got := s.Report.After.Annulus.SeptalLateralMM; got != 40 {
		t.Errorf("the report is of %v, want the newest 40", got)
	}
	if f.calls > 3 {
		t.Errorf("%d solves for 13 requests: waiting ones were not dropped", f.calls)
	}
}

func TestFailureIsKept(t *testing.T) {
	f := &fake{}
	s := study.New(study.NewSync(f), normal())
	s.Poll()
	f.fail = errors.New("no equilibrium")
	if err := s.Turn(width, 30, false); err != nil {
		t.Fatal(err)
	}
	s.Poll()
	if s.Failure == nil || s.Report.After.Annulus.SeptalLateralMM != 28 || s.Updating() {
		t.Errorf("failure %v, report of %v, updating %v", s.Failure, s.Report.After.Annulus.SeptalLateralMM, s.Updating())
	}
}

func TestDocumentRoundTripAndWarnings(t *testing.T) {
	s := study.New(study.NewSync(&fake{}), normal())
	if err := s.Turn(shortening, 12.5, false); err != nil {
		t.Fatal(err)
	}
	d := study.Document{Scene: "valve", Open: s.Case, View: study.DefaultView(), Settings: study.DefaultSettings()}
	data := d.Encode()
	e, warnings, err := study.Decode(data)
	if err != nil || len(warnings) > 0 {
		t.Fatal(err, warnings)
	}
	if e.Open.Repairs[0].Value("shortening_mm") != 12.5 || string(e.Encode()) != string(data) {
		t.Error("the document changed on its way")
	}
	odd := strings.Replace(strings.Replace(string(data), `"theme": "light"`, `"theme": "plaid"`, 1), `"zoom": 1`, `"zoom": 1e9`, 1)
	e, warnings, err = study.Decode([]byte(odd))
	if err != nil || len(warnings) != 2 || e.Settings.Theme != "light" || e.View.Zoom != 1 {
		t.Errorf("unknown values: %v %v %+v", err, warnings, e.View)
	}
	for _, bad := range []string{"", "{", `{"version":99}`, `{"version":1,"case":"annuloscope: 1\nname: x\nannulus: {septal_lateral_mm: 900}"}`} {
		if _, _, err := study.Decode([]byte(bad)); err == nil {
			t.Errorf("%q accepted", bad)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(`{"version":1,"case":"annuloscope: 1\nname: x"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		if d, _, err := study.Decode(data); err == nil {
			if _, _, err := study.Decode(d.Encode()); err != nil {
				t.Errorf("what was read cannot be read again: %v", err)
			}
		}
	})
}

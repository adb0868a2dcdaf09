package study_test

import (
	"errors"
	"testing"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// counting answers with the number of repairs and counts its calls.
type counting struct {
	calls int
	fail  int // number of repairs at which it fails
}

func (f *counting) Solve(c casefile.Case) (r valve.Report, err error) {
	f.calls++
	r.After.Annulus.SeptalLateralMM = c.Patient.Annulus.SeptalLateralMM - float64(len(c.Repairs))
	if f.fail > 0 && len(c.Repairs) == f.fail {
		err = errors.New("no answer")
	}
	return r, err
}

func TestComparisonSolvesOneAtATimeAndKeepsWhatStays(t *testing.T) {
	f := &counting{}
	c := study.NewComparison(study.NewSync(f))
	patient := normal()
	one := study.Plan{Name: "one", Repairs: []repair.Step{repair.Must(repair.EdgeClip)}}
	two := study.Plan{Name: "two", Repairs: []repair.Step{repair.Must(repair.SinusBand), repair.Must(repair.EdgeClip)}}
	plans := []study.Plan{one, two}
	for i := 1; c.Busy(); i++ {
		c.Follow(patient, plans)
		if f.calls > i {
			t.Fatalf("%d cases solved in %d steps", f.calls, i)
		}
	}
	if f.calls != 3 || c.Columns[2].Report.After.Annulus.SeptalLateralMM != patient.Patient.Annulus.SeptalLateralMM-2 {
		t.Fatalf("%d calls, %+v", f.calls, c.Columns[2].Report.After.Annulus)
	}
	if c.Follow(patient, plans) || f.calls != 3 {
		t.Error("solved again although nothing changed")
	}
	// Taking the first away keeps the answer to the second; a new name needs no new answer.
	two.Name = "renamed"
	c.Settle(patient, []study.Plan{two})
	if f.calls != 3 || len(c.Columns) != 2 || !c.Columns[1].Solved || c.Columns[1].Plan.Name != "renamed" {
		t.Errorf("%d calls, columns %+v", f.calls, c.Columns)
	}
	// Another patient: everything is solved anew, and meanwhile the old numbers are marked.
	patient.Patient.Annulus.SeptalLateralMM++
	c.Follow(patient, []study.Plan{two})
	if !c.Columns[1].Stale || !c.Columns[1].Solved {
		t.Error("an old answer is not marked, or gone")
	}
	c.Settle(patient, []study.Plan{two})
	if f.calls != 5 || c.Base().Annulus.SeptalLateralMM != patient.Patient.Annulus.SeptalLateralMM {
		t.Errorf("%d calls, base %v", f.calls, c.Base().Annulus.SeptalLateralMM)
	}
}

func TestComparisonTellsWhatCannotBe(t *testing.T) {
	f := &counting{fail: 2}
	c := study.NewComparison(study.NewSync(f))
	off := study.Plan{Name: "off the vein", Repairs: []repair.Step{repair.Must(repair.SinusBand).With("distal_mm", 149)}}
	bad := study.Plan{Name: "fails", Repairs: []repair.Step{repair.Must(repair.SinusBand), repair.Must(repair.EdgeClip)}}
	c.Settle(normal(), []study.Plan{off, bad})
	if c.Busy() || f.calls != 2 {
		t.Fatalf("busy %v after %d calls; a plan that does not fit must not be solved", c.Busy(), f.calls)
	}
	for i, k := range c.Columns {
		if (k.Failure != nil) != (i > 0) || k.Solved != (i == 0) {
			t.Errorf("column %d: failure %v, solved %v", i, k.Failure, k.Solved)
		}
	}
}

package plain_test

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"annuloscope/scenes/present/plain"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Columns stand under each other in letters, not bytes; short rows are allowed; no blanks at the end of a line.
func TestTable(t *testing.T) {
	var b bytes.Buffer
	if err := plain.Table(&b, [][]string{{"quantity", "cm²"}, {"area", "10.00"}, {"Öffnung größer", "−3"}, {"alone"}}); err != nil {
		t.Fatal(err)
	}
	want := "quantity          cm²\n" +
		"---------------------\n" +
		"area            10.00\n" +
		"Öffnung größer     −3\n" +
		"alone\n"
	if b.String() != want {
		t.Errorf("got\n%swant\n%s", b.String(), want)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestTableSaysThatItCannotWrite(t *testing.T) {
	if err := plain.Table(full{}, [][]string{{"a"}, {"b"}}); err == nil {
		t.Error("a failing writer goes unnoticed")
	}
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{{1.25, 1, "1.2"}, {-0.04, 1, "0.0"}, {0.04, 1, "0.0"}, {-0.06, 1, "-0.1"}, {math.NaN(), 2, "-"}, {1e6, 0, "1000000"}, {-3, 0, "-3"}} {
		if got := plain.Number(c.v, c.decimals); got != c.want {
			t.Errorf("%g with %d decimals: %q, want %q", c.v, c.decimals, got, c.want)
		}
	}
}

func report(t *testing.T, imported bool) (string, *valve.Report) {
	t.Helper()
	c := casefile.Case{Patient: anatomy.Normal(), Repairs: []repair.Step{repair.Must(repair.EdgeClip)}}
	c.Patient.Imported = imported
	r, err := valve.Solve(c, valve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := plain.Report(&b, &r); err != nil {
		t.Fatal(err)
	}
	return b.String(), &r
}

// Every quantity of the report has its line with its unit, the findings and both openings are told, the caution ends it.
func TestReport(t *testing.T) {
	text, r := report(t, false)
	for _, q := range valve.Quantities() {
		if v := q.Of(&r.After); !math.IsNaN(v) && !strings.Contains(text, plain.Number(v, q.Decimals)) {
			t.Errorf("%s: %s is not in the report", q.Path, plain.Number(v, q.Decimals))
		}
	}
	for _, f := range r.Findings {
		if !strings.Contains(text, f.Text) {
			t.Errorf("finding %s is not told", f.Code)
		}
	}
	if !strings.Contains(text, "Openings after: 2 (") || !strings.HasSuffix(text, "\n"+valve.Notice+"\n") || strings.Contains(text, "NaN") {
		t.Errorf("openings, caution or a number is missing:\n%s", text)
	}
}

// Imported geometry: the mark, no grade, no rule.
func TestReportOfImportedGeometry(t *testing.T) {
	text, r := report(t, true)
	if !strings.Contains(text, valve.ImportedNotice) || !strings.Contains(text, "Leak before: no grade, imported geometry is not graded.") {
		t.Errorf("the mark or the reason is missing:\n%s", text)
	}
	if len(r.Selection)+len(r.AfterRepair) > 0 || r.After.Opening.StenosisGrade.Class != "" || r.Before.Opening.Stenosis != "" || r.After.Regurgitation.Grade.Class != "" || len(r.After.Regurgitation.Grade.Criteria) > 0 || !r.Provenance.Imported {
		t.Errorf("graded: %+v, %q, %v", r.After.Regurgitation.Grade, r.Before.Opening.Stenosis, r.Selection)
	}
}

package verify

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"
)

// Issue 6: at least 60 rows, every exact row passes, grid studies and published rows present, quickly.
func TestRun(t *testing.T) {
	start := time.Now()
	rows := Once()
	t.Logf("%s in %v", Summary(rows), time.Since(start))
	if len(rows) < 60 {
		t.Errorf("%d rows, issue 6 asks for at least 60", len(rows))
	}
	kinds, names := map[Kind]int{}, map[string]bool{}
	for _, r := range rows {
		kinds[r.Kind]++
		if key := r.Group + r.Quantity + r.Source; names[key] {
			t.Errorf("%s: %s stands twice", r.Group, r.Quantity)
		} else {
			names[key] = true
		}
		if r.Group == "" || r.Quantity == "" || r.Unit == "" || r.Source == "" || !(r.Tolerance > 0) && r.Verdict != NotAsymptotic {
			t.Errorf("incomplete row %+v", r)
		}
		switch r.Verdict {
		case Fail:
			t.Errorf("%s: %s: expected %v, ours %v ± %v", r.Group, r.Quantity, r.Expected, r.Ours, r.Tolerance)
		case Pass:
			if !(math.Abs(float64(r.Error)) <= float64(r.Tolerance)) {
				t.Errorf("passes outside its tolerance: %+v", r)
			}
		default:
			t.Logf("%s: %s: expected %v, ours %v ± %v, order %v: %s (%s)", r.Group, r.Quantity, r.Expected, r.Ours, r.Tolerance, r.Order, r.Verdict, r.Source)
		}
	}
	for _, k := range []Kind{Exact, Published, Secondary, Practice, Memory, Grid} {
		if kinds[k] == 0 {
			t.Errorf("no row of kind %q", k)
		}
	}
}

// An exact row outside its tolerance, or without a value, fails; any other shows a gap.
func TestVerdicts(t *testing.T) {
	var s sheet
	s.exact("a", "mm", 1, 1.001, 0.01, "")
	s.exact("a", "mm", 1, 1.1, 0.01, "")
	s.exact("a", "mm", 1, math.NaN(), 0.01, "")
	s.add(Published, "a", "mm", 1, 1.1, 0.01, "")
	s.band(Memory, "a", "mm", 2, 4, 2.1, "")
	s.grid("second order", "mm", 1+1./64, 1+4./64, 1+16./64, 2, 2, 0.1, "")
	s.grid("swings", "mm", 1, 1.1, 1, 2, 2, 0.1, "")
	s.grid("first order where second is due", "mm", 1.01, 1.02, 1.04, 2, 2, 0.1, "")
	want := []Verdict{Pass, Fail, Fail, Gap, Pass, Pass, NotAsymptotic, NotAsymptotic}
	for i, r := range s.rows {
		if r.Verdict != want[i] {
			t.Errorf("row %d: %s, want %s: %+v", i, r.Verdict, want[i], r)
		}
	}
	if Failed(s.rows) != 2 {
		t.Errorf("%d failed, want 2", Failed(s.rows))
	}
	data, err := json.Marshal(s.rows)
	if err != nil || !strings.Contains(string(data), `"ours":null`) {
		t.Errorf("NaN in JSON: %v %s", err, data)
	}
	var b bytes.Buffer
	if err := Markdown(&b, s.rows); err != nil || strings.Count(b.String(), "FAIL") != 3 {
		t.Errorf("%v\n%s", err, b.String())
	}
}

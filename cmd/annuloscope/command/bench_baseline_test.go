package command

import (
	"encoding/json"
	"strings"
	"testing"

	"annuloscope/scenes/pace"
)

// A run is compared with the carried one of the same place, size and engine, each measured by its own yardstick: a machine
// that is slow at everything is no slowdown, and what took more than half as long again is named.
func TestSlowdownsAreNamed(t *testing.T) {
	run := func(where string, yard, first, numbers float64) benchRun {
		return benchRun{Where: where, Engine: "sections", Yardstick: yard,
			Sizes: []benchRow{{Width: 1024, Height: 768, First: pace.Summary{P50: first}, Numbers: pace.Summary{P50: numbers}}}}
	}
	carried := []benchRun{run(whereWindow, 1, 1, 1), run(whereAlone, 2, 10, 40)}
	for _, c := range []struct {
		name string
		now  benchRun
		want string
	}{
		{"the same", run(whereAlone, 2, 10, 40), ""},
		{"a machine three times as slow", run(whereAlone, 6, 30, 120), ""},
		{"a little slower", run(whereAlone, 2, 14.9, 59), ""},
		{"the circulation slower", run(whereAlone, 2, 10, 64), "the circulation at 1024 × 768: 64.0 ms, 1.6 times"},
		{"slower on a quicker machine", run(whereAlone, 1, 9, 20), "the control at 1024 × 768: 9.0 ms, 1.8 times"},
		{"another place", run(wherePage, 2, 100, 400), ""},
		{"no yardstick", run(whereAlone, 0, 100, 400), ""},
	} {
		if got := strings.Join(slowdowns(c.now, carried), "; "); (c.want == "") != (got == "") || !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// The runs carried are of places that this program measures, with every size.
func TestCarriedRunsCanBeCompared(t *testing.T) {
	var carried []benchRun
	if err := json.Unmarshal(carriedRuns, &carried); err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, r := range carried {
		found[r.Where] = true
		if !(r.Yardstick > 0) || len(r.Sizes) != len(benchSizes) {
			t.Errorf("%s: yardstick %v ms, %d sizes", r.Where, r.Yardstick, len(r.Sizes))
		}
		for i, q := range r.Sizes {
			if q.Width != benchSizes[i][0] || q.Height != benchSizes[i][1] || !(q.First.P50 > 0) || !(q.Numbers.P50 > 0) || !(q.Settled.P50 > 0) {
				t.Errorf("%s: %d × %d: %v %v %v ms", r.Where, q.Width, q.Height, q.First.P50, q.Numbers.P50, q.Settled.P50)
			}
		}
		if s := slowdowns(r, carried); len(s) > 0 {
			t.Errorf("%s is slower than itself: %v", r.Where, s)
		}
	}
	for _, where := range []string{whereAlone, whereWindow} { // and the page, where it was measured
		if !found[where] {
			t.Errorf("no run is carried of: %s", where)
		}
	}
}

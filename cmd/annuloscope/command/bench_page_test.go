package command

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes"
	"annuloscope/scenes/pace"
	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

// The page drives itself (?bench=…) and reports, in each browser found here: the program runs, answers a click and keys,
// and measures itself. A browser that is missing is told, not skipped: Chromium has tests of its own that must run.
func TestPageMeasuresItself(t *testing.T) {
	site, err := page.Load(t.Context(), os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	results := make(chan scenes.Driven, 1)
	server := httptest.NewServer(collect(page.Handler(site, page.Frames{}), results))
	defer server.Close()
	for _, b := range browsers {
		path := b.path()
		if path == "" {
			t.Logf("%s is not here: the page was not tried in it", b.names[0])
			continue
		}
		if b.screen {
			t.Setenv("DISPLAY", scenestest.StartXvfb(t, 1280, 900).Name)
			t.Setenv("WAYLAND_DISPLAY", "")
		}
		if !b.screen { // one browser is enough for what the page refuses
			c := benchCmd{Moves: 2}
			d := c.drive()
			d.Choose = []scenes.Choice{{ID: "engine", Value: "2"}}
			took, err := inBrowser(t.Context(), b, server.URL+"/?bench="+d.Address(), benchSizes[0], results, time.Minute)
			if err == nil || !strings.Contains(err.Error(), `takes one of Sections, Three dimensions, not "2"`) {
				t.Errorf("%s: a third engine: %v, %+v", path, err, took)
			}
		}
		runs := []benchCmd{{Moves: 6}, {Moves: 3, engineFlag: engineFlag{"shell"}}}
		if b.screen { // the slower browser: the choice of engine is the page's own
			runs = runs[:1]
		}
		for _, c := range runs {
			took, err := inBrowser(t.Context(), b, server.URL+"/?bench="+c.drive().Address(), benchSizes[0], results, time.Minute+time.Duration(c.Moves)*c.patience())
			if err != nil {
				t.Errorf("%s, %s: %v", path, c.name(), err)
				continue
			}
			t.Logf("%s, %s: the first picture p50 %.0f ms, the geometry %.0f ms, the circulation %.0f ms, the causes %.0f ms, three dimensions %.0f ms (%d)",
				path, c.name(), took.First.P50, took.Geometry.P50, took.Numbers.P50, took.Causes.P50, took.Settled.P50, took.Settled.Count)
			// A move that hits the end of the slider changes nothing and is not counted; no more is counted than was moved.
			for _, part := range []pace.Summary{took.First, took.Geometry, took.Numbers, took.Causes} {
				if part.Count < c.Moves-1 || part.Count > c.Moves {
					t.Errorf("%s, %s: %d pictures of %d moves", path, c.name(), part.Count, c.Moves)
				}
			}
			if !(took.First.P50 > 0) || took.Geometry.P50 < took.First.P50 || took.Numbers.P50 < took.Geometry.P50 || took.Causes.P50 < took.Numbers.P50 {
				t.Errorf("%s, %s: not in order: %+v", path, c.name(), took)
			}
			if c.shell() != (took.Settled.Count >= c.Moves-1) || c.shell() && !(took.Settled.P50 > took.Causes.P50) {
				t.Errorf("%s, %s: three dimensions in the picture %d times after %.0f ms", path, c.name(), took.Settled.Count, took.Settled.P50)
			}
		}
	}
}

// Only a result is taken as one, and everything else is answered as before.
func TestOnlyResultsAreCollected(t *testing.T) {
	results := make(chan scenes.Driven, 1)
	h := collect(http.NotFoundHandler(), results)
	for path, want := range map[string]int{"/bench-result?%7B%7D": 204, "/bench-result?nonsense": 400, "/other": 404} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest("GET", path, nil))
		if w.Code != want {
			t.Errorf("%s: %d, want %d", path, w.Code, want)
		}
	}
	if len(results) != 1 {
		t.Errorf("%d results", len(results))
	}
}

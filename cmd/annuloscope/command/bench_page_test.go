package command

import (
	"net/http"
	"net/http/httptest"
	"os"
	"testing"

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
	results := make(chan benchRow, 1)
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
		const moves = 6
		row, err := inBrowser(t.Context(), b, server.URL+"/?bench="+benchSlider+",6", benchSizes[0], results, moves)
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		t.Logf("%s: the quick answer p50 %.0f ms, the circulation p50 %.0f ms, the causes p50 %.0f ms", path, row.First.P50, row.Numbers.P50, row.Settled.P50)
		// A click and a key that hit the end of the slider change nothing and are not counted.
		if row.First.Count < moves-1 || row.Settled.Count < moves-1 || row.Numbers.Count < moves-1 || !(row.First.P50 > 0) || row.Numbers.P50 < row.First.P50 || row.Settled.P50 < row.Numbers.P50 {
			t.Errorf("%s: %+v", path, row)
		}
	}
}

// Only a result is taken as one, and everything else is answered as before.
func TestOnlyResultsAreCollected(t *testing.T) {
	results := make(chan benchRow, 1)
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

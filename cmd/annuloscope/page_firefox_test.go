package main_test

import (
	"context"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

// The page in Firefox: it opens, speaks, reacts to the pointer, to the keyboard and to its HTML side, shows another
// picture then, and asks nothing of any other server. Everything deeper is tested in Chromium.
func TestPageInFirefox(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), 4*time.Minute)
	defer cancel()
	site, err := page.Load(ctx, os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(page.Handler(site, page.Frames{}))
	defer server.Close()
	f := scenestest.OpenFirefox(t, server.URL+"/", 1024, 768, 3*time.Minute)
	solved := f.WaitState(90*time.Second, "solved", func(s scenestest.State) bool { return s.Pictures > 0 && !s.Pending })
	if !strings.Contains(solved.Description, "0.32\u00a0cm²") {
		t.Errorf("the page says %q, not the leak of the first patient", solved.Description)
	}
	before := f.Screenshot()
	slider, ok := solved.Control("repair/sinus-band/shortening_mm")
	if !ok {
		t.Fatal("no slider for the shortening")
	}
	value := func(s scenestest.State) float64 { c, _ := s.Control(slider.ID); return c.Value }
	f.Click(slider.Rect.X+0.6*slider.Rect.W, slider.Rect.Y+slider.Rect.H/2)
	moved := f.WaitState(30*time.Second, "a shorter sinus", func(s scenestest.State) bool { return value(s) > 5 && !s.Pending })
	if n := different(before, f.Screenshot()); n < 2000 {
		t.Errorf("only %d pixels changed", n)
	}
	f.Key('\uE014')
	f.WaitState(30*time.Second, "the arrow key", func(s scenestest.State) bool { return value(s) > value(moved) && !s.Pending })
	f.Eval(`(() => { const e = document.getElementById("control-repair/sinus-band/shortening_mm"); e.value = 10; e.dispatchEvent(new Event("input", {bubbles: true})); return "" })()`)
	f.WaitState(30*time.Second, "the HTML slider", func(s scenestest.State) bool { return value(s) == 10 && !s.Pending })
	if text := f.Eval(`document.body.textContent`); !strings.Contains(text, "Educational only") {
		t.Error("the page's HTML side does not carry the caution")
	}
	if outside := f.Eval(`performance.getEntriesByType("resource").map(e => e.name).filter(n => !n.startsWith(location.origin + "/") && !n.startsWith("blob:") && !n.startsWith("data:")).join(" ")`); outside != "" {
		t.Errorf("requests left this machine: %s", outside)
	}
}

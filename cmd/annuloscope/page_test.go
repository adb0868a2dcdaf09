package main_test

import (
	"context"
	"image"
	"net/http/httptest"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

// The page in Chromium: it opens, speaks, reacts to the pointer on the picture, to the keyboard and to its HTML side,
// shows another picture then, and asks nothing of any other server.
func TestPageInChromium(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), 4*time.Minute)
	defer cancel()
	frames, err := page.ParseFrames("none")
	if err != nil {
		t.Fatal(err)
	}
	site, err := page.Load(ctx, os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	if most := page.MostBytes; site.Size() > most {
		t.Errorf("the page is %d bytes on the way, more than %d", site.Size(), most)
	}
	server := httptest.NewServer(page.Handler(site, frames))
	defer server.Close()
	p := scenestest.OpenPage(t, server.URL+"/", 1024, 768, 90*time.Second)
	p.WaitState(60*time.Second, "the first picture", func(s scenestest.State) bool { return s.Pictures > 0 })
	firstPicture(t, p)
	solved := p.WaitState(60*time.Second, "solved", func(s scenestest.State) bool { return s.Pictures > 0 && !s.Pending })
	useThePage(t, p, solved)
	sharedOnPage(t, p)
	lessonOnPage(t, p)
	if outside := p.Outside(); outside != "" {
		t.Errorf("requests left this machine: %s", outside)
	}
	if c := p.Complaints(); len(c) > 0 {
		t.Errorf("the console complains: %v", c)
	}
}

// tab is the page in a browser that is here.
type tab interface {
	Click(x, y float64)
	Key(modifiers int64, codes ...string)
	Eval(js string) string
	WaitState(timeout time.Duration, what string, wanted func(scenestest.State) bool) scenestest.State
	Screenshot() image.Image
}

// useThePage checks the first answer, and what pointer, key and HTML side do to the shortening.
func useThePage(t *testing.T, p tab, solved scenestest.State) {
	t.Helper()
	if !strings.Contains(solved.Description, "0.32\u00a0cm²") {
		t.Errorf("the page says %q, not the leak of the first patient", solved.Description)
	}
	before := p.Screenshot()
	slider, ok := solved.Control("repair/sinus-band/shortening_mm")
	if !ok {
		t.Fatal("no slider for the shortening")
	}
	p.Click(slider.Rect.X+0.6*slider.Rect.W, slider.Rect.Y+slider.Rect.H/2)
	moved := p.WaitState(30*time.Second, "a shorter sinus", func(s scenestest.State) bool {
		c, _ := s.Control(slider.ID)
		return c.Value > 5 && !s.Pending
	})
	if !strings.Contains(moved.Announcement, "Shortening the sinus") {
		t.Errorf("the page announces %q", moved.Announcement)
	}
	if n := different(before, p.Screenshot()); n < 2000 {
		t.Errorf("only %d pixels changed", n)
	}
	value := func(s scenestest.State) float64 { c, _ := s.Control(slider.ID); return c.Value }
	p.Key(0, "ArrowRight")
	p.WaitState(30*time.Second, "the arrow key", func(s scenestest.State) bool { return value(s) > value(moved) && !s.Pending })
	p.Eval(`(() => { const e = document.getElementById("control-repair/sinus-band/shortening_mm"); e.value = 10; e.dispatchEvent(new Event("input", {bubbles: true})); return "" })()`)
	p.WaitState(30*time.Second, "the HTML slider", func(s scenestest.State) bool { return value(s) == 10 && !s.Pending })
	live := "" // the HTML side follows a fraction of a second later
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end) && !strings.Contains(live, "by 10"); time.Sleep(50 * time.Millisecond) {
		live = p.Eval(`document.getElementById("announcement").textContent`)
	}
	if !strings.Contains(live, "by 10") {
		t.Errorf("the live region says %q", live)
	}
	if text := p.Eval(`document.body.textContent`); !strings.Contains(text, "Educational only") {
		t.Error("the page's HTML side does not carry the caution")
	}
}

// firstPicture says how long the first picture took from the start of the navigation, by the page's own clock. The aim
// (issue 7) is 3 s on two idle processors; what is timed warns and does not fail.
func firstPicture(t *testing.T, p *scenestest.Page) {
	t.Helper()
	ms, err := strconv.ParseFloat(p.Eval("performance.now()"), 64)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("first picture within %.1f s of the start of the navigation (the page is asked every 0.05 s)", ms/1e3)
	if ms > 3000 {
		t.Logf("WARNING: more than 3 s; was the machine busy?")
	}
}

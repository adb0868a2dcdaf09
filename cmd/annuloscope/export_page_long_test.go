//go:build long

package main_test

import (
	"context"
	"net/http/httptest"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

// Files saved from the page in Chromium: a picture, a film and the comparison's handout are made and handed over, and the
// page keeps painting meanwhile. The longest pause is reported, not judged: it depends on the machine.
func TestFilesFromThePage(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), 8*time.Minute)
	defer cancel()
	frames, err := page.ParseFrames("none")
	if err != nil {
		t.Fatal(err)
	}
	site, err := page.Load(ctx, os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(page.Handler(site, frames))
	defer server.Close()
	p := scenestest.OpenPage(t, server.URL+"/", 1024, 768, 6*time.Minute)
	p.WaitState(90*time.Second, "solved", func(s scenestest.State) bool { return s.Pictures > 0 && !s.Pending })
	p.Eval(`(() => { annuloscopePage.download = (name, data) => { window.got = name + " " + data.length + " " + Array.from(data.slice(0, 5)).join(","); };
		window.gap = 0; let last = performance.now();
		const tick = () => { const now = performance.now(); window.gap = Math.max(window.gap, now - last); last = now; requestAnimationFrame(tick); };
		requestAnimationFrame(tick); return ""; })()`)
	press := func(id string, option int) {
		t.Helper()
		s := p.WaitState(60*time.Second, id, func(s scenestest.State) bool { _, ok := s.Control(id); return ok })
		c, _ := s.Control(id)
		if option >= 0 {
			p.Eval(`(() => { const e = document.getElementById("control-` + id + `"); e.selectedIndex = ` + strconv.Itoa(option) + `; e.dispatchEvent(new Event("change")); return ""; })()`)
			return
		}
		p.Click(c.Rect.X+c.Rect.W/2, c.Rect.Y+c.Rect.H/2)
	}
	press("menu", -1)
	press("export", -1)
	for _, c := range []struct {
		name   string
		format int
		begins string
	}{{"annuloscope-functional-valve.png", 0, "137,80,78,71"}, {"annuloscope-functional-valve-beat.gif", 2, "71,73,70,56"}, {"annuloscope-functional-handout.pdf", 4, "37,80,68,70"}} {
		press("export/format", c.format)
		p.Eval(`(() => { window.got = ""; window.gap = 0; return ""; })()`)
		from := time.Now()
		press("export/save", -1)
		for p.Eval("window.got") == "" && time.Since(from) < 3*time.Minute {
			time.Sleep(50 * time.Millisecond)
		}
		got := p.Eval("window.got")
		t.Logf("%s in %v, longest pause %s ms", got, time.Since(from).Round(100*time.Millisecond), p.Eval("Math.round(window.gap)"))
		if !strings.HasPrefix(got, c.name+" ") || !strings.Contains(got, " "+c.begins) {
			t.Errorf("got %q, want %s", got, c.name)
		}
	}
	if c := p.Complaints(); len(c) > 0 {
		t.Errorf("the console complains: %v", c)
	}
}

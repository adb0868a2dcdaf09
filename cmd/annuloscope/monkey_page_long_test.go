//go:build long

package main_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"net/http/httptest"
	"os"
	"strconv"
	"testing"
	"time"

	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

// A monkey at the page in Chromium, with a fixed seed (SEED chooses another): clicks, drags, wheel, keys and the HTML
// side for two minutes. The program lives on, the console stays silent, nothing leaves this machine, and the page's
// elements do not pile up.
func TestMonkeyInThePage(t *testing.T) {
	seed := uint64(1)
	fmt.Sscan(os.Getenv("SEED"), &seed)
	site, err := page.Load(context.Background(), os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(page.Handler(site, page.Frames{}))
	defer server.Close()
	const w, h = 1280, 800
	p := scenestest.OpenPage(t, server.URL+"/", w, h, 10*time.Minute)
	p.WaitState(60*time.Second, "solved", func(s scenestest.State) bool { return s.Pictures > 0 && !s.Pending })
	r := rand.New(rand.NewPCG(seed, 1))
	keys := []string{"Tab", "Enter", "Escape", "Space", "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "End", "F1", "F6",
		"KeyV", "KeyC", "KeyT", "KeyL", "KeyZ", "KeyY", "KeyR", "Digit1", "Digit2", "Digit3", "Digit4"}
	elements := func() int {
		n, _ := strconv.Atoi(p.Eval(`document.getElementsByTagName("*").length`))
		return n
	}
	most, events := 0, 0
	for end := time.Now().Add(2 * time.Minute); time.Now().Before(end); events++ {
		switch r.IntN(10) {
		case 0, 1, 2:
			p.Click(r.Float64()*w, r.Float64()*h)
		case 3:
			p.Drag(r.Float64()*w, r.Float64()*h, r.Float64()*w, r.Float64()*h)
		case 4:
			p.Wheel(r.Float64()*w, r.Float64()*h, float64(1+r.IntN(2))*float64(1-2*r.IntN(2)))
		case 5:
			p.Eval(fmt.Sprintf(`(() => { const all = document.querySelectorAll("#controls input, #controls button, #controls select"); const e = all[%d %% all.length];
				if (!e || e.disabled) return ""; if (e.type === "range") { e.value = Number(e.min) + (e.max - e.min) * %g; e.dispatchEvent(new Event("input")); } else e.click(); return ""; })()`, r.IntN(1000), r.Float64()))
		default:
			p.Key([]int64{0, 0, 0, 2, 8}[r.IntN(5)], keys[r.IntN(len(keys))])
		}
		if events%40 == 39 {
			most = max(most, elements())
			if c := p.Complaints(); len(c) > 0 {
				t.Fatalf("seed %d, event %d: the console complains: %v", seed, events, c)
			}
			if text := p.Eval(`window.annuloscopeError || ""`); text != "" {
				t.Fatalf("seed %d, event %d: the program ended: %s", seed, events, text)
			}
		}
	}
	// Still alive: a key leads to another picture.
	before := p.WaitState(30*time.Second, "a state", func(s scenestest.State) bool { return !s.Pending })
	p.Eval(`document.querySelector("canvas").focus()`)
	p.Key(0, "Escape", "Escape", "KeyT")
	p.WaitState(30*time.Second, "another picture", func(s scenestest.State) bool { return s.Pictures > before.Pictures })
	if most > 3000 {
		t.Errorf("the page grew to %d elements", most)
	}
	if out := p.Outside(); out != "" {
		t.Errorf("requests left this machine: %s", out)
	}
	t.Logf("seed %d: %d events, %d pictures, at most %d elements", seed, events, before.Pictures, most)
}

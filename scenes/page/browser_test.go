package page_test

import (
	"bytes"
	"encoding/json"
	"image/color"
	"io"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

const small = "annuloscope/scenes/scenestest/tiny"

type inside struct {
	Blue                  bool
	Level, Notches        float64
	Typed, Keys, Saved    string
	Fragment, Query, Said string
}

func TestPageInABrowser(t *testing.T) {
	var log bytes.Buffer
	cache := t.TempDir()
	s, err := page.Build(t.Context(), cache, small, &log)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(log.String(), "Building the page once") {
		t.Errorf("log %q", log.String())
	}
	// Once built it is not built again, unless somebody has just changed the source: hence three tries.
	for try := 0; ; try++ {
		log.Reset()
		if _, err := page.Build(t.Context(), cache, small, &log); err != nil {
			t.Fatal(err)
		} else if log.Len() == 0 {
			break
		} else if try == 2 {
			t.Fatalf("built again and again: log %q", log.String())
		}
	}
	if n := s.Size(); n < 100_000 || n > page.MostBytes {
		t.Errorf("the page takes %d bytes over the wire; at most %d", n, page.MostBytes)
	}
	server := httptest.NewServer(page.Handler(s, page.Frames{}))
	defer server.Close()

	p := scenestest.OpenPage(t, server.URL+"/?lang=de#case=abc", 800, 600, 90*time.Second)
	at := time.Now()
	wait := func(what string, wanted func(inside) bool) {
		t.Helper()
		p.WaitState(20*time.Second, what, func(s scenestest.State) bool {
			var v inside
			return s.Pictures > 0 && json.Unmarshal(s.Screen, &v) == nil && wanted(v)
		})
	}
	wait("the first picture", func(inside) bool { return true })
	t.Logf("%d bytes over the wire, first picture %v after the document", s.Size(), time.Since(at).Round(10*time.Millisecond))
	wait("address parameters", func(v inside) bool { return v.Fragment == "case=abc" && v.Query == "lang=de" })

	p.Click(90, 90)
	wait("a click turns the square blue", func(v inside) bool { return v.Blue })
	time.Sleep(200 * time.Millisecond)
	m := p.Screenshot()
	for _, c := range []struct {
		x, y int
		want color.RGBA
	}{{90, 90, color.RGBA{0, 0, 255, 255}}, {300, 140, color.RGBA{0, 255, 0, 255}}, {20, 20, color.RGBA{255, 255, 255, 255}}} {
		if got := color.RGBAModel.Convert(m.At(c.x, c.y)); got != c.want {
			t.Errorf("pixel %d,%d of the screenshot is %v, want %v", c.x, c.y, got, c.want)
		}
	}
	p.Key(0, "ArrowRight", "ArrowRight")
	wait("arrow keys move the level", func(v inside) bool { return v.Level == 2 })
	p.Key(0, "KeyA")
	p.Key(2, "KeyZ")
	wait("text and a shortcut", func(v inside) bool { return v.Typed == "a" && strings.Contains(v.Keys, "^Z") })
	p.Wheel(90, 90, -1)
	wait("the wheel", func(v inside) bool { return v.Notches == -1 })

	mirrored(p, wait)
	noTrap(p)

	p.LessMotion(true)
	wait("less motion is asked of the program", func(v inside) bool { return v.Query == "still=1" })
	p.LessMotion(false)
	wait("and no longer", func(v inside) bool { return v.Query == "still=0" })
	p.Eval(`location.hash = "case=def"`)
	wait("a new fragment", func(v inside) bool { return v.Fragment == "case=def" })
	spoken(p)
	if got := p.Outside(); got != "" {
		t.Errorf("outside requests: %s", got)
	}
	if got := p.Complaints(); len(got) > 0 {
		t.Errorf("the console complains: %q", got)
	}
	notesWindow(t, server.URL)
}

// mirrored checks the HTML side: names, values, announcement and alternative text, and the way back into the program.
func mirrored(p *scenestest.Page, wait func(string, func(inside) bool)) {
	p.Until("the slider mirrors the level", `document.getElementById("control-level").value === "2"`)
	p.Until("its label", `document.querySelector("label[for=control-level]").textContent === "Level, mm"`)
	p.Until("its value in words", `document.getElementById("control-level").getAttribute("aria-valuetext") === "2 millimetres"`)
	p.Until("the checkbox", `document.getElementById("control-blue").checked`)
	p.Until("the announcement", `document.getElementById("announcement").textContent === "level 2"`)
	p.Until("the alternative text", `document.querySelector("canvas").getAttribute("aria-label") === "A square, blue: true"`)
	p.Eval(`(() => { const e = document.getElementById("control-level"); e.value = 7; e.dispatchEvent(new Event("input")); })()`)
	wait("the HTML slider moves the level", func(v inside) bool { return v.Level == 7 })
	p.Eval(`document.getElementById("control-blue").click()`)
	wait("the HTML checkbox", func(v inside) bool { return !v.Blue })
	p.Eval(`(() => { const e = document.getElementById("control-word"); e.value = "two"; e.dispatchEvent(new Event("change")); })()`)
	wait("the HTML choice", func(v inside) bool { return v.Said == "word two" })
	p.Eval(`document.getElementById("control-save").click()`)
	wait("a download", func(v inside) bool { return v.Saved == "tiny.txt" })
}

// spoken checks headings, explanations, copying with the page's own address, less motion, and the window for notes.
func spoken(p *scenestest.Page) {
	p.Until("a heading", `Array.from(document.querySelectorAll("#words h2")).some(h => h.textContent === "Numbers")`)
	p.Until("a number explains itself", `document.getElementById("control-area").tagName === "SUMMARY" && document.getElementById("control-area").nextSibling.textContent === "Formula: level × 1 cm"`)
	p.Until("the language of the text", `document.documentElement.lang === "en" && document.getElementById("words").lang === "en"`)
	p.Eval(`(() => { window.copied = ""; Object.defineProperty(navigator, "clipboard", { value: { writeText: async (t) => { window.copied = t; } } }); annuloscopePage.copy("{page}#state=1.x"); })()`)
	p.Until("a copied link begins with the page's address", `window.copied === location.origin + location.pathname + "#state=1.x"`)

	p.Eval(`(() => { window.heard = ""; window.other = new BroadcastChannel("annuloscope notes"); other.onmessage = (e) => { if (e.data.notes) window.heard = e.data.notes; }; other.postMessage({ hello: true }); })()`)
	p.Until("the notes go to another window that asks", `window.heard.startsWith("Say that the level is ")`)
	p.Until("a way to that window", `!document.getElementById("notes").hidden && document.getElementById("notes").getAttribute("href") === "?notes"`)
	p.Eval(`(() => { window.heard = ""; const e = document.getElementById("control-level"); e.value = 3; e.dispatchEvent(new Event("input")); })()`)
	p.Until("new notes are sent by themselves", `window.heard === "Say that the level is 3."`)
}

// The second window shows the notes alone, large, and as they come.
func notesWindow(t *testing.T, address string) {
	p := scenestest.OpenPage(t, address+"/?notes", 800, 600, 60*time.Second)
	p.Until("it waits", `document.getElementById("prompt").textContent.includes("lectern")`)
	p.Eval(`new BroadcastChannel("annuloscope notes").postMessage({ notes: "Turn the valve once." })`)
	p.Until("it shows what it is told", `document.getElementById("prompt").textContent === "Turn the valve once."`)
	p.Until("in large type", `parseFloat(getComputedStyle(document.getElementById("prompt")).fontSize) >= 24`)
	if got := p.Complaints(); len(got) > 0 {
		t.Errorf("the console complains: %q", got)
	}
}

// noTrap checks that the keyboard can leave the picture and come back.
func noTrap(p *scenestest.Page) {
	p.Eval(`document.querySelector("canvas").focus()`)
	p.Key(0, "F6")
	p.Until("F6 leaves the picture", `document.activeElement.id === "words"`)
	p.Until("the text can be seen then", `document.getElementById("words").getBoundingClientRect().width > 200`)
	p.Key(0, "Tab")
	p.Until("Tab goes to the first control", `document.activeElement.id === "control-blue"`)
	p.Key(0, "F6")
	p.Until("F6 comes back", `document.activeElement.tagName === "CANVAS"`)
	p.Until("the text is out of sight", `document.getElementById("words").getBoundingClientRect().width <= 2`)
}

func TestBuildWithoutRoomStillServes(t *testing.T) {
	if testing.Short() {
		t.Skip("skipped: builds the page once more")
	}
	// A file where the folder should be: nothing can be kept there.
	var log bytes.Buffer
	if _, err := page.Build(t.Context(), "/dev/null/none", small, &log); err != nil {
		t.Fatal(err)
	}
	if _, err := page.Build(t.Context(), t.TempDir(), "annuloscope/nothing/here", io.Discard); err == nil || !strings.Contains(err.Error(), "annuloscope/nothing/here") {
		t.Errorf("a package that is not there: %v", err)
	}
}

package main_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/scenestest"
)

// sharedOnPage opens a link of the first version in the running page, copies a new one, and gives a lecture through
// the HTML side alone, as a screen reader would.
func sharedOnPage(t *testing.T, p *scenestest.Page) {
	t.Helper()
	saved, err := os.ReadFile("../../scenes/present/program/testdata/share/v1-german.link")
	if err != nil {
		t.Fatal(err)
	}
	_, fragment, _ := strings.Cut(strings.TrimSpace(string(saved)), "#")
	p.Eval(`location.hash = "` + fragment + `"`)
	p.WaitState(30*time.Second, "the link's state", func(s scenestest.State) bool {
		_, ok := s.Control("undo")
		return ok && strings.Contains(s.Description, "Septolateraler Durchmesser") && !s.Pending
	})
	p.Until("the text side is German now", `document.documentElement.lang === "de" && document.getElementById("words").getAttribute("aria-label").startsWith("Regler")`)
	p.Eval(`location.hash = ""`)
	click := func(id string) {
		t.Helper()
		p.Until(id, `!!document.getElementById("control-`+id+`") && !document.getElementById("control-`+id+`").disabled`)
		p.Eval(`(() => { document.getElementById("control-` + id + `").click(); return "" })()`)
	}
	p.Eval(`(() => { window.copied = ""; Object.defineProperty(navigator, "clipboard", { value: { writeText: async (t) => { window.copied = t; } } }); return "" })()`)
	if p.Eval(`!!document.getElementById("control-share")`) != "true" {
		click("menu") // at this size the button is in the menu
	}
	click("share")
	click("share/copy")
	p.Until("the copied link is the page's own", `window.copied.startsWith(location.origin + "/#state=1.") && location.hash.startsWith("#state=1.")`)
	click("close")

	p.Eval(`(() => { location.hash = ""; location.search = "?lecture=2&lang=en"; return "" })()`)
	shown := p.WaitState(60*time.Second, "the lecture from the address", func(s scenestest.State) bool {
		c, ok := s.Control("quantity/annulus.septal_lateral_mm")
		return ok && !s.Pending && strings.Contains(c.Text, "hidden")
	})
	if !strings.Contains(shown.Description, "2 of 6") {
		t.Errorf("described as %q", shown.Description)
	}
	click("lectern/next")
	p.WaitState(30*time.Second, "the number", func(s scenestest.State) bool {
		c, ok := s.Control("quantity/annulus.septal_lateral_mm")
		return ok && strings.Contains(c.Text, "before: 36.0") && strings.Contains(s.Description, "narrower")
	})
	p.Until("the notes are in the text side", `document.getElementById("control-lectern/notes").textContent.includes("guesses")`)
}

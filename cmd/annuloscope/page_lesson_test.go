package main_test

import (
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/scenestest"

	"github.com/chromedp/chromedp"
)

// lessonOnPage does one lesson from start to end through the HTML side alone, as a screen reader would, and finds the
// progress kept by the browser after the page was loaded again.
func lessonOnPage(t *testing.T, p *scenestest.Page) {
	t.Helper()
	element := func(id string) string { return `document.getElementById("control-` + id + `")` }
	click := func(id string) {
		t.Helper()
		p.Until(id, `!!`+element(id)+` && !`+element(id)+`.disabled`)
		p.Eval(`(() => { ` + element(id) + `.click(); return "" })()`)
	}
	appears := func(id string) string {
		t.Helper()
		p.WaitState(60*time.Second, id, func(s scenestest.State) bool { _, ok := s.Control(id); return ok })
		p.Until(id, `!!`+element(id))
		return p.Eval(element(id) + `.textContent`)
	}
	address := p.Eval("location.origin") + "/?scene=lessons&lang=en"
	load := func() {
		t.Helper()
		if err := chromedp.Do(p.Context, chromedp.Navigate(address)); err != nil {
			t.Fatal(err)
		}
	}
	load()
	appears("lesson/open/commissural-view")
	click("lesson/open/commissural-view")
	appears("lesson/choice")
	if p.Eval(element("lesson/next")+`.disabled`) != "true" {
		t.Error("the reveal is within reach before the prediction")
	}
	p.Eval(`(() => { const e = ` + element("lesson/choice") + `; e.selectedIndex = 2; e.dispatchEvent(new Event("change", {bubbles: true})); return "" })()`)
	click("lesson/commit")
	if v := appears("lesson/verdict"); !strings.Contains(v, "The model agrees with you") {
		t.Errorf("verdict %q", v)
	}
	if live := p.Eval(`document.getElementById("announcement").textContent`); !strings.Contains(live, "agrees") {
		t.Errorf("the live region says %q", live)
	}
	if text := appears("lesson/computation/1"); !strings.Contains(text, "6.9\u00a0mm") {
		t.Errorf("the text says %q, not the height of the saddle", text)
	}
	for _, id := range []string{"lesson/why/1", "lesson/card/1", "lesson/explore", "lesson/number"} {
		click("lesson/next")
		appears(id)
	}
	p.Eval(`(() => { const e = ` + element("lesson/number") + `; e.value = 4; e.dispatchEvent(new Event("input", {bubbles: true})); return "" })()`)
	click("lesson/commit")
	appears("lesson/verdict")
	click("lesson/finish")
	appears("lesson/open/sinus-route")
	load()
	if text := appears("lesson/item/commissural-view"); !strings.Contains(text, "done, 2 of 2") {
		t.Errorf("after loading the page again: %q", text)
	}
}

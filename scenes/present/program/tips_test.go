package program_test

import (
	"strings"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
)

// Every explanation of a number fits the screen at every size and language, by keyboard.
func TestExplanationsFitTheScreen(t *testing.T) {
	p := start(t, "functional")
	d := p.Desk()
	d.U.Record = true
	turn(t, p, "repair/sinus-band/shortening_mm", 20)
	settle(p)
	screen := draw.Rect{W: 1024, H: 768}
	for _, scale := range []float64{1, 2} {
		for _, lang := range []string{"en", "de", "double"} {
			if raceDetector && (scale < 2 || lang != "double") {
				continue
			}
			set(p, "light", lang, scale)
			p.Open("", "scene=valve")
			paint(p, 1024, 768)
			for _, tab := range []string{"0", "1", "2"} { // the numbers have a tab of their own where there is little room
				act(p, "tab", tab, [2]float64{1024, 768})
			}
			paint(p, 1024, 768)
			seen := 0
			for range 120 {
				key(p, input.Tab, 0)
				plain := len(paint(p, 1024, 768).Ops)
				cells := d.U.Cells
				tip := d.Tip(d.U.Focus)
				if len(tip.Rows) == 0 {
					continue
				}
				seen++
				last := tip.Rows[len(tip.Rows)-1]
				words := strings.Fields(last.Text)
				end := words[len(words)-1]
				if c := cells[len(cells)-1]; plain == 0 || !strings.HasSuffix(c.Text, end) {
					t.Fatalf("%s at %g in %s: the explanation does not end with %q but with %q", d.U.Focus, scale, lang, end, c.Text)
				}
				for _, c := range cells[len(cells)-1:] {
					if v, ok := within(c.Box, screen); !ok || v.H < c.Box.H-1 || v.W < c.Box.W-1 {
						t.Errorf("%s at %g in %s: %q of the explanation leaves the screen", d.U.Focus, scale, lang, c.Text)
					}
				}
			}
			if seen < 10 {
				t.Errorf("at %g in %s only %d explanations", scale, lang, seen)
			}
		}
	}
}

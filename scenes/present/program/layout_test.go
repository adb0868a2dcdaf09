package program_test

import (
	"fmt"
	"strings"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/widget"
)

func overlap(a, b draw.Rect) float64 {
	w := min(a.X+a.W, b.X+b.W) - max(a.X, b.X)
	h := min(a.Y+a.H, b.Y+b.H) - max(a.Y, b.Y)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

func within(r draw.Rect, c draw.Rect) (draw.Rect, bool) {
	x0, y0 := max(r.X, c.X), max(r.Y, c.Y)
	x1, y1 := min(r.X+r.W, c.X+c.W), min(r.Y+r.H, c.Y+c.H)
	return draw.Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}, x1 > x0 && y1 > y0
}

// checkTexts fails when a text leaves its cell or the screen sideways, or when the visible parts of two texts overlap.
func checkTexts(t *testing.T, name string, cells []widget.Cell, w, h float64) {
	t.Helper()
	screen := draw.Rect{W: w, H: h}
	bad := 0
	for i, c := range cells {
		visible, ok := within(c.Box, c.Clip)
		if !ok {
			continue // scrolled out of its panel
		}
		if c.Box.X < c.Rect.X-1 || c.Box.X+c.Box.W > c.Rect.X+c.Rect.W+1 {
			t.Errorf("%s: %q is %.0f wide in a cell of %.0f", name, c.Text, c.Box.W, c.Rect.W)
			bad++
		}
		if visible.W < c.Box.W-1 {
			t.Errorf("%s: %q is cut at the side of its panel", name, c.Text)
			bad++
		}
		if v, ok := within(visible, screen); !ok || v.W*v.H < visible.W*visible.H-1 {
			t.Errorf("%s: %q leaves the screen at %.0f, %.0f", name, c.Text, c.Box.X, c.Box.Y)
			bad++
		}
		for _, d := range cells[i+1:] {
			v, ok := within(d.Box, d.Clip)
			if a := overlap(visible, v); ok && a > 4 {
				t.Errorf("%s: %q and %q overlap by %.0f px²", name, c.Text, d.Text, a)
				bad++
			}
		}
		if bad > 12 {
			t.Fatalf("%s: and so on", name)
		}
	}
	if len(cells) < 10 {
		t.Errorf("%s: only %d texts seen", name, len(cells))
	}
}

// Every scene with every tab, every page and the lectern's presentation, at every size, scale and language: no text is
// cut, none overlaps another, everything one can press is large enough.
func TestNoTextIsCutOrOverlaps(t *testing.T) {
	p := start(t, "functional")
	d := p.Desk()
	d.U.Record = true
	turn(t, p, "repair/sinus-band/shortening_mm", 20)
	turn(t, p, "repair/edge-clip/position", 0.3)
	settle(p)
	sizes := [][2]float64{{1024, 768}, {1920, 1080}}
	look := func(name string, size [2]float64) {
		t.Helper()
		paint(p, size[0], size[1])
		checkTexts(t, name, d.U.Cells, size[0], size[1])
		checkTargets(t, name, d.U.Controls, d.U.Scale)
	}
	for _, size := range sizes {
		for _, scale := range []float64{1, 1.3, 2} {
			for _, lang := range []string{"en", "de", "double"} {
				if size[0] > 1024 && scale == 1.3 || raceDetector && (size[0] > 1024 || scale == 1.3 || lang != "double") {
					continue // lies between two that are looked at
				}
				set(p, "light", lang, scale)
				at := fmt.Sprintf("%gx%g at %g in %s", size[0], size[1], scale, lang)
				for _, name := range p.Scenes() {
					p.Open("", "scene="+name)
					d.Hold("systole")
					tabbed(p, size, func(tab string) { look(name+" "+at+", "+tab, size) })
					d.Hold("diastole")
					look(name+" "+at+", diastole", size)
				}
				for _, page := range program.Pages() {
					p.Open("", "page="+page)
					look("page "+page+" "+at, size)
					key(p, input.Escape, 0)
				}
			}
		}
	}
}

// tabbed calls look for each option of each choice that changes the panels of the scene shown.
func tabbed(p *program.Program, size [2]float64, look func(tab string)) {
	look("first")
	var ids []string
	for _, c := range p.Desk().U.Controls {
		if c.Kind == widget.Choice && (c.ID == "tab" || strings.HasSuffix(c.ID, "/tab")) {
			ids = append(ids, c.ID)
		}
	}
	for _, id := range ids {
		for i := 1; ; i++ {
			if !act(p, id, fmt.Sprint(i), size) {
				break
			}
			look(fmt.Sprintf("%s %d", id, i))
		}
		act(p, id, "0", size)
	}
}

// The lectern's presentation: question, hidden and shown number, dark screen, list.
func TestLecternFitsEverySize(t *testing.T) {
	p := start(t, "functional")
	d := p.Desk()
	d.U.Record = true
	for _, size := range [][2]float64{{1024, 768}, {1920, 1080}} {
		for _, scale := range []float64{1, 2} {
			for _, lang := range []string{"en", "de", "double"} {
				if raceDetector && (size[0] > 1024 || lang != "de") {
					continue
				}
				set(p, "light", lang, scale)
				at := fmt.Sprintf("%gx%g at %g in %s", size[0], size[1], scale, lang)
				for step := 1; step <= 6; step++ {
					if raceDetector && step%4 != 2 {
						continue
					}
					p.Open("", fmt.Sprint("lecture=", step))
					settle(p)
					paint(p, size[0], size[1])
					checkTexts(t, fmt.Sprint("step ", step, " hidden ", at), d.U.Cells, size[0], size[1])
					key(p, input.PageDown, 0)
					paint(p, size[0], size[1])
					checkTexts(t, fmt.Sprint("step ", step, " shown ", at), d.U.Cells, size[0], size[1])
					checkTargets(t, "presenting "+at, d.U.Controls, d.U.Scale)
					large := widget.Cell{}
					for _, c := range d.U.Cells {
						if c.Box.H > large.Box.H {
							large = c
						}
					}
					if v, ok := within(large.Box, large.Clip); !ok || v.H < large.Box.H-1 || !strings.ContainsAny(large.Text, "0123456789") {
						t.Errorf("step %d %s: the large number is out of sight, %q is largest", step, at, large.Text)
					}
				}
				key(p, input.Escape, 0)
				paint(p, size[0], size[1])
				checkTexts(t, "list "+at, d.U.Cells, size[0], size[1])
				checkTargets(t, "list "+at, d.U.Controls, d.U.Scale)
			}
		}
	}
}

// act works a control and tells whether it was there.
func act(p *program.Program, id, value string, size [2]float64) bool {
	paint(p, size[0], size[1])
	return p.Act(id, value) == nil
}

// WCAG 2.5.8: targets of at least 24 by 24.
func checkTargets(t *testing.T, name string, controls []widget.Control, scale float64) {
	t.Helper()
	seen := map[string]bool{}
	for _, c := range controls {
		if seen[c.ID] {
			t.Fatalf("%s: two controls are called %q", name, c.ID)
		}
		seen[c.ID] = true
		if c.Kind != widget.Info && (c.Rect.W < 24 || c.Rect.H < 24) {
			t.Errorf("%s: %s is %.0f by %.0f", name, c.ID, c.Rect.W, c.Rect.H)
		}
		if c.Name == "" {
			t.Errorf("%s: %s has no name", name, c.ID)
		}
	}
}

package program_test

import (
	"fmt"
	"strings"
	"testing"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// ruler is a whole scene (DEVELOPERS.md, "A scene"): it shows one number of the report, in two units, and a slider.
// Everything it draws goes through the widgets, so that it can be reached by Tab, read out, enlarged and tested for
// texts that are cut. A scene of the program has its texts in scenes/present/words instead.
type ruler struct {
	d    *desk.Desk
	inch bool
}

// Build lays the scene out.
func (v *ruler) Build(r draw.Rect) {
	u, y := v.d.U, r.Y
	u.Card(r)
	x, width := r.X+u.S(16), r.W-u.S(32)
	y += u.S(16)
	y += u.Para(x, y, width, v.Describe(), theme.Lead, false, u.T.Ink) + u.S(12)
	u.Info("ruler/width", draw.Rect{X: x, Y: r.Y + u.S(16), W: width, H: u.S(24)}, "Width of the annulus", v.value())
	y += u.Switch("ruler/inch", x, y, width, "In inches", v.inch, false) + u.S(12)
	v.d.Knob(x, y, width, "repair/sinus-band/shortening_mm")
}

// Apply takes the action of a control of its own, and only that.
func (v *ruler) Apply(a widget.Action) bool {
	if a.ID != "ruler/inch" {
		return false
	}
	v.inch = a.Value > 0
	return true
}

// Describe tells the scene in words.
func (v *ruler) Describe() string { return "The annulus is " + v.value() + " wide." }

func (v *ruler) value() string {
	mm := v.d.S.Report.After.Annulus.SeptalLateralMM
	if v.inch {
		return fmt.Sprintf("%.2f in", mm/25.4)
	}
	return v.d.W().With(mm, 1, "mm")
}

// The example scene works by keyboard alone, says what it shows, and no text of it is cut.
func TestExampleScene(t *testing.T) {
	p := start(t, "functional")
	p.AddScene("ruler", &ruler{d: p.Desk()})
	p.Desk().U.Record = true
	key(p, input.Key(fmt.Sprint(len(p.Scenes()))), 0)
	for _, size := range [][2]float64{{1024, 768}, {1920, 1080}} {
		for _, scale := range []float64{1, 2} {
			set(p, "light", "en", scale)
			paint(p, size[0], size[1])
			checkTexts(t, fmt.Sprint("ruler ", size, scale), p.Desk().U.Cells, size[0], size[1])
			checkTargets(t, "ruler", p.Desk().U.Controls, scale)
		}
	}
	set(p, "light", "en", 1)
	if text := p.Description(); !strings.Contains(text, "36.0\u00a0mm") {
		t.Fatalf("the scene says %q", text)
	}
	focus(t, p, "ruler/inch")
	key(p, input.Enter, 0)
	paint(p, 1280, 800)
	if c, ok := p.Desk().U.Find("ruler/width"); !ok || c.Text != "1.42 in" {
		t.Errorf("after the switch: %+v", c)
	}
	focus(t, p, shortening)
	key(p, input.PageUp, 0)
	settle(p)
	paint(p, 1280, 800)
	if c, _ := p.Desk().U.Find("ruler/width"); c.Text >= "1.42 in" {
		t.Errorf("after 5 mm of shortening: %q", c.Text)
	}
}

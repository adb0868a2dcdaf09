package program_test

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/font"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/theme"
)

// screens calls look on every scene and every page in turn, painted.
func screens(t *testing.T, p *program.Program, w, h float64, look func(name string, l *draw.List)) {
	t.Helper()
	for _, name := range p.Scenes() {
		p.Open("", "scene="+name)
		settle(p)
		look(name, paint(p, w, h))
	}
	for _, name := range program.Pages() {
		p.Open("", "page="+name)
		look("page "+name, paint(p, w, h))
		key(p, input.Escape, 0)
	}
	p.Open("", "lecture=2")
	settle(p)
	paint(p, w, h)
	key(p, input.PageDown, 0)
	look("lecture", paint(p, w, h))
	key(p, input.Escape, 0)
}

// WCAG 2.2, 1.4.3 and, for the projector's colours, 1.4.6 (users.md, accessibility bar): every text on every screen against
// what is really painted behind it. Large text (24 px, or bold from 18.7 px) may have 3, in the projector's colours 4.5.
func TestEveryTextStandsOutFromWhatIsBehindIt(t *testing.T) {
	painter := raster.New(1)
	for _, th := range theme.Names() {
		if raceDetector && th != "projector" {
			continue
		}
		p := start(t, "functional")
		turn(t, p, "repair/sinus-band/shortening_mm", 20)
		settle(p)
		set(p, th, "en", 1)
		n := 0
		screens(t, p, 1024, 768, func(name string, l *draw.List) {
			with := painter.Paint(l, 1)
			bare := background(l)
			behind := image.NewRGBA(with.Rect)
			copy(behind.Pix, painter.Paint(bare, 1).Pix)
			clips := []draw.Rect{{W: 1024, H: 768}}
			for _, op := range l.Ops[covered(l):] {
				switch op.Kind {
				case draw.KindPushClip:
					r, _ := within(clips[len(clips)-1], op.Rect)
					clips = append(clips, r)
				case draw.KindPopClip:
					clips = clips[:len(clips)-1]
				case draw.KindText:
					box, ok := within(textBox(op), clips[len(clips)-1])
					if !ok || box.W < 2 || box.H < 4 {
						continue
					}
					n++
					least := 4.5
					if p.Desk().P.Theme == "projector" {
						least = 7
					}
					if op.Size >= 24 || op.Bold && op.Size >= 18.66 {
						least = map[float64]float64{4.5: 3, 7: 4.5}[least]
					}
					bg := mostly(behind, box)
					if r := theme.Contrast(op.Color, bg); r < least-0.005 {
						t.Errorf("%s, %s: %q has contrast %.2f against %v, want %.1f", th, name, op.Text, r, bg, least)
					}
				}
			}
		})
		if n < 300 {
			t.Errorf("%s: only %d texts looked at", th, n)
		}
	}
}

// covered is where what is seen begins: after the last fill of the whole screen.
func covered(l *draw.List) int {
	for i := len(l.Ops) - 1; i > 0; i-- {
		if op := &l.Ops[i]; op.Kind == draw.KindFill && len(op.Points) == 4 && op.Points[0] == (draw.Point{}) && op.Points[2] == (draw.Point{X: l.Width, Y: l.Height}) {
			return i
		}
	}
	return 0
}

// background is the list without its texts.
func background(l *draw.List) *draw.List {
	b := &draw.List{Width: l.Width, Height: l.Height, Background: l.Background}
	for _, op := range l.Ops {
		if op.Kind != draw.KindText {
			b.Ops = append(b.Ops, op)
		}
	}
	return b
}

func textBox(op draw.Op) draw.Rect {
	w, up, down := font.Measure(op.Text, op.Size, op.Bold)
	x := op.Points[0].X
	switch op.Anchor {
	case draw.Middle:
		x -= w / 2
	case draw.End:
		x -= w
	}
	return draw.Rect{X: x, Y: op.Points[0].Y - up*0.75, W: w, H: up*0.75 + down*0.3}
}

// mostly is the most frequent colour in a box.
func mostly(m *image.RGBA, r draw.Rect) draw.Color {
	count := map[color.RGBA]int{}
	var best color.RGBA
	for y := int(r.Y); y < int(r.Y+r.H); y++ {
		for x := int(r.X); x < int(r.X+r.W); x++ {
			c := m.RGBAAt(x, y)
			if count[c]++; count[c] > count[best] {
				best = c
			}
		}
	}
	return draw.Color{R: best.R, G: best.G, B: best.B, A: 255}
}

// Better and worse are never told by colour alone: what is written in those colours carries a mark or a sign of its own.
func TestNothingIsToldByColourAlone(t *testing.T) {
	for _, th := range theme.Names() {
		if raceDetector && th != "projector" {
			continue
		}
		p := start(t, "functional")
		turn(t, p, "repair/sinus-band/shortening_mm", 20)
		turn(t, p, "repair/edge-clip/position", 0)
		settle(p)
		set(p, th, "en", 1)
		n := 0
		screens(t, p, 1024, 768, func(name string, l *draw.List) {
			u := p.Desk().U
			for _, op := range l.Ops {
				if op.Kind != draw.KindText || op.Color != u.T.Better && op.Color != u.T.Worse && op.Color != u.T.Warn {
					continue
				}
				if op.Text == "aorta" { // names its curve, beside it
					continue
				}
				n++
				if !strings.ContainsAny(op.Text, "▲▼■◆●★+−±✓✗") && !strings.Contains(strings.ToLower(op.Text), "better") && !strings.Contains(strings.ToLower(op.Text), "worse") && !strings.Contains(strings.ToLower(op.Text), "best") {
					t.Errorf("%s, %s: %q is told apart by its colour alone", th, name, op.Text)
				}
			}
		})
		if n == 0 {
			t.Errorf("%s: nothing better or worse seen", th)
		}
	}
}

// Whatever has the focus shows a ring in the focus colour, on every screen (WCAG 2.2, 2.4.7).
func TestFocusIsSeenEverywhere(t *testing.T) {
	p := start(t, "functional")
	screens(t, p, 1024, 768, func(name string, _ *draw.List) {
		u := p.Desk().U
		var ids []string
		for _, c := range u.Controls {
			if !c.Disabled {
				ids = append(ids, c.ID)
			}
		}
		if len(ids) < 2 {
			t.Errorf("%s: %d controls", name, len(ids))
		}
		for _, id := range ids {
			u.SetFocus(id)
			paint(p, 1024, 768) // scrolls it into view
			l := paint(p, 1024, 768)
			c, ok := u.Find(id)
			if !ok {
				continue // gone with the state that it changed
			}
			seen := false
			for _, op := range l.Ops {
				if op.Kind == draw.KindStroke && op.Color == u.T.Focus && op.Width >= 2 {
					for _, q := range op.Points {
						near := draw.Rect{X: c.Rect.X - 12, Y: c.Rect.Y - 12, W: c.Rect.W + 24, H: c.Rect.H + 24}
						seen = seen || near.Contains(q)
					}
				}
			}
			if !seen {
				t.Errorf("%s: %s has the focus and no ring", name, id)
			}
			if v, ok := within(c.Rect, c.Clip); !ok || v.W*v.H < 1 {
				t.Errorf("%s: %s has the focus and is out of sight", name, id)
			}
		}
		u.Focus = ""
	})
}

// The most important button of a screen is at least 44 by 44 pixels (users.md, accessibility bar).
func TestPrimaryTargets(t *testing.T) {
	p := start(t, "functional")
	for _, scale := range []float64{1, 2} {
		set(p, "light", "en", scale)
		n := 0
		screens(t, p, 1024, 768, func(name string, _ *draw.List) {
			for _, c := range p.Desk().U.Controls {
				if c.Primary {
					n++
					if c.Rect.H < theme.Primary-0.5 || c.Rect.W < theme.Primary-0.5 {
						t.Errorf("%s at %g: %s is %.0f by %.0f", name, scale, c.ID, c.Rect.W, c.Rect.H)
					}
				}
			}
		})
		if n < 5 {
			t.Errorf("%d primary targets", n)
		}
	}
}

// With reduced motion nothing moves by itself: no scene asks for a new picture while nothing is touched.
func TestReducedMotionStandsStill(t *testing.T) {
	p := start(t, "functional")
	p.Open("", "still=1&mode=beat")
	for _, name := range p.Scenes() {
		if raceDetector && (name == "cohort" || name == "compare") {
			continue // compute for long before they stand still
		}
		p.Open("", "scene="+name)
		settle(p)
		now := 100.0
		for quiet, n := 0, 0; quiet < 20 && n < 2000; n++ { // charts and comparisons that are being computed settle
			if quiet++; p.Tick(now) {
				quiet = 0
				paint(p, 1024, 768)
			}
			now += 0.25
		}
		paint(p, 1024, 768)
		phase, moved := p.Desk().V.Phase, 0
		for range 40 {
			now += 0.05
			if p.Tick(now) {
				moved++
				p.Paint(new(draw.List), 1024, 768)
			}
		}
		if moved > 0 || p.Desk().V.Phase != phase {
			t.Errorf("%s: %d new pictures in two seconds, the beat went from %.2f to %.2f", name, moved, phase, p.Desk().V.Phase)
		}
	}
	// The control: without it the beat does move.
	p.Open("", "still=0&scene=valve")
	p.Tick(1000)
	p.Tick(1000.05)
	phase := p.Desk().V.Phase
	p.Tick(1000.1)
	if p.Desk().V.Phase == phase {
		t.Error("the beat never moves: this test sees nothing")
	}
}

// Keys mean one thing: no chord stands twice in the table, and every line that does something says what.
func TestNoKeyStandsTwice(t *testing.T) {
	seen := map[string]string{}
	for _, s := range program.Shortcuts() {
		for _, c := range s.Chords() {
			if other := seen[c]; other != "" {
				t.Errorf("%s does both %s and %s", c, other, s.Help)
			}
			seen[c] = s.Help
		}
	}
	if len(seen) < 25 {
		t.Errorf("%d keys", len(seen))
	}
}

// A newcomer drags the first slider with the pointer: within one gesture the sentence on top says what it did.
func TestFirstMinuteWithThePointer(t *testing.T) {
	p := start(t, "functional")
	p.Desk().U.Record = true
	paint(p, 1024, 768)
	for _, c := range []string{"Shortening", "Move “Shortening” to the right"} {
		found := false
		for _, cell := range p.Desk().U.Cells {
			found = found || strings.Contains(cell.Text, c)
		}
		if !found && !strings.Contains(p.Announcement(), c) {
			t.Errorf("the first screen does not say %q", c)
		}
	}
	c, _ := p.Desk().U.Find(shortening)
	before := p.Announcement()
	y := c.Rect.Y + c.Rect.H - 10
	p.Handle(input.Event{Kind: input.Press, X: c.Rect.X + 9, Y: y})
	for i := range 3 {
		p.Handle(input.Event{Kind: input.Move, X: c.Rect.X + 9 + float64(i)*42, Y: y})
		settle(p)
		paint(p, 1024, 768)
	}
	p.Handle(input.Event{Kind: input.Release, X: c.Rect.X + 93, Y: y})
	settle(p)
	paint(p, 1024, 768)
	if after := p.Announcement(); after == before || !strings.Contains(after, "Shortening the sinus by") || !strings.Contains(after, "narrower") {
		t.Errorf("%q", after)
	}
	n := 0
	for _, c := range p.Desk().U.Controls {
		if strings.HasPrefix(c.ID, "quantity/") || strings.HasPrefix(c.ID, "finding/") || c.ID == "grade" {
			n++
			tip := p.Desk().Tip(c.ID)
			if len(tip.Rows) < 2 {
				t.Errorf("%s explains nothing", c.ID)
			}
			for _, want := range []string{"tip.source", "tip.limits"} {
				ok := false
				for _, r := range tip.Rows {
					ok = ok || r.Head == p.Desk().W().T(want) && r.Text != ""
				}
				if !ok {
					t.Errorf("%s: no %s", c.ID, want)
				}
			}
		}
	}
	if n < 10 {
		t.Errorf("%d numbers", n)
	}
}

package program_test

import (
	"math"
	"strings"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/widget"
)

const shortening = "repair/sinus-band/shortening_mm"

// focus walks with Tab until a control has the focus.
func focus(t *testing.T, p *program.Program, id string) {
	t.Helper()
	for range 200 {
		if p.Desk().U.Focus == id {
			return
		}
		key(p, input.Tab, 0)
		paint(p, 1280, 800)
	}
	t.Fatalf("%s is not reached by Tab", id)
}

// The first task of a newcomer, with the keyboard alone: shorten the sinus and read what it did.
func TestShortenTheSinusByKeyboard(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1280, 800)
	focus(t, p, shortening)
	for range 2 {
		key(p, input.PageUp, 0) // ten steps of 0.5 mm
		paint(p, 1280, 800)
	}
	key(p, input.Right, 0)
	paint(p, 1280, 800)
	key(p, input.Left, input.Shift)
	settle(p)
	paint(p, 1280, 800)
	k, _ := p.Desk().S.Knob(shortening)
	if math.Abs(k.Value-10.45) > 1e-9 || !k.On {
		t.Fatalf("shortening %v, placed %v", k.Value, k.On)
	}
	r := p.Desk().S.Report
	if r.After.Annulus.SeptalLateralMM >= r.Before.Annulus.SeptalLateralMM {
		t.Error("the annulus did not become narrower")
	}
	text := p.Announcement()
	w := p.Desk().W()
	for _, want := range []string{w.With(r.Before.Annulus.SeptalLateralMM-r.After.Annulus.SeptalLateralMM, 1, "mm"),
		w.With(100*r.After.Sinus.TransmittedFraction, 0, "%"), w.With(float64(r.After.Regurgitation.EffectiveOrificeCM2), 2, "cm²")} {
		if !strings.Contains(text, want) {
			t.Errorf("the sentence %q does not say %q", text, want)
		}
	}
	key(p, input.End, 0)
	paint(p, 1280, 800)
	if k, _ := p.Desk().S.Knob(shortening); k.Value != k.Max {
		t.Errorf("End: %v of %v", k.Value, k.Max)
	}
	key(p, "Z", input.Control)
	if k, _ := p.Desk().S.Knob(shortening); k.Value == k.Max {
		t.Error("undo")
	}
}

func TestTypeANumber(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1280, 800)
	focus(t, p, shortening)
	typed := func(text string) {
		key(p, input.Enter, 0)
		for _, r := range text {
			key(p, input.Key(strings.ToUpper(string(r))), 0) // must not be taken for a shortcut
			p.Handle(input.Event{Kind: input.Text, Rune: r})
		}
		paint(p, 1280, 800)
		key(p, input.Enter, 0)
		paint(p, 1280, 800)
	}
	typed("12,5")
	if k, _ := p.Desk().S.Knob(shortening); k.Value != 12.5 {
		t.Fatalf("typed 12,5: %v", k.Value)
	}
	typed("900")
	if k, _ := p.Desk().S.Knob(shortening); k.Value != 12.5 || !strings.Contains(p.Desk().Message, "900") || !strings.Contains(p.Desk().Message, "40") {
		t.Errorf("out of range: %v, message %q", k.Value, p.Desk().Message)
	}
	if p.Inspect().(map[string]any)["scene"] != "valve" {
		t.Error("a typed digit changed the scene")
	}
}

func TestFocusGoesRoundEveryControlOnce(t *testing.T) {
	p := start(t, "functional")
	for _, scene := range []input.Key{"1", "2", "3"} {
		key(p, scene, 0)
		paint(p, 1280, 800)
		n := 0
		for _, c := range p.Controls() {
			if !c.Disabled {
				n++
			}
		}
		seen := map[string]bool{}
		for range n {
			key(p, input.Tab, 0)
			paint(p, 1280, 800)
			seen[p.Desk().U.Focus] = true
		}
		if len(seen) != n {
			t.Errorf("scene %s: %d of %d controls reached", scene, len(seen), n)
		}
		// What has the focus shows, even in a panel that scrolls.
		c, _ := p.Desk().U.Find(p.Desk().U.Focus)
		if c.Rect.Y >= c.Clip.Y+c.Clip.H || c.Rect.Y+c.Rect.H <= c.Clip.Y {
			t.Errorf("scene %s: %s has the focus but is scrolled away", scene, c.ID)
		}
	}
}

func TestPagesCloseAndGiveTheFocusBack(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1280, 800)
	focus(t, p, shortening)
	for _, k := range []input.Key{input.F1, input.F2, "C"} {
		key(p, k, 0)
		paint(p, 1280, 800)
		if len(p.Controls()) == 0 || p.Controls()[0].ID != "close" {
			t.Fatalf("%s: the page does not begin with Close", k)
		}
		key(p, input.Escape, 0)
		paint(p, 1280, 800)
		if p.Desk().U.Focus != shortening {
			t.Errorf("%s: focus came back to %q", k, p.Desk().U.Focus)
		}
	}
}

func TestSingleKeysCanBeSwitchedOff(t *testing.T) {
	p := start(t, "functional")
	p.Desk().P.OneKey = false
	key(p, "2", 0)
	if p.Inspect().(map[string]any)["scene"] != "valve" {
		t.Error("a single key worked although switched off (WCAG 2.1.4)")
	}
}

func pointer(p *program.Program, kind input.Kind, x, y float64) {
	p.Handle(input.Event{Kind: kind, X: x, Y: y})
	paint(p, 1280, 800)
}

func TestMouseDragIsOneUndo(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1280, 800)
	c, ok := p.Desk().U.Find(shortening)
	if !ok {
		t.Fatal("no slider")
	}
	y := c.Rect.Y + c.Rect.H - 12
	pointer(p, input.Press, c.Rect.X+20, y)
	for x := 20.0; x < c.Rect.W/2; x += 7 {
		pointer(p, input.Move, c.Rect.X+x, y)
	}
	pointer(p, input.Release, c.Rect.X+c.Rect.W/2, y)
	k, _ := p.Desk().S.Knob(shortening)
	if k.Value < 15 || k.Value > 25 || math.Abs(k.Value*2-math.Round(k.Value*2)) > 1e-9 {
		t.Errorf("half of the track gives %v of %v", k.Value, k.Max)
	}
	p.Desk().S.Undo()
	if p.Desk().S.Placed("sinus-band") {
		t.Error("one drag is one undo")
	}
}

func TestAnchorHandleOnTheStrip(t *testing.T) {
	p := start(t, "functional")
	turn(t, p, shortening, 10)
	settle(p)
	key(p, "2", 0)
	paint(p, 1280, 800)
	c, ok := p.Desk().U.Find("handle/distal")
	if !ok {
		t.Fatal("no handle")
	}
	x, y := c.Rect.X+c.Rect.W/2, c.Rect.Y+c.Rect.H/2
	pointer(p, input.Press, x, y)
	pointer(p, input.Move, x+40, y) // to the right: towards the mouth, a smaller station
	pointer(p, input.Release, x+40, y)
	if k, _ := p.Desk().S.Knob("repair/sinus-band/distal_mm"); k.Value >= 84 {
		t.Errorf("dragged towards the mouth: %v", k.Value)
	}
	before, _ := p.Desk().S.Knob("repair/sinus-band/distal_mm")
	p.Desk().U.SetFocus("handle/distal")
	key(p, input.Left, 0) // to the left: away from the mouth
	if k, _ := p.Desk().S.Knob("repair/sinus-band/distal_mm"); k.Value != before.Value+1 {
		t.Errorf("left arrow: %v after %v", k.Value, before.Value)
	}
}

func TestActTellsWhatIsAllowed(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1280, 800)
	for _, c := range []struct{ id, value, want string }{{shortening, "1e9", "0 to 40"}, {shortening, "x", "0 to 40"}, {"nothing", "", "no control"}, {"mode", "sideways", "Systole"}, {"place/edge-clip", "perhaps", "true"}} {
		if err := p.Act(c.id, c.value); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s=%s: %v", c.id, c.value, err)
		}
	}
	if err := p.Act(shortening, "8"); err != nil {
		t.Error(err)
	}
	for _, c := range p.Controls() {
		if c.Role == "" || c.Name == "" {
			t.Errorf("%+v has no role or name", c)
		}
	}
}

func TestEveryNumberAndSliderExplainsItself(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1280, 800)
	n := 0
	for _, c := range p.Desk().U.Controls {
		if c.Kind != widget.Slider && !strings.HasPrefix(c.ID, "quantity/") || c.ID == "station" {
			continue
		}
		n++
		if tip := p.Desk().Tip(c.ID); tip.Title == "" || len(tip.Rows) < 2 {
			t.Errorf("%s has no explanation: %+v", c.ID, tip)
		}
	}
	if n < 15 {
		t.Errorf("only %d seen", n)
	}
}

func TestReducedMotionKeepsStill(t *testing.T) {
	p := start(t, "functional")
	p.Desk().Hold("beat")
	p.Tick(1)
	phase := p.Desk().V.Phase
	p.Tick(1.05)
	if p.Desk().V.Phase == phase {
		t.Fatal("the beat does not move")
	}
	p.Desk().P.Still = true
	phase = p.Desk().V.Phase
	p.Tick(1.1)
	if p.Desk().V.Phase != phase {
		t.Error("it moves although motion is reduced")
	}
}

func TestDocumentGoesRound(t *testing.T) {
	p := start(t, "functional")
	turn(t, p, shortening, 13)
	p.Desk().Turn(20, -30)
	key(p, "2", 0)
	data := p.Document().Encode()
	q := program.New(program.Config{Runner: study.NewSync(remembered{}), Cases: cases(t), Document: data})
	settle(q)
	if got := q.Document().Encode(); string(got) != string(data) {
		t.Errorf("the state changed on its way:\n%s\n%s", data, got)
	}
	r := program.New(program.Config{Runner: study.NewSync(remembered{}), Cases: cases(t), Document: []byte("not a state")})
	if r.Desk().Message == "" {
		t.Error("a bad document is not mentioned")
	}
}

func BenchmarkPaint(b *testing.B) {
	for _, scene := range []input.Key{"1", "2", "3"} {
		b.Run(string(scene), func(b *testing.B) {
			p := start(b, "functional")
			turn(b, p, shortening, 15)
			settle(p)
			key(p, scene, 0)
			for range 30 {
				p.Tick(0)
			}
			l := new(draw.List)
			p.Paint(l, 1280, 800)
			b.ReportAllocs()
			for b.Loop() {
				p.Paint(l, 1280, 800)
			}
		})
	}
	b.Run("beating", func(b *testing.B) {
		p := start(b, "functional")
		p.Desk().Hold("beat")
		l := new(draw.List)
		now := 0.0
		b.ReportAllocs()
		for b.Loop() {
			now += 0.016
			p.Tick(now)
			p.Paint(l, 1280, 800)
		}
	})
}

package program_test

import (
	"bytes"
	"image/gif"
	"image/png"
	"strings"
	"testing"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
)

// saved lets the file being made be finished, grants the wish and returns the file.
func saved(t *testing.T, p *program.Program) (string, []byte) {
	t.Helper()
	for range 2000 {
		p.Tick(0)
		for _, w := range p.Wishes() {
			if w.Kind == present.SaveFile {
				w.Done("/tmp/"+w.Name, nil)
				return w.Name, w.Data
			}
		}
	}
	t.Fatalf("no file was saved; the message is %q", p.Desk().Message)
	return "", nil
}

func choose(t *testing.T, p *program.Program, id, value string) {
	t.Helper()
	paint(p, 1024, 768)
	if err := p.Act(id, value); err != nil {
		t.Fatal(err)
	}
	paint(p, 1024, 768)
}

// By keyboard: E opens the sheet, Tab reaches the button, Enter saves; the file is what was promised.
func TestSaveAPictureByKeyboard(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1024, 768)
	key(p, "E", 0)
	paint(p, 1024, 768)
	focus(t, p, "export/save")
	key(p, input.Enter, 0)
	name, data := saved(t, p)
	m, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if name != "annuloscope-functional-valve.png" || m.Bounds().Dx() != 1920 {
		t.Errorf("%s, %v", name, m.Bounds())
	}
	if !bytes.Contains(data, []byte("Educational only")) || !bytes.Contains(data, []byte("annuloscope:case-sha256")) {
		t.Error("the picture does not say where it comes from")
	}
	if !strings.Contains(p.Announcement(), name) {
		t.Errorf("the message %q does not name the file", p.Announcement())
	}
}

func TestSaveTheScreenAsItIs(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1024, 768)
	key(p, "E", 0)
	choose(t, p, "export/what", "7")
	choose(t, p, "export/scale", "1×")
	choose(t, p, "export/save", "")
	_, data := saved(t, p)
	m, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if m.Bounds().Dx() != 1024 || m.Bounds().Dy() <= 768 {
		t.Errorf("%v", m.Bounds())
	}
	paint(p, 1024, 768)
	if _, ok := p.Desk().U.Find("export/save"); !ok {
		t.Error("the sheet is gone")
	}
}

// A film is made between the pictures: no tick does more than a frame, the person sees how far it is and can stop it.
func TestAFilmIsMadeInSlicesAndCanBeStopped(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1024, 768)
	key(p, "E", 0)
	choose(t, p, "export/format", "2")
	choose(t, p, "export/frames", "4")
	choose(t, p, "export/save", "")
	seen := map[string]bool{}
	for range 3 {
		p.Tick(0)
		paint(p, 1024, 768)
		if c, ok := p.Desk().U.Find("export/progress"); ok {
			seen[c.Text] = true
		}
	}
	if len(seen) < 2 {
		t.Errorf("progress shown: %v", seen)
	}
	choose(t, p, "export/cancel", "")
	for range 50 {
		p.Tick(0)
	}
	if w := p.Wishes(); len(w) > 0 {
		t.Error("a file was saved all the same")
	}
	choose(t, p, "export/save", "")
	// Going on meanwhile does not change the film.
	key(p, input.Escape, 0)
	turn(t, p, "repair/sinus-band/shortening_mm", 20)
	name, data := saved(t, p)
	g, err := gif.DecodeAll(bytes.NewReader(data))
	if err != nil || len(g.Image) != 4 || name != "annuloscope-functional-valve-beat.gif" {
		t.Errorf("%s: %v", name, err)
	}
	if bytes.Contains(data, []byte("sinus-band")) {
		t.Error("the film shows what was changed later")
	}
}

// What cannot be made is said, not made.
func TestAFilmThatCannotBeSaysWhy(t *testing.T) {
	p := start(t, "functional")
	paint(p, 1024, 768)
	key(p, "E", 0)
	choose(t, p, "export/format", "2")
	choose(t, p, "export/movement", "1")
	choose(t, p, "export/from", "10")
	choose(t, p, "export/to", "10")
	choose(t, p, "export/save", "")
	p.Tick(0)
	if m := p.Desk().Message; !strings.Contains(m, "different") {
		t.Errorf("message %q", m)
	}
}

func TestExportPictures(t *testing.T) {
	sheet := func(format string) func(*program.Program) {
		return func(p *program.Program) {
			p.Tick(0)
			p.Handle(input.Event{Kind: input.KeyDown, Key: "E"})
			choose(t, p, "export/format", format)
		}
	}
	shoot(t, nil, []shot{
		{"export-png-1024", 1024, 768, sheet("0")},
		{"export-gif-1024", 1024, 768, func(p *program.Program) { sheet("2")(p); choose(t, p, "export/movement", "1") }},
		{"export-running-1920", 1920, 1080, func(p *program.Program) {
			sheet("2")(p)
			choose(t, p, "export/save", "")
			for range 6 {
				p.Tick(0)
			}
		}},
		{"export-pdf-german", 1280, 800, func(p *program.Program) { set(p, "dark", "de", 1); sheet("4")(p) }},
		{"export-double-1024", 1024, 768, func(p *program.Program) { set(p, "light", "double", 1); sheet("3")(p) }},
		{"export-200-1024", 1024, 768, func(p *program.Program) { set(p, "projector", "en", 2); sheet("0")(p) }},
	})
}

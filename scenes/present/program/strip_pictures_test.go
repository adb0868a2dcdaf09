package program_test

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/study"
)

// TestStripPictures paints the strip with each of its questions into the folder PICTURES, to be looked at.
func TestStripPictures(t *testing.T) {
	dir := os.Getenv("PICTURES")
	if dir == "" {
		dir = t.TempDir()
	}
	painter := raster.New(1)
	painter.Quality = raster.Still
	for _, s := range []struct {
		name, patient, ask string
		w, h               float64
		do                 func(p *program.Program)
	}{
		{"strip-losses-1024", "functional", "Losses", 1024, 768, func(p *program.Program) {}},
		{"strip-losses-1920", "high-sinus", "Losses", 1920, 1080, func(p *program.Program) {}},
		{"strip-anchor-1920", "deep-artery", "Far anchor", 1920, 1080, func(p *program.Program) {}},
		{"strip-weeks-1024", "deep-artery", "Weeks", 1024, 768, func(p *program.Program) { turn(t, p, "repair/sinus-band/delay_days", 29) }},
		{"strip-rods-1024", "functional", "", 1024, 768, func(p *program.Program) {
			if err := p.Desk().S.Place("sinus-band", false); err != nil {
				t.Fatal(err)
			}
			paint(p, 1024, 768)
			if err := p.Act("rods/try", ""); err != nil {
				t.Fatal(err)
			}
			settle(p)
			paint(p, 1024, 768)
			p.Desk().U.SetFocus("rods/withdraw")
		}},
		{"strip-weeks-german-200", "functional", "", 1920, 1080, func(p *program.Program) { set(p, "dark", "de", 2) }},
	} {
		if os.Getenv("PICTURES") == "" && s.name != "strip-losses-1024" {
			continue
		}
		p := startWith(t, s.patient, study.NewSync(study.NewFull()))
		turn(t, p, "repair/sinus-band/shortening_mm", 20)
		settle(p)
		key(p, input.Key("2"), 0)
		s.do(p)
		settle(p)
		paint(p, s.w, s.h)
		if s.ask != "" {
			if err := p.Act("strip/ask", s.ask); err != nil {
				t.Fatal(s.name, err)
			}
		}
		for range 40 {
			p.Tick(0)
		}
		img := painter.Paint(paint(p, s.w, s.h), 1)
		checkPicture(t, s.name, p, img)
		f, err := os.Create(filepath.Join(dir, s.name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
}

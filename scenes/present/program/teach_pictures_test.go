package program_test

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
)

// TestTeachingPictures writes the pages and the lectern into the folder named by PICTURES, to be looked at.
func TestTeachingPictures(t *testing.T) {
	dir := os.Getenv("PICTURES")
	lecture := func(p *program.Program, step string, keys ...input.Key) {
		p.Open("", "lecture="+step)
		settle(p)
		for _, k := range keys {
			paint(p, 1024, 768)
			key(p, k, 0)
		}
	}
	shots := []struct {
		name string
		w, h float64
		do   func(p *program.Program)
	}{
		{"share", 1024, 768, func(p *program.Program) { key(p, "S", 0) }},
		{"knows", 1024, 768, func(p *program.Program) { key(p, "K", 0) }},
		{"knows-german-200", 1024, 768, func(p *program.Program) { set(p, "dark", "de", 2); key(p, "K", 0) }},
		{"menu-german-200", 1024, 768, func(p *program.Program) { set(p, "light", "de", 2); key(p, "M", 0) }},
		{"head-german", 1024, 768, func(p *program.Program) { set(p, "light", "de", 1) }},
		{"head-english", 1024, 768, func(p *program.Program) {}},
		{"head-1920", 1920, 1080, func(p *program.Program) { set(p, "light", "de", 1) }},
		{"head-german-200", 1024, 768, func(p *program.Program) { set(p, "light", "de", 2) }},
		{"lectern-empty", 1024, 768, func(p *program.Program) { scene(p, "lectern") }},
		{"lectern-list", 1024, 768, func(p *program.Program) { scene(p, "lectern"); paint(p, 1024, 768); _ = p.Act("lectern/demo", "") }},
		{"lectern-list-1920", 1920, 1080, func(p *program.Program) {
			set(p, "dark", "de", 1)
			scene(p, "lectern")
			paint(p, 1920, 1080)
			_ = p.Act("lectern/demo", "")
			paint(p, 1920, 1080)
			_ = p.Act("lectern/step/2", "")
		}},
		{"lectern-ask", 1024, 768, func(p *program.Program) { lecture(p, "2") }},
		{"lectern-shown", 1024, 768, func(p *program.Program) { lecture(p, "2", input.PageDown) }},
		{"lectern-clips", 1024, 768, func(p *program.Program) { lecture(p, "6", input.PageDown) }},
		{"lectern-shown-1920", 1920, 1080, func(p *program.Program) { set(p, "light", "de", 1); lecture(p, "4", input.PageDown) }},
		{"lectern-200-double", 1024, 768, func(p *program.Program) { set(p, "light", "double", 2); lecture(p, "2", input.PageDown) }},
		{"lectern-list-200-double", 1024, 768, func(p *program.Program) {
			set(p, "light", "double", 2)
			scene(p, "lectern")
			paint(p, 1024, 768)
			_ = p.Act("lectern/demo", "")
		}},
		{"lectern-blank", 1024, 768, func(p *program.Program) { lecture(p, "2", "B") }},
	}
	painter := raster.New(1)
	painter.Quality = raster.Still
	for _, s := range shots {
		if only := os.Getenv("ONLY"); dir == "" && s.name != "lectern-shown" {
			continue
		} else if ok, _ := filepath.Match(only, s.name); only != "" && !ok {
			continue
		}
		p := start(t, "functional")
		s.do(p)
		settle(p)
		paint(p, s.w, s.h)
		settle(p)
		img := painter.Paint(paint(p, s.w, s.h), 1)
		if s.name != "lectern-blank" {
			checkPicture(t, s.name, p, img)
		}
		if dir == "" {
			continue
		}
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

// scene goes to the scene of that name.
func scene(p *program.Program, name string) {
	p.Open("", "scene="+name)
}

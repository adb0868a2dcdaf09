package program_test

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/valve"
)

// startShell opens the program on a built-in case with the leaflets in three dimensions, settled.
func startShell(t testing.TB, name string, prepare func(p *program.Program)) *program.Program {
	all := cases(t)
	for i, c := range all {
		if c.Name == name {
			all[0], all[i] = all[i], all[0]
		}
	}
	s := study.NewSolver()
	s.Coarse = os.Getenv("PICTURES") == ""
	p := program.New(program.Config{Runner: study.NewSync(s), Cases: all, Lessons: allLessons(t)})
	settle(p)
	prepare(p)
	p.Desk().V.Engine = valve.ShellEngine
	paint(p, 1024, 768)
	settle(p)
	paint(p, 1024, 768) // takes the answer in
	return p
}

// The choice of the shell settles it behind the screen; the picture then draws its surfaces, every field has a legend,
// and the description stays.
func TestShellOnScreen(t *testing.T) {
	p := startShell(t, "normal", func(*program.Program) {})
	d := p.Desk()
	if d.S.Report.Provenance.Engine != valve.ShellEngine || d.S.Settling() {
		t.Fatalf("engine %s, settling %v", d.S.Report.Provenance.Engine, d.S.Settling())
	}
	if d.Model.Shapes.Shell == nil {
		t.Fatal("the picture has no surfaces")
	}
	bare := len(paint(p, 1024, 768).Ops)
	d.V.Field = "gap"
	if with := len(paint(p, 1024, 768).Ops); with <= bare {
		t.Errorf("no legend: %d things drawn with a field, %d without", with, bare)
	}
	// Under a slider the surfaces come with the first answer, while they still settle.
	turn(t, p, "repair/sinus-band/shortening_mm", 4)
	settle(p)
	turn(t, p, "repair/sinus-band/shortening_mm", 5)
	paint(p, 1024, 768)
	if before := d.Model.Shapes.Shell; before == nil || !d.S.Settling() {
		t.Fatalf("the slider has moved: surfaces %v, settling %v", before != nil, d.S.Settling())
	}
	d.V.Engine = valve.SectionsEngine
	paint(p, 1024, 768)
	settle(p)
	if d.S.Report.Provenance.Engine != valve.SectionsEngine {
		t.Error("the sections were chosen and did not come back")
	}
}

// TestShellPictures paints the leaflets in three dimensions into the folder PICTURES (see TestPictures).
func TestShellPictures(t *testing.T) {
	dir := os.Getenv("PICTURES")
	if dir == "" {
		t.Log("PICTURES is not set: nothing to paint")
		return
	}
	for _, q := range []struct {
		name, patient string
		w, h          float64
		prepare       func(p *program.Program)
		then          func(p *program.Program)
	}{
		{"shell-atrium-1024", "functional", 1024, 768, func(p *program.Program) {}, func(p *program.Program) {}},
		{"shell-band-contact-1920", "functional", 1920, 1080, func(p *program.Program) { turn(t, p, "repair/sinus-band/shortening_mm", 20) },
			func(p *program.Program) { p.Desk().V.Field = "contact" }},
		{"shell-moving-1024", "functional", 1024, 768, func(p *program.Program) { turn(t, p, "repair/sinus-band/shortening_mm", 12) },
			func(p *program.Program) {
				p.Desk().V.Field = "contact"
				turn(t, p, "repair/sinus-band/shortening_mm", 14)
			}},
		{"shell-clip-open-1920", "normal", 1920, 1080, func(p *program.Program) { turn(t, p, "repair/edge-clip/position", 0) },
			func(p *program.Program) { p.Desk().Hold("diastole") }},
		{"shell-clip-tension-1024", "normal", 1024, 768, func(p *program.Program) { turn(t, p, "repair/edge-clip/position", 0) },
			func(p *program.Program) { p.Desk().V.Field = "tension"; p.Desk().Look("side") }},
		{"shell-flail-gap-1024", "flail-p2", 1024, 768, func(p *program.Program) { set(p, "light", "de", 1) },
			func(p *program.Program) { p.Desk().V.Field = "gap" }},
		{"shell-flail-axis-1920", "flail-p2", 1920, 1080, func(p *program.Program) { set(p, "dark", "double", 1) },
			func(p *program.Program) { p.Desk().Look("axis") }},
		{"shell-200-1920", "normal", 1920, 1080, func(p *program.Program) { set(p, "projector", "en", 2) }, func(p *program.Program) { p.Desk().V.Field = "contact" }},
	} {
		if only := os.Getenv("ONLY"); only != "" {
			if ok, _ := filepath.Match(only, q.name); !ok {
				continue
			}
		}
		p := startShell(t, q.patient, q.prepare)
		q.then(p)
		for range 2 {
			paint(p, q.w, q.h)
		}
		painter := raster.New(1)
		painter.Quality = raster.Still
		f, err := os.Create(filepath.Join(dir, q.name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, painter.Paint(paint(p, q.w, q.h), 1)); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
}

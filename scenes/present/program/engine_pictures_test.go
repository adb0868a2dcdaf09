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

// TestComparePicturesInThreeDimensions paints the comparison by the shell into the folder PICTURES (see TestPictures).
func TestComparePicturesInThreeDimensions(t *testing.T) {
	dir := os.Getenv("PICTURES")
	if dir == "" {
		t.Log("PICTURES is not set: nothing to paint")
		return
	}
	var all []*study.Full
	p := program.New(program.Config{Runner: study.NewSync(study.NewSolver()), Cases: cases(t), Beside: func() study.Runner {
		f := study.NewExplained()
		f.Coarse = true
		all = append(all, f)
		return study.NewSync(f)
	}})
	settle(p)
	key(p, "4", 0)
	paint(p, 1024, 768)
	if err := p.Act("compare/suggest", ""); err != nil {
		t.Fatal(err)
	}
	d := p.Desk()
	painter := raster.New(1)
	painter.Quality = raster.Still
	shoot := func(name string, w, h float64) {
		paint(p, w, h)
		f, err := os.Create(filepath.Join(dir, name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, painter.Paint(paint(p, w, h), 1)); err != nil {
			t.Fatal(err)
		}
	}
	for range 20 {
		p.Tick(0)
	}
	shoot("engine-compare-sections-1024", 1024, 768)
	d.V.Engine = valve.ShellEngine
	for range 200 {
		p.Tick(0)
	}
	shoot("engine-compare-settling-1024", 1024, 768)
	for range 20000 {
		p.Tick(0)
	}
	shoot("engine-compare-1024", 1024, 768)
	for _, m := range []string{"contact", "gap", "tension", "tension.change", "gap.change"} {
		d.V.Map = m
		shoot("engine-compare-"+m+"-1024", 1024, 768)
		shoot("engine-compare-"+m+"-1920", 1920, 1080)
	}
	set(p, "light", "de", 1)
	shoot("engine-compare-de-1024", 1024, 768)
	set(p, "projector", "double", 2)
	shoot("engine-compare-double-200", 1024, 768)
}

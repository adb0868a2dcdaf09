package program_test

import (
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
)

func cases(t testing.TB) []casefile.Case {
	all, err := program.ReadCases(assets.CaseNames(), func(n string) ([]byte, error) { return assets.Cases.ReadFile("cases/" + n + ".yaml") })
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// start opens the program on a built-in case with the real engine, solved.
func start(t testing.TB, name string) *program.Program {
	return startWith(t, name, study.NewSync(noSweep{}))
}

func startWith(t testing.TB, name string, sweeper study.Runner) *program.Program {
	all := cases(t)
	for i, c := range all {
		if c.Name == name {
			all[0], all[i] = all[i], all[0]
		}
	}
	p := program.New(program.Config{Runner: study.NewSync(remembered{}), Sweeper: func() study.Runner { return sweeper }, Cases: all, Lessons: allLessons(t),
		Beside: func() study.Runner { return study.NewSync(remembered{}) }})
	settle(p)
	return p
}

func settle(p *program.Program) { p.Desk().S.Settle() }

func paint(p *program.Program, w, h float64) *draw.List {
	l := new(draw.List)
	p.Tick(0)
	p.Paint(l, w, h)
	return l
}

func key(p *program.Program, k input.Key, m input.Mods) {
	p.Handle(input.Event{Kind: input.KeyDown, Key: k, Mods: m})
}

// TestPictures paints the screens. With the environment variable PICTURES set it writes all of them into that folder, to be
// looked at; ONLY is a pattern of their names.
func TestPictures(t *testing.T) {
	shoot(t, map[string]bool{"valve-1024": true, "strip-1024": true, "beat-1024": true}, []shot{
		{"valve-1024", 1024, 768, func(p *program.Program) {}},
		{"valve-band-1024", 1024, 768, func(p *program.Program) { turn(t, p, "repair/sinus-band/shortening_mm", 20) }},
		{"valve-clip-1920", 1920, 1080, func(p *program.Program) {
			turn(t, p, "repair/edge-clip/position", 0)
			p.Desk().Hold("diastole")
		}},
		{"valve-axis-1280", 1280, 800, func(p *program.Program) {
			turn(t, p, "repair/sinus-band/shortening_mm", 24)
			p.Desk().Look("axis")
		}},
		{"valve-dark-german", 1280, 800, func(p *program.Program) { set(p, "dark", "de", 1); p.Desk().Look("side") }},
		{"valve-double-1024", 1024, 768, func(p *program.Program) { set(p, "projector", "double", 1) }},
		{"valve-200-1024", 1024, 768, func(p *program.Program) { set(p, "projector", "en", 2) }},
		{"valve-200-double", 1024, 768, func(p *program.Program) { set(p, "light", "double", 2) }},
		{"valve-200-1920", 1920, 1080, func(p *program.Program) { set(p, "light", "de", 2) }},
		{"strip-1024", 1024, 768, func(p *program.Program) {
			turn(t, p, "repair/sinus-band/shortening_mm", 20)
			key(p, "2", 0)
		}},
		{"strip-1920", 1920, 1080, func(p *program.Program) {
			turn(t, p, "repair/sinus-band/shortening_mm", 20)
			key(p, "2", 0)
		}},
		{"strip-200-double", 1024, 768, func(p *program.Program) { set(p, "light", "double", 2); key(p, "2", 0) }},
		{"beat-1024", 1024, 768, func(p *program.Program) { key(p, "3", 0) }},
		{"beat-1920", 1920, 1080, func(p *program.Program) {
			turn(t, p, "repair/edge-clip/position", 0)
			key(p, "3", 0)
			key(p, ".", 0)
		}},
		{"focus-tip", 1024, 768, func(p *program.Program) {
			turn(t, p, "repair/sinus-band/shortening_mm", 20)
			paint(p, 1024, 768)
			p.Desk().U.SetFocus("station")
			key(p, input.Tab, 0)
			paint(p, 1024, 768)
			key(p, input.Tab, 0)
		}},
		{"refused", 1024, 768, func(p *program.Program) {
			turn(t, p, "repair/sinus-band/shortening_mm", 20)
			paint(p, 1024, 768)
			p.Desk().Refuse(p.Desk().S.Turn("repair/sinus-band/proximal_mm", 80, false))
			p.Desk().U.SetFocus("repair/sinus-band/shortening_mm")
			key(p, input.Enter, 0)
		}},
		{"more", 1024, 768, func(p *program.Program) {
			turn(t, p, "repair/edge-clip/position", 0)
			paint(p, 1024, 768)
			_ = p.Act("tab", "1")
		}},
		{"flail-side", 1280, 800, func(p *program.Program) {
			for _, c := range cases(t) {
				if c.Name == "flail-p2" {
					_ = p.Desk().S.Open(c)
				}
			}
			p.Desk().Turn(25, -50)
		}},
		{"help", 1024, 768, func(p *program.Program) { key(p, input.F1, 0) }},
		{"settings", 1024, 768, func(p *program.Program) { key(p, input.F2, 0) }},
		{"cases", 1024, 768, func(p *program.Program) { key(p, "C", 0) }},
		{"ventricle", 1280, 800, func(p *program.Program) { p.Desk().Look("ventricle") }},
	})
}

// shot is one picture: its size and how to get there.
type shot struct {
	name string
	w, h float64
	do   func(p *program.Program)
}

// shoot paints pictures: those named always, or with PICTURES set all whose name matches ONLY.
func shoot(t *testing.T, always map[string]bool, shots []shot) {
	t.Helper()
	dir, all := os.Getenv("PICTURES"), true
	if dir == "" {
		dir, all = t.TempDir(), false
	}
	painter := raster.New(1)
	painter.Quality = raster.Still
	for _, s := range shots {
		if !all && !always[s.name] {
			continue
		}
		if only := os.Getenv("ONLY"); only != "" {
			if ok, _ := filepath.Match(only, s.name); !ok {
				continue
			}
		}
		p := startWith(t, "functional", study.NewSync(study.NewFull()))
		s.do(p)
		settle(p)
		paint(p, s.w, s.h)
		for range 20 { // the charts over many values
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

// checkPicture fails when the valve's picture is empty or overflows, or the caution at the foot is not there.
func checkPicture(t *testing.T, name string, p *program.Program, img *image.RGBA) {
	t.Helper()
	ink := func(r image.Rectangle) float64 {
		back := img.RGBAAt(r.Min.X, r.Min.Y)
		n := 0
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				if img.RGBAAt(x, y) != back {
					n++
				}
			}
		}
		return float64(n) / float64(r.Dx()*r.Dy())
	}
	b := img.Bounds()
	if share := ink(image.Rect(8, b.Max.Y-24, b.Max.X/2, b.Max.Y-2)); share < 0.02 {
		t.Errorf("%s: no caution at the foot (%.3f of its place is ink)", name, share)
	}
	if c, ok := p.Desk().U.Find("picture"); ok {
		r := image.Rect(int(c.Rect.X)+2, int(c.Rect.Y)+2, int(c.Rect.X+c.Rect.W)-2, int(c.Rect.Y+c.Rect.H)-2)
		if share := ink(r); share < 0.12 || share > 0.95 {
			t.Errorf("%s: %.2f of the picture is drawn", name, share)
		}
	}
}

func turn(t testing.TB, p *program.Program, id string, v float64) {
	if err := p.Desk().S.Turn(id, v, false); err != nil {
		t.Fatal(err)
	}
}

func set(p *program.Program, theme, language string, scale float64) {
	p.Desk().P.Theme, p.Desk().P.Language, p.Desk().P.Scale = theme, language, scale
	p.Settings()
}

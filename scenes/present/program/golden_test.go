package program_test

import (
	"flag"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/study"
)

var rewrite = flag.Bool("golden", false, "rewrite the pictures in testdata/golden; look at them before they are committed")

// Tolerances of the comparison of half-size pictures, in squares of 8 by 8 pixels: a number that changes in its last
// digit passes, a label that moves, a colour or a missing curve does not. Chosen.
const (
	goldenSquare = 8
	goldenMean   = 0.8  // of 255, over the whole picture
	goldenFar    = 20.0 // of 255: a square that differs so much is another square
	goldenShare  = 0.01 // of the squares
)

// Every scene and the lectern's presentation look as they did when somebody looked at them, in English and, in grey, in
// the doubled language. After a wanted change: go test ./scenes/present/program -run TestGolden -golden
func TestGoldenPictures(t *testing.T) {
	painter := raster.New(1)
	painter.Quality = raster.Still
	for _, lang := range []string{"en", "double"} {
		p := startWith(t, "functional", study.NewSync(study.NewFull()))
		turn(t, p, "repair/sinus-band/shortening_mm", 20)
		settle(p)
		set(p, "light", lang, 1)
		for _, name := range append(p.Scenes(), "lecture") {
			if raceDetector && name != "valve" && name != "lecture" {
				continue
			}
			if name == "lecture" {
				p.Open("", "lecture=2")
				settle(p)
				paint(p, 1024, 768)
				key(p, input.PageDown, 0)
			} else {
				p.Open("", "scene="+name)
			}
			if name == "compare" {
				act(p, "compare/suggest", "", [2]float64{1024, 768})
			}
			still(p)
			file := filepath.Join("testdata", "golden", name+"-"+lang+".png")
			compareGolden(t, file, half(painter.Paint(paint(p, 1024, 768), 1), lang != "en"))
			if name == "lecture" {
				key(p, input.Escape, 0)
			}
		}
	}
}

// still lets everything that is being computed come to its end.
func still(p *program.Program) {
	now := 10.0
	for quiet, n := 0, 0; quiet < 20 && n < 4000; n++ {
		if quiet++; p.Tick(now) {
			quiet = 0
			paint(p, 1024, 768)
		}
		settle(p)
		now += 0.25
	}
}

// half is a picture at half its size.
func half(m *image.RGBA, grey bool) image.Image {
	w, h := m.Rect.Dx()/2, m.Rect.Dy()/2
	var out draw.Image = image.NewRGBA(image.Rect(0, 0, w, h))
	if grey {
		out = image.NewGray(image.Rect(0, 0, w, h))
	}
	for y := range h {
		for x := range w {
			var sum [3]int
			for _, q := range [4]image.Point{{X: 2 * x, Y: 2 * y}, {X: 2*x + 1, Y: 2 * y}, {X: 2 * x, Y: 2*y + 1}, {X: 2*x + 1, Y: 2*y + 1}} {
				c := m.RGBAAt(q.X, q.Y)
				sum[0], sum[1], sum[2] = sum[0]+int(c.R), sum[1]+int(c.G), sum[2]+int(c.B)
			}
			out.Set(x, y, color.RGBA{R: uint8(sum[0] / 4), G: uint8(sum[1] / 4), B: uint8(sum[2] / 4), A: 255})
		}
	}
	return out
}

func compareGolden(t *testing.T, file string, got image.Image) {
	t.Helper()
	if *rewrite {
		writePNG(t, file, got)
		return
	}
	f, err := os.Open(file)
	if err != nil {
		t.Errorf("%v; write it with -golden, and look at it", err)
		return
	}
	defer f.Close()
	want, err := png.Decode(f)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	mean, far := apart(want, got)
	if mean > goldenMean || far > goldenShare {
		seen := filepath.Join(os.TempDir(), "annuloscope-"+filepath.Base(file))
		writePNG(t, seen, got)
		t.Errorf("%s: differs by %.2f of 255 on average (allowed %.1f), %.1f %% of it far (allowed %.0f %%); what was painted is in %s. "+
			"If it is meant so, look at it and rewrite with -golden", file, mean, goldenMean, 100*far, 100*goldenShare, seen)
	}
}

// apart is the mean difference of two pictures in squares, and the share of squares that are far apart.
func apart(a, b image.Image) (mean, far float64) {
	if a.Bounds() != b.Bounds() {
		return 255, 1
	}
	r, n := a.Bounds(), 0
	for y := r.Min.Y; y < r.Max.Y; y += goldenSquare {
		for x := r.Min.X; x < r.Max.X; x += goldenSquare {
			var d [3]float64
			for v := y; v < y+goldenSquare && v < r.Max.Y; v++ {
				for u := x; u < x+goldenSquare && u < r.Max.X; u++ {
					r0, g0, b0, _ := a.At(u, v).RGBA()
					r1, g1, b1, _ := b.At(u, v).RGBA()
					d[0], d[1], d[2] = d[0]+float64(r0)-float64(r1), d[1]+float64(g0)-float64(g1), d[2]+float64(b0)-float64(b1)
				}
			}
			worst := math.Max(math.Max(math.Abs(d[0]), math.Abs(d[1])), math.Abs(d[2])) / (goldenSquare * goldenSquare) / 257
			mean += worst
			if worst > goldenFar {
				far++
			}
			n++
		}
	}
	return mean / float64(n), far / float64(n)
}

func writePNG(t *testing.T, file string, m image.Image) {
	t.Helper()
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(f, m); err != nil {
		t.Fatal(err)
	}
}

// The comparison sees what it is for: another number passes, a missing curve, a moved panel or another colour does not.
func TestGoldenComparisonSees(t *testing.T) {
	painter := raster.New(1)
	painter.Quality = raster.Still
	p := start(t, "functional")
	turn(t, p, "repair/sinus-band/shortening_mm", 20)
	settle(p)
	shot := func() image.Image { return half(painter.Paint(paint(p, 1024, 768), 1), false) }
	base := shot()
	passes := func(m image.Image) bool {
		mean, far := apart(base, m)
		return mean <= goldenMean && far <= goldenShare
	}
	if !passes(shot()) {
		t.Error("the same picture twice")
	}
	turn(t, p, "repair/sinus-band/distal_mm", 84.5) // a hair's breadth
	settle(p)
	if m, far := apart(base, shot()); m > goldenMean || far > goldenShare {
		t.Logf("a far anchor moved by 0.5 mm: %.2f, %.3f", m, far)
	}
	turn(t, p, "repair/sinus-band/distal_mm", 84)
	settle(p)
	for name, do := range map[string]func(){
		"dark":       func() { set(p, "dark", "en", 1) },
		"projector":  func() { set(p, "projector", "en", 1) },
		"larger":     func() { set(p, "light", "en", 1.1) },
		"German":     func() { set(p, "light", "de", 1) },
		"other view": func() { p.Desk().Turn(20, 0) },
	} {
		if raceDetector && name != "larger" {
			continue
		}
		do()
		if passes(shot()) {
			t.Errorf("%s passes for the same picture", name)
		}
		set(p, "light", "en", 1)
		p.Desk().Look("atrium")
	}
}

package raster_test

import (
	"image"
	"image/color"
	"math"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
)

var (
	white = draw.Color{R: 255, G: 255, B: 255, A: 255}
	black = draw.Color{A: 255}
	red   = draw.Color{R: 255, A: 255}
	blue  = draw.Color{B: 255, A: 255}
)

func paint(w, h, scale float64, background draw.Color, f func(*draw.List)) *image.RGBA {
	var l draw.List
	l.Reset(w, h, background)
	f(&l)
	return new(raster.Painter).Paint(&l, scale)
}

// covered sums the cover of black on white, in pixels.
func covered(m *image.RGBA) float64 {
	sum := 0.0
	for i := 0; i < len(m.Pix); i += 4 {
		sum += float64(255-m.Pix[i]) / 255
	}
	return sum
}

func regular(n int, x, y, r, turn float64) []draw.Point {
	p := make([]draw.Point, n)
	for i := range p {
		a := turn + 2*math.Pi*float64(i)/float64(n)
		p[i] = draw.Point{X: x + r*math.Cos(a), Y: y + r*math.Sin(a)}
	}
	return p
}

// Painted cover against areas known in closed form. Each pixel rounds to 1/255, so the sum may be off by half of that
// for each edge pixel.
func TestCoverEqualsArea(t *testing.T) {
	for _, c := range []struct {
		name string
		want float64
		f    func(*draw.List)
	}{
		{"rectangle off the grid", 20.3 * 10.7, func(l *draw.List) { l.FillRect(draw.Rect{X: 3.4, Y: 5.6, W: 20.3, H: 10.7}, black) }},
		{"rectangle thinner than a pixel", 30 * 0.2, func(l *draw.List) { l.FillRect(draw.Rect{X: 3, Y: 5.9, W: 30, H: 0.2}, black) }},
		{"triangle", 0.5 * 40 * 30, func(l *draw.List) {
			l.Fill(black, draw.Point{X: 2.3, Y: 4.1}, draw.Point{X: 42.3, Y: 4.1}, draw.Point{X: 7.7, Y: 34.1})
		}},
		{"97 corners", 97 * 0.5 * 20 * 20 * math.Sin(2*math.Pi/97), func(l *draw.List) { l.Fill(black, regular(97, 30.2, 28.9, 20, 0.3)...) }},
		{"triangle half outside on the left and right", 0.5 * 200 * 40 * 0.75 * 64 / 96, nil},
		{"slanted stroke", 40 * 5, func(l *draw.List) { l.Line(black, 5, draw.Point{X: 10, Y: 10}, draw.Point{X: 34, Y: 42}) }},
		{"upright stroke", 40 * 3, func(l *draw.List) { l.Line(black, 3, draw.Point{X: 10.3, Y: 10}, draw.Point{X: 10.3, Y: 50}) }},
		{"ring", math.Pi * (22*22 - 18*18), func(l *draw.List) { l.Loop(black, 4, regular(720, 32, 32, 20, 0)...) }},
		{"dashes: 10 on, 5 off along 40 from an end", 30 * 2, func(l *draw.List) {
			l.Dashed(black, 2, 10, 5, draw.Point{X: 10, Y: 12.25}, draw.Point{X: 50, Y: 12.25})
		}},
		{"empty", 0, func(l *draw.List) {
			l.Fill(black, draw.Point{X: 1, Y: 1}, draw.Point{X: 9, Y: 9})
			l.Fill(black, draw.Point{X: math.NaN(), Y: 1}, draw.Point{X: 9, Y: 9}, draw.Point{X: 9, Y: 1})
			l.Line(black, 2, draw.Point{X: math.Inf(1), Y: 1}, draw.Point{X: 9, Y: 9})
			l.Line(black, 2, draw.Point{X: 5, Y: 5}, draw.Point{X: 5, Y: 5})
		}},
	} {
		if c.f == nil {
			// A triangle with its top edge far beyond both sides: within 64 px it is a band 40 high at the middle.
			// Corners (−68, 10), (132, 10), (32, 50): width at depth d is 200(1−d/40), more than 64 until d = 27.2.
			d := 40 * (1 - 64.0/200)
			c.want = 64*d + 0.5*64*(40-d)
			c.f = func(l *draw.List) {
				l.Fill(black, draw.Point{X: -68, Y: 10}, draw.Point{X: 132, Y: 10}, draw.Point{X: 32, Y: 50})
			}
		}
		for _, scale := range []float64{1, 1.5, 2} {
			got := covered(paint(64, 64, scale, white, c.f)) / scale / scale
			if tol := 0.004*c.want + 0.15; math.Abs(got-c.want) > tol {
				t.Errorf("%s at scale %v: covers %.3f, want %.3f", c.name, scale, got, c.want)
			}
		}
	}
}

// A corner of a stroke: the joint of two 6 wide arms at a right angle is round, radius 3.
func TestRoundJoin(t *testing.T) {
	got := covered(paint(64, 64, 1, white, func(l *draw.List) {
		l.Line(black, 6, draw.Point{X: 10, Y: 10}, draw.Point{X: 50, Y: 10}, draw.Point{X: 50, Y: 50})
	}))
	// Two arms, less the 3×3 square that both cover, plus a quarter of the disc outside.
	want := 2*40*6 - 3*3 + math.Pi*9/4
	if math.Abs(got-want) > 0.5 {
		t.Errorf("covers %.2f, want %.2f", got, want)
	}
}

func TestPixelsAndClip(t *testing.T) {
	m := paint(60, 40, 2, white, func(l *draw.List) {
		l.FillRect(draw.Rect{X: 10, Y: 10, W: 20, H: 10}, red)
		l.PushClip(draw.Rect{X: 0, Y: 0, W: 30, H: 40})
		l.PushClip(draw.Rect{X: 20, Y: 0, W: 40, H: 40})
		l.Fill(blue, regular(5, 30, 20, 100, 0)...)
		l.Text("MMMMMMMMMM", 0, 30, 20, true, draw.Start, red)
		l.PopClip()
		l.FillRect(draw.Rect{X: 0, Y: 35, W: 60, H: 5}, draw.Color{A: 128})
		l.PopClip()
		l.FillRect(draw.Rect{X: 50, Y: 0, W: 5, H: 5}, black)
	})
	if m.Rect != image.Rect(0, 0, 120, 80) {
		t.Fatalf("picture %v", m.Rect)
	}
	for _, c := range []struct {
		x, y int
		want color.RGBA
	}{
		{19, 30, color.RGBA{255, 255, 255, 255}}, {20, 30, color.RGBA{255, 0, 0, 255}}, {39, 20, color.RGBA{255, 0, 0, 255}},
		{39, 19, color.RGBA{255, 255, 255, 255}}, // left of the inner clip
		{40, 2, color.RGBA{0, 0, 255, 255}}, {59, 2, color.RGBA{0, 0, 255, 255}},
		{60, 2, color.RGBA{255, 255, 255, 255}}, // right of the outer clip
		{10, 75, color.RGBA{127, 127, 127, 255}}, {70, 75, color.RGBA{255, 255, 255, 255}},
		{105, 5, color.RGBA{0, 0, 0, 255}},
	} {
		if got := m.RGBAAt(c.x, c.y); got != c.want {
			t.Errorf("at %d,%d: %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

func TestTransparentBackgroundIsMultiplied(t *testing.T) {
	m := paint(20, 20, 1, draw.Color{}, func(l *draw.List) {
		l.FillRect(draw.Rect{X: 5, Y: 5, W: 10, H: 10}, draw.Color{R: 200, G: 100, A: 128})
	})
	if got := m.RGBAAt(2, 2); got != (color.RGBA{}) {
		t.Errorf("background %v", got)
	}
	if got := m.RGBAAt(8, 8); got != (color.RGBA{100, 50, 0, 128}) {
		t.Errorf("half covered %v, want {100 50 0 128}", got)
	}
}

func TestText(t *testing.T) {
	ink := func(s string, bold bool, a draw.Anchor, x float64) (sum, left, right float64) {
		m := paint(200, 40, 1, white, func(l *draw.List) { l.Text(s, x, 28, 20, bold, a, black) })
		left, right = math.Inf(1), math.Inf(-1)
		for y := range 40 {
			for px := range 200 {
				if m.RGBAAt(px, y).R < 128 {
					left, right = min(left, float64(px)), max(right, float64(px+1))
				}
			}
		}
		return covered(m), left, right
	}
	for _, s := range []string{"Annulus", "≤≥→±Δ▲▼✓✗°²³½", "x₂", "ÄÖÜßé", "漢"} {
		if sum, _, _ := ink(s, false, draw.Start, 10); sum < 10 {
			t.Errorf("%q: only %.1f pixels of ink", s, sum)
		}
	}
	thin, _, _ := ink("Annulus", false, draw.Start, 10)
	thick, _, _ := ink("Annulus", true, draw.Start, 10)
	if thick < 1.2*thin {
		t.Errorf("bold has %.1f pixels of ink, regular %.1f", thick, thin)
	}
	// "HH" is symmetric, with side bearings of about 0.08 em: anchored in the middle it lies evenly round x.
	if _, l, r := ink("HH", false, draw.Middle, 100); math.Abs((l+r)/2-100) > 0.75 {
		t.Errorf("middle anchor: ink from %v to %v round 100", l, r)
	}
	if _, _, r := ink("HH", false, draw.End, 100); r > 100 || r < 97 {
		t.Errorf("end anchor: ink ends at %v, want just before 100", r)
	}
}

func TestSteadyStateAllocatesNothing(t *testing.T) {
	var l draw.List
	p := raster.New(1)
	scene, n := ballScene(2000), 0
	frame := func() {
		n++
		scene.Version = uint64(n)
		l.Reset(320, 200, white)
		l.FillRect(draw.Rect{X: 3, Y: 3, W: 50, H: 20}, red)
		l.Loop(black, 2, regular5...)
		l.Dashed(black, 1, 4, 3, draw.Point{X: 1, Y: 1}, draw.Point{X: 200, Y: 150})
		l.Text("Septal-lateral 31.4 mm", 10, 40, 13, false, draw.Start, black)
		l.Solid(draw.Rect{X: 100, Y: 20, W: 200, H: 160}, draw.Camera{Elevation: 60, Azimuth: 30, Scale: 4}, scene)
		p.Paint(&l, 1)
	}
	frame()
	if n := testing.AllocsPerRun(20, frame); n > 0 {
		t.Errorf("a frame allocates %v times", n)
	}
}

var regular5 = regular(50, 100, 100, 60, 0)

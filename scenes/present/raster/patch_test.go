package raster_test

import (
	"image"
	"math/rand/v2"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
)

// part draws one random thing.
func part(l *draw.List, r *rand.Rand, s *draw.Scene) {
	at := func() draw.Point { return draw.Point{X: 420*r.Float64() - 20, Y: 320*r.Float64() - 20} }
	c := draw.Color{R: uint8(r.Uint32()), G: uint8(r.Uint32()), B: uint8(r.Uint32()), A: uint8(55 + 200*r.IntN(2))}
	switch r.IntN(9) {
	case 0:
		p := at()
		l.FillRect(draw.Rect{X: p.X, Y: p.Y, W: 150 * r.Float64(), H: 90 * r.Float64()}, c)
	case 1:
		l.Fill(c, at(), at(), at(), at())
	case 2:
		p := at()
		l.Fill(c, regular(40, p.X, p.Y, 5+60*r.Float64(), 0)...)
	case 3:
		l.Line(c, 0.5+5*r.Float64(), at(), at(), at())
	case 4:
		p := at()
		l.Loop(c, 1+r.Float64(), regular(30, p.X, p.Y, 5+60*r.Float64(), 0)...)
	case 5:
		l.Dashed(c, 1.5, 5, 3, at(), at())
	case 6, 7:
		p := at()
		l.Text([]string{"31.4 mm", "Ärger ⚠ │", "≥ 5.0 cm²", "f"}[r.IntN(4)], p.X, p.Y, 9+30*r.Float64(), r.IntN(2) == 0, draw.Anchor(r.IntN(3)), c)
	case 8:
		p := at()
		l.Solid(draw.Rect{X: p.X, Y: p.Y, W: 60 + 100*r.Float64(), H: 60 + 100*r.Float64()}, draw.Camera{Elevation: 40, Azimuth: 90 * r.Float64(), Scale: 3}, s)
	}
}

// What Partial keeps is what a whole picture would show, to the last bit, and what it does not keep is in Fresh: random
// lists of thirty parts of which some change, come, go or change places, at three scales, in and out of clips, with a
// scene that gets finer at rest.
func TestPartialPicturesAreWholePictures(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	partial, whole := raster.New(1), raster.New(1)
	partial.Partial = true
	ball := ballScene(300)
	seeds := make([]uint64, 30)
	for i := range seeds {
		seeds[i] = r.Uint64()
	}
	kept, pictures := 0, 0
	var before *image.RGBA
	for n := range 60 {
		scale := []float64{1, 1.5, 2}[n/20]
		for range r.IntN(3) { // none: the list stays as it is
			switch i := r.IntN(len(seeds)); r.IntN(4) {
			case 0:
				seeds[i] = r.Uint64()
			case 1:
				k := r.IntN(len(seeds))
				seeds[i], seeds[k] = seeds[k], seeds[i]
			case 2:
				ball.Version++
				ball.Surfaces[0].Color.R += 40
			case 3:
				partial.Quality = raster.Moving + raster.Quality(r.IntN(2))
			}
		}
		var l draw.List
		l.Reset(400, 300, white)
		for i, s := range seeds {
			if i == 10 {
				l.PushClip(draw.Rect{X: 40 + float64(seeds[0]%30), Y: 30, W: 200, H: 180})
			}
			part(&l, rand.New(rand.NewPCG(s, 1)), ball)
		}
		whole.Quality = partial.Quality
		want, got := whole.Paint(&l, scale), partial.Paint(&l, scale)
		if want.Rect != got.Rect {
			t.Fatalf("picture %d: %v, want %v", n, got.Rect, want.Rect)
		}
		fresh := image.NewAlpha(got.Rect)
		area := 0
		for _, f := range partial.Fresh() {
			area += f.Dx() * f.Dy()
			for y := f.Min.Y; y < f.Max.Y; y++ {
				for x := f.Min.X; x < f.Max.X; x++ {
					fresh.Pix[fresh.PixOffset(x, y)] = 255
				}
			}
		}
		for i := 0; i < len(want.Pix); i += 4 {
			if [4]byte(want.Pix[i:]) != [4]byte(got.Pix[i:]) {
				t.Fatalf("picture %d at scale %v: pixel %d,%d is %v, in the whole picture %v", n, scale, i/4%want.Rect.Dx(), i/4/want.Rect.Dx(), got.Pix[i:i+4], want.Pix[i:i+4])
			}
			if before != nil && before.Rect == got.Rect && fresh.Pix[i/4] == 0 && [4]byte(before.Pix[i:]) != [4]byte(got.Pix[i:]) {
				t.Fatalf("picture %d: pixel %d changed outside the rectangles told", n, i/4)
			}
		}
		before = &image.RGBA{Pix: append([]uint8(nil), got.Pix...), Stride: got.Stride, Rect: got.Rect}
		pictures++
		if area < len(fresh.Pix) {
			kept++
		}
	}
	if kept < pictures/2 {
		t.Errorf("only %d of %d pictures kept anything", kept, pictures)
	}
}

// The same list again changes nothing, and one changed word little.
func TestPartialPaintsOnlyWhatChanged(t *testing.T) {
	p := raster.New(1)
	p.Partial = true
	ball := ballScene(300)
	show := func(word string) int {
		var l draw.List
		frame(&l, ball)
		l.Text(word, 900, 700, 12, false, draw.Start, white)
		p.Paint(&l, 1)
		area := 0
		for _, f := range p.Fresh() {
			area += f.Dx() * f.Dy()
		}
		return area
	}
	if got := show("one"); got != 1280*800 {
		t.Errorf("the first picture: %d pixels", got)
	}
	if got := show("one"); got != 0 {
		t.Errorf("the same picture: %d pixels", got)
	}
	if got := show("two"); got == 0 || got > 6*32*32 {
		t.Errorf("one other word: %d pixels", got)
	}
}

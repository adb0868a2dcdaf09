package svg_test

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/svg"
	"annuloscope/scenes/scenestest"

	"github.com/chromedp/chromedp"
	"gonum.org/v1/gonum/spatial/r3"
)

const wide, high = 400, 300

// picture uses every kind of operation; the text stands in the strip from y = 250 on.
func picture() *draw.List {
	var l draw.List
	l.Reset(wide, high, draw.Color{R: 250, G: 248, B: 240, A: 255})
	l.FillRect(draw.Rect{X: 20.5, Y: 20, W: 80, H: 50.25}, draw.Color{R: 200, A: 255})
	l.StrokeRect(draw.Rect{X: 120, Y: 20, W: 80, H: 50}, 2, draw.Color{B: 160, A: 255})
	l.Fill(draw.Color{G: 140, A: 128}, draw.Point{X: 60, Y: 40}, draw.Point{X: 160, Y: 60}, draw.Point{X: 90, Y: 130})
	var wave, loop []draw.Point
	for i := range 200 {
		wave = append(wave, draw.Point{X: 20 + float64(i), Y: 180 + 30*math.Sin(float64(i)/12)})
		a := 2 * math.Pi * float64(i) / 200
		loop = append(loop, draw.Point{X: 320 + 50*math.Cos(a), Y: 70 + 30*math.Sin(a)})
	}
	l.Line(draw.Color{R: 30, G: 100, B: 200, A: 255}, 3, wave...)
	l.Loop(draw.Color{R: 120, B: 120, A: 255}, 5, loop...)
	l.Dashed(draw.Color{A: 255}, 2, 9, 5, draw.Point{X: 20, Y: 235.5}, draw.Point{X: 220, Y: 235.5})
	l.Line(draw.Color{R: 90, G: 60, A: 255}, 8, draw.Point{X: 240, Y: 230}, draw.Point{X: 260, Y: 150}, draw.Point{X: 280, Y: 230})
	l.PushClip(draw.Rect{X: 300, Y: 130, W: 80, H: 60})
	l.PushClip(draw.Rect{X: 280, Y: 150, W: 80, H: 60})
	l.FillRect(draw.Rect{X: 0, Y: 0, W: 400, H: 300}, draw.Color{R: 255, G: 180, A: 255})
	l.PopClip()
	l.Line(draw.Color{A: 255}, 3, draw.Point{X: 250, Y: 135}, draw.Point{X: 400, Y: 145})
	l.PopClip()
	l.Solid(draw.Rect{X: 300, Y: 195, W: 80, H: 50}, draw.Camera{Elevation: 90, Scale: 4}, &draw.Scene{Surfaces: []draw.Surface{{
		Flat: true, Color: draw.Color{G: 120, B: 120, A: 255}, Faces: [][3]int32{{0, 1, 2}}, Vertices: []r3.Vec{{X: -8, Y: -5}, {X: 8, Y: -5}, {Y: 5}}}}})
	l.Text("Septal-lateral 31.4 mm", 20, 270, 16, false, draw.Start, draw.Color{A: 255})
	l.Text("≥ Δ ▲ bold", 380, 290, 16, true, draw.End, draw.Color{A: 255})
	l.Text("middle", 200, 290, 14, false, draw.Middle, draw.Color{A: 255})
	return &l
}

// The two painters of one list: our pixels against Chromium's reading of our vectors, which share no code.
func TestPixelsAndVectorsShowTheSame(t *testing.T) {
	var b bytes.Buffer
	l := picture()
	if err := svg.Write(&b, l, svg.About{Title: "t", Description: "d"}); err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/p.svg" {
			w.Header().Set("Content-Type", "image/svg+xml")
			w.Write(b.Bytes())
			return
		}
		w.Header().Set("Content-Type", "text/html")
		w.Write([]byte(`<body style="margin:0"><img src="/p.svg" width=400 height=300 style="display:block">`))
	}))
	defer server.Close()
	p := scenestest.OpenPage(t, server.URL, 500, 500, 60*time.Second)
	p.Until("the picture", `document.images[0].complete && document.images[0].naturalWidth === 400`)
	if err := chromedp.Do(p.Context, chromedp.EmulateViewport(500, 500)); err != nil {
		t.Fatal(err)
	}
	vectors := p.Screenshot()
	pixels := (&raster.Painter{Quality: raster.Still}).Paint(l, 1)

	// Shapes: areas may not differ at all, edges by a little cover. Beyond 40 (16 % of a pixel's cover between black and
	// white) only the four corners of the thin frame, square here and round there. Below that lie the edges of bent
	// strokes, where Chromium's cover is up to 0.15 off (ours is within 0.02 of brute force, see package raster), and
	// the edges of the embedded scene, which Chromium shrinks to half.
	worst, off, sum := 0.0, 0, 0.0
	at := image.Point{}
	for y := range 250 {
		for x := range wide {
			d := difference(pixels.At(x, y), vectors.At(x, y))
			sum += d
			if d > 40 {
				off++
			}
			if d > worst {
				worst, at = d, image.Pt(x, y)
			}
		}
	}
	t.Logf("shapes: mean difference %.3f of 255, largest %.0f at %v, %d pixels beyond 40", sum/(250*wide), worst, at, off)
	if sum/(250*wide) > 0.25 || off > 4 || worst > 90 {
		t.Error("the painters show different shapes")
	}
	// Text: another engine, perhaps another font, but the same place, width and about the same ink.
	for _, r := range []image.Rectangle{image.Rect(15, 252, 240, 277), image.Rect(150, 276, 240, 296), image.Rect(290, 276, 385, 296)} {
		a, b := ink(pixels, r), ink(vectors, r)
		t.Logf("text in %v: ink %.0f and %.0f, columns %d-%d and %d-%d", r, a.sum, b.sum, a.left, a.right, b.left, b.right)
		if a.sum < 50 || math.Abs(a.sum-b.sum) > 0.3*a.sum || abs(a.left-b.left) > 3 || abs(a.right-b.right) > 3 {
			t.Errorf("the painters set the text in %v differently", r)
		}
	}
}

type inked struct {
	sum         float64
	left, right int
}

func ink(m image.Image, r image.Rectangle) inked {
	v := inked{left: r.Max.X, right: r.Min.X}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			dark := 1 - float64(color.GrayModel.Convert(m.At(x, y)).(color.Gray).Y)/248
			if dark < 0.02 {
				continue
			}
			v.sum += dark
			if dark > 0.4 {
				v.left, v.right = min(v.left, x), max(v.right, x)
			}
		}
	}
	return v
}

func difference(a, b color.Color) float64 {
	r1, g1, b1, _ := a.RGBA()
	r2, g2, b2, _ := b.RGBA()
	d := func(x, y uint32) float64 { return math.Abs(float64(x)-float64(y)) / 257 }
	return max(d(r1, r2), d(g1, g2), d(b1, b2))
}

func abs(n int) int { return max(n, -n) }

package raster_test

import (
	"fmt"
	"math"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
)

func BenchmarkScene(b *testing.B) {
	for _, c := range []struct {
		w, h    float64
		quality raster.Quality
		threads int
	}{{640, 500, raster.Moving, 1}, {640, 500, raster.Moving, 2}, {640, 500, raster.Still, 1}, {640, 500, raster.Still, 2}} {
		b.Run(fmt.Sprintf("%vx%v/quality%d/threads%d", c.w, c.h, c.quality, c.threads), func(b *testing.B) {
			p := raster.New(c.threads)
			defer p.Close()
			p.Quality = c.quality
			s := ballScene(9600) // 9,600 opaque and 2,400 glass triangles
			var l draw.List
			b.ReportAllocs()
			for b.Loop() {
				s.Version++
				l.Reset(c.w, c.h, white)
				l.Solid(draw.Rect{W: c.w, H: c.h}, draw.Camera{Elevation: 40, Azimuth: 10, Scale: 15}, s)
				p.Paint(&l, 1)
			}
		})
	}
}

// frame writes about what a full screen holds: panels, 200 texts, charts and one scene.
func frame(l *draw.List, s *draw.Scene) {
	l.Reset(1280, 800, draw.Color{R: 18, G: 22, B: 28, A: 255})
	l.Solid(draw.Rect{X: 20, Y: 60, W: 640, H: 500}, draw.Camera{Elevation: 40, Scale: 12}, s)
	for i := range 12 {
		r := draw.Rect{X: 680, Y: 60 + 58*float64(i), W: 580, H: 50}
		l.FillRect(r, draw.Color{R: 40, G: 46, B: 54, A: 255})
		l.StrokeRect(r, 1, draw.Color{R: 90, G: 96, B: 104, A: 255})
	}
	for i := range 200 {
		l.Text("Septal-lateral 31.4 mm", 690+140*float64(i%4), 75+14*float64(i/4), 12, i%7 == 0, draw.Start, white)
	}
	var wave [500]draw.Point
	for k := range 3 {
		for i := range wave {
			wave[i] = draw.Point{X: 20 + 1.25*float64(i), Y: 680 + 80*math.Sin(float64(i)/30+float64(k))}
		}
		l.Line(draw.Color{R: 100, G: 180, B: 240, A: 255}, 2, wave[:]...)
	}
}

func BenchmarkFrame(b *testing.B) {
	for _, scale := range []float64{1, 2} {
		b.Run(fmt.Sprintf("scale%v", scale), func(b *testing.B) {
			var p raster.Painter
			var l draw.List
			s := ballScene(9600)
			frame(&l, s)
			p.Paint(&l, scale)
			b.ReportAllocs()
			for b.Loop() {
				frame(&l, s)
				p.Paint(&l, scale)
			}
		})
	}
}

func BenchmarkText(b *testing.B) {
	var p raster.Painter
	var l draw.List
	for b.Loop() {
		l.Reset(640, 480, white)
		for i := range 100 {
			l.Text("Septal-lateral 31.4 mm", 10, 12+4*float64(i), 13, false, draw.Start, black)
		}
		p.Paint(&l, 1)
	}
}

func BenchmarkStroke2000Points(b *testing.B) {
	var p raster.Painter
	var l draw.List
	var wave [2000]draw.Point
	for i := range wave {
		wave[i] = draw.Point{X: 20 + 0.5*float64(i), Y: 240 + 180*math.Sin(float64(i)/90)}
	}
	for b.Loop() {
		l.Reset(1040, 480, white)
		l.Line(black, 2, wave[:]...)
		p.Paint(&l, 1)
	}
}

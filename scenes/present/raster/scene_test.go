package raster_test

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"

	"gonum.org/v1/gonum/spatial/r3"
)

// ballScene is a ball of radius 15 mm with about n triangles, a glass one round it and two curves.
func ballScene(n int) *draw.Scene {
	rings := max(int(math.Sqrt(float64(n)/4)), 3)
	turn := 2 * rings
	ball := func(r float64) draw.Surface {
		s := draw.Surface{Color: draw.Color{R: 220, G: 130, B: 120, A: 255}}
		for i := 0; i <= rings; i++ {
			for j := range turn {
				a, b := math.Pi*float64(i)/float64(rings), 2*math.Pi*float64(j)/float64(turn)
				q := r3.Vec{X: math.Sin(a) * math.Cos(b), Y: math.Sin(a) * math.Sin(b), Z: math.Cos(a)}
				s.Vertices, s.Normals = append(s.Vertices, r3.Scale(r, q)), append(s.Normals, q)
			}
		}
		at := func(i, j int) int32 { return int32(i*turn + j%turn) }
		for i := range rings {
			for j := range turn {
				s.Faces = append(s.Faces, [3]int32{at(i, j), at(i+1, j), at(i+1, j+1)}, [3]int32{at(i, j), at(i+1, j+1), at(i, j+1)})
			}
		}
		return s
	}
	glass := ball(18)
	glass.Alpha, glass.Faces = 0.3, glass.Faces[:len(glass.Faces)/4]
	c := draw.Curve{Closed: true, Width: 2, Color: draw.Color{B: 200, A: 255}}
	for i := range 100 {
		s, co := math.Sincos(2 * math.Pi * float64(i) / 100)
		c.Points = append(c.Points, r3.Vec{X: 15 * co, Y: 15 * s})
	}
	d := c
	d.Over, d.Dash, d.Color = true, [2]float64{5, 4}, draw.Color{G: 150, A: 255}
	return &draw.Scene{Surfaces: []draw.Surface{ball(15), glass}, Curves: []draw.Curve{c, d}}
}

// sheet is a flat square of half width h through the origin, spanned by u and v, unshaded.
func sheet(c draw.Color, h float64, at, u, v r3.Vec) draw.Surface {
	corner := func(a, b float64) r3.Vec { return r3.Add(at, r3.Add(r3.Scale(a*h, u), r3.Scale(b*h, v))) }
	return draw.Surface{Color: c, Flat: true, Faces: [][3]int32{{0, 1, 2}, {0, 2, 3}},
		Vertices: []r3.Vec{corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)}}
}

func paintScene(q raster.Quality, cam draw.Camera, s *draw.Scene) func(x, y int) color.RGBA {
	var l draw.List
	l.Reset(200, 200, white)
	l.Solid(draw.Rect{W: 200, H: 200}, cam, s)
	p := &raster.Painter{Quality: q}
	return p.Paint(&l, 1).RGBAAt
}

var (
	ex, ey, ez = r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	fromAbove  = draw.Camera{Elevation: 90, Scale: 10}
)

func near(a color.RGBA, b draw.Color) bool {
	d := func(x, y uint8) bool { return math.Abs(float64(x)-float64(y)) <= 1 }
	return d(a.R, b.R) && d(a.G, b.G) && d(a.B, b.B)
}

// Two sheets that cross along the line x = 0, sloping opposite ways: each must win exactly on its own side.
func TestCrossingSheetsAreCutWhereTheyCross(t *testing.T) {
	for _, order := range [][2]int{{0, 1}, {1, 0}} {
		pair := []draw.Surface{
			sheet(red, 8, r3.Vec{}, r3.Unit(r3.Vec{X: 1, Z: 0.5}), ey),
			sheet(blue, 8, r3.Vec{}, r3.Unit(r3.Vec{X: 1, Z: -0.5}), ey),
		}
		at := paintScene(raster.Moving, fromAbove, &draw.Scene{Surfaces: []draw.Surface{pair[order[0]], pair[order[1]]}})
		for y := 25; y < 175; y++ {
			for x := 35; x < 165; x++ {
				want := blue
				if x >= 100 { // pixel middles right of x = 0 mm, where red is higher
					want = red
				}
				if got := at(x, y); !near(got, want) {
					t.Fatalf("order %v, pixel %d,%d: %v, want %v", order, x, y, got, want)
				}
			}
		}
		if got := at(5, 5); got != (color.RGBA{255, 255, 255, 255}) {
			t.Errorf("outside the sheets %v", got)
		}
	}
}

// Seen from the atrium +z is nearer; from below it is farther.
func TestNearerWins(t *testing.T) {
	s := &draw.Scene{Surfaces: []draw.Surface{sheet(red, 5, r3.Scale(3, ez), ex, ey), sheet(blue, 8, r3.Scale(-3, ez), ex, ey)}}
	at := paintScene(raster.Moving, fromAbove, s)
	if !near(at(100, 100), red) || !near(at(100, 30), blue) {
		t.Errorf("from above: middle %v, rim %v", at(100, 100), at(100, 30))
	}
	below := fromAbove
	below.Elevation = -90
	if at := paintScene(raster.Moving, below, s); !near(at(100, 100), blue) {
		t.Errorf("from below: middle %v", at(100, 100))
	}
}

// A square of 2×8 mm at 10 px/mm must cover 160² pixels without seam or overlap: glass shows any pixel painted twice.
func TestNeighboursLeaveNoSeam(t *testing.T) {
	s := sheet(black, 8, r3.Vec{}, r3.Unit(r3.Vec{X: 1, Y: 0.37}), r3.Unit(r3.Vec{X: -0.37, Y: 1}))
	s.Alpha = 0.5
	at := paintScene(raster.Moving, fromAbove, &draw.Scene{Surfaces: []draw.Surface{s}})
	half, other, count := 0, 0, 0
	for y := range 200 {
		for x := range 200 {
			switch v := at(x, y).R; {
			case v == 127 || v == 128 || v == 126:
				half++
			case v != 255:
				other++
			}
			count++
		}
	}
	if other != 0 || math.Abs(float64(half)-160*160) > 2*160 {
		t.Errorf("%d of %d pixels painted once, %d otherwise; the square is %d", half, count, other, 160*160)
	}
}

func TestGlassShowsWhatIsBehind(t *testing.T) {
	g := sheet(red, 5, r3.Scale(3, ez), ex, ey)
	g.Alpha = 0.5
	// Listed before what lies behind it.
	at := paintScene(raster.Moving, fromAbove, &draw.Scene{Surfaces: []draw.Surface{g, sheet(blue, 8, r3.Vec{}, ex, ey)}})
	if got := at(100, 100); math.Abs(float64(got.R)-128) > 2 || math.Abs(float64(got.B)-127) > 2 || got.G > 1 {
		t.Errorf("red glass over blue: %v", got)
	}
	g.Vertices = sheet(red, 5, r3.Scale(-3, ez), ex, ey).Vertices
	at = paintScene(raster.Moving, fromAbove, &draw.Scene{Surfaces: []draw.Surface{g, sheet(blue, 8, r3.Vec{}, ex, ey)}})
	if got := at(100, 100); !near(got, blue) {
		t.Errorf("glass behind an opaque sheet shows: %v", got)
	}
}

func TestCurvesAreHiddenUnlessOver(t *testing.T) {
	line := func(z float64, over bool) draw.Curve {
		return draw.Curve{Points: []r3.Vec{{X: -9, Z: z}, {X: 9, Z: z}}, Color: red, Width: 4, Over: over}
	}
	for _, c := range []struct {
		name string
		z    float64
		over bool
		want draw.Color
	}{
		{"in front", 2, false, red}, {"on the surface", 0, false, red}, {"behind", -2, false, blue}, {"behind but over all", -2, true, red},
	} {
		s := &draw.Scene{Surfaces: []draw.Surface{sheet(blue, 5, r3.Vec{}, ex, ey)}, Curves: []draw.Curve{line(c.z, c.over)}}
		for _, q := range []raster.Quality{raster.Moving, raster.Still} {
			at := paintScene(q, fromAbove, s)
			if got := at(100, 100); !near(got, c.want) {
				t.Errorf("%s, quality %d: %v, want %v", c.name, q, got, c.want)
			}
			if got := at(20, 100); !near(got, red) {
				t.Errorf("%s, quality %d: beside the sheet %v, want red", c.name, q, got)
			}
			if got := at(20, 105); got != (color.RGBA{255, 255, 255, 255}) {
				t.Errorf("%s, quality %d: wider than 4 px: %v", c.name, q, got)
			}
		}
	}
}

// Orientation (DEVELOPERS.md): +x to the right and +y up, seen from the atrium.
func TestPictureAgreesWithProject(t *testing.T) {
	s := &draw.Scene{Surfaces: []draw.Surface{sheet(red, 1, r3.Vec{X: 6}, ex, ey), sheet(blue, 1, r3.Vec{Y: 6}, ex, ey)}}
	at := paintScene(raster.Still, fromAbove, s)
	r := draw.Rect{W: 200, H: 200}
	for _, c := range []struct {
		p    r3.Vec
		want draw.Color
	}{{r3.Vec{X: 6}, red}, {r3.Vec{Y: 6}, blue}} {
		q, _ := fromAbove.Project(r, c.p)
		if got := at(int(q.X), int(q.Y)); !near(got, c.want) {
			t.Errorf("%v: %v, want %v", c.p, got, c.want)
		}
	}
	if !near(at(160, 100), red) || !near(at(100, 40), blue) {
		t.Error("x is not to the right or y not up")
	}
}

func TestShadingTurnsWithTheSurfaceAndBothSidesShow(t *testing.T) {
	s := ballScene(4000)
	s.Surfaces, s.Curves = s.Surfaces[:1], nil
	at := paintScene(raster.Still, draw.Camera{Elevation: 90, Scale: 6}, s)
	middle, rim, lower := at(100, 100), at(100+86, 100), at(130, 160)
	if middle.R < 180 || rim.R > middle.R-40 || lower.R >= at(80, 60).R {
		t.Errorf("middle %v rim %v lower right %v upper left %v", middle, rim, lower, at(80, 60))
	}
	a := sheet(draw.Color{R: 200, G: 200, B: 200, A: 255}, 8, r3.Vec{}, ex, ey)
	a.Flat, a.BackTint = false, draw.Color{R: 128, G: 255, B: 255, A: 255}
	front := paintScene(raster.Moving, fromAbove, &draw.Scene{Surfaces: []draw.Surface{a}})(100, 100)
	below := fromAbove
	below.Elevation = -90
	back := paintScene(raster.Moving, below, &draw.Scene{Surfaces: []draw.Surface{a}})(100, 100)
	if front.R != front.G || back.G != front.G || math.Abs(float64(back.R)-float64(front.R)*128/255) > 2 {
		t.Errorf("front %v, back %v with the red halved", front, back)
	}
}

func TestThreadsChangeNothing(t *testing.T) {
	var l draw.List
	l.Reset(400, 300, white)
	l.Solid(draw.Rect{X: 10, Y: 5, W: 380, H: 290}, draw.Camera{Azimuth: 20, Elevation: 40, Scale: 8}, ballScene(3000))
	one := &raster.Painter{Quality: raster.Still}
	four := raster.New(4)
	four.Quality = raster.Still
	defer four.Close()
	a := one.Paint(&l, 1.5)
	for range 3 {
		four.Paint(&l, 1)
		if b := four.Paint(&l, 1.5); !bytes.Equal(a.Pix, b.Pix) {
			t.Fatal("four threads paint another picture than one")
		}
	}
}

// An unchanged scene is not painted again, a new version is.
func TestVersionDecides(t *testing.T) {
	s := &draw.Scene{Surfaces: []draw.Surface{sheet(red, 5, r3.Vec{}, ex, ey)}}
	var p raster.Painter
	var l draw.List
	show := func() color.RGBA {
		l.Reset(200, 200, white)
		l.Solid(draw.Rect{W: 200, H: 200}, fromAbove, s)
		return p.Paint(&l, 1).RGBAAt(100, 100)
	}
	show()
	s.Surfaces[0].Color = blue
	if got := show(); !near(got, red) {
		t.Errorf("painted again without a new version: %v", got)
	}
	s.Version++
	if got := show(); !near(got, blue) {
		t.Errorf("new version not painted: %v", got)
	}
}

// A rough picture is the same one with cells of two by two pixels, also where the rectangle's sides are odd.
func TestRoughIsTheSamePictureInLargerCells(t *testing.T) {
	s := ballScene(2000)
	s.Surfaces, s.Curves = s.Surfaces[:1], nil
	paint := func(q raster.Quality) *image.RGBA {
		var l draw.List
		l.Reset(200, 200, white)
		l.Solid(draw.Rect{X: 3, Y: 5, W: 151, H: 173}, draw.Camera{Elevation: 50, Scale: 5}, s)
		return (&raster.Painter{Quality: q}).Paint(&l, 1)
	}
	fine, rough := paint(raster.Moving), paint(raster.Rough)
	off := 0
	for y := range 200 {
		for x := range 200 {
			if rough.RGBAAt(x, y) != rough.RGBAAt(3+(x-3)&^1, 5+(y-5)&^1) && x >= 3 && y >= 5 {
				t.Fatalf("pixel %d,%d differs from its cell", x, y)
			}
			if a, b := fine.RGBAAt(x, y), rough.RGBAAt(x, y); math.Abs(float64(a.R)-float64(b.R)) > 40 {
				off++
			}
		}
	}
	// Only along the outline, 2π·75 px long, may a cell reach a pixel over.
	if off > 2*475 || off == 0 {
		t.Errorf("%d pixels differ", off)
	}
}

func TestBadNumbersInASceneAreLeftOut(t *testing.T) {
	bad := sheet(red, 5, r3.Vec{X: math.NaN()}, ex, ey)
	huge := sheet(red, 1e12, r3.Vec{Z: 5}, ex, ey)
	c := draw.Curve{Points: []r3.Vec{{X: math.NaN()}, {X: math.Inf(1)}, {X: 1e300}, {}}, Color: red, Width: 3, Dash: [2]float64{1, 1}}
	at := paintScene(raster.Still, fromAbove, &draw.Scene{Surfaces: []draw.Surface{bad, huge, sheet(blue, 5, r3.Vec{}, ex, ey)}, Curves: []draw.Curve{c}})
	if got := at(100, 100); !near(got, blue) {
		t.Errorf("middle %v", got)
	}
}

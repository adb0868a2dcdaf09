package figure_test

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"image"
	"image/color"
	"image/gif"
	"image/png"
	"io"
	"strings"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/figure"

	"gonum.org/v1/gonum/spatial/r3"
)

var stamp = figure.Stamp{CaseHash: strings.Repeat("0123456789abcdef", 4), Version: "v0.1.0-test", Caution: figure.Caution,
	Title: "Normal valve", Alt: "Gap ≤ 0.1 mm at A2", Fields: []figure.Field{{Name: "seed", Value: "7"}}}

func list(l *draw.List, x float64) *draw.List {
	l.Reset(400, 200, draw.Color{R: 20, G: 40, B: 60, A: 255})
	l.FillRect(draw.Rect{X: x, Y: 50, W: 60, H: 60}, draw.Color{R: 255, A: 255})
	l.Text("Δ 3.1 mm", 20, 30, 16, false, draw.Start, draw.Color{R: 255, G: 255, B: 255, A: 255})
	l.Solid(draw.Rect{X: 200, Y: 20, W: 150, H: 150}, draw.Camera{Elevation: 90, Scale: 10}, &draw.Scene{Surfaces: []draw.Surface{{
		Flat: true, Color: draw.Color{G: 200, A: 255}, Faces: [][3]int32{{0, 1, 2}}, Vertices: []r3.Vec{{X: -5, Y: -5}, {X: 5, Y: -5}, {Y: 5}}}}})
	return l
}

// chunks reads a PNG's chunks by kind, checking lengths (the reader in image/png checks the sums).
func chunks(t *testing.T, b []byte) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for b = b[8:]; len(b) > 0; {
		n := binary.BigEndian.Uint32(b)
		out[string(b[4:8])] = append(out[string(b[4:8])], string(b[8:8+n]))
		b = b[12+n:]
	}
	return out
}

func TestPNG(t *testing.T) {
	for _, scale := range []float64{1, 2, 4} {
		var b bytes.Buffer
		if err := figure.PNG(&b, list(new(draw.List), 50), stamp, figure.Options{Scale: scale}); err != nil {
			t.Fatal(err)
		}
		m, err := png.Decode(bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		k := int(scale)
		if s := m.Bounds().Size(); s.X != 400*k || s.Y <= 200*k || s.Y > 250*k {
			t.Errorf("scale %v: size %v", scale, s)
		}
		if got := color.RGBAModel.Convert(m.At(80*k, 80*k)); got != (color.RGBA{255, 0, 0, 255}) {
			t.Errorf("scale %v: square %v", scale, got)
		}
		if got := color.RGBAModel.Convert(m.At(275*k, 95*k)); got != (color.RGBA{0, 200, 0, 255}) {
			t.Errorf("scale %v: scene %v", scale, got)
		}
		if ink := stripInk(m, 200*k); ink < 300*k*k {
			t.Errorf("scale %v: only %d bright pixels in the caption strip", scale, ink)
		}
		c := chunks(t, b.Bytes())
		text := strings.Join(append(c["tEXt"], c["iTXt"]...), "\n")
		for _, want := range []string{"annuloscope:case-sha256\x00" + stamp.CaseHash, "Software\x00Annuloscope v0.1.0-test", "annuloscope:seed\x007",
			"Title\x00Normal valve", "Gap ≤ 0.1 mm at A2", "not for diagnosis or treatment planning"} {
			if !strings.Contains(text, want) {
				t.Errorf("scale %v: no %q in the text chunks", scale, want)
			}
		}
	}
}

// stripInk counts bright pixels below y.
func stripInk(m image.Image, y int) int {
	n := 0
	for ; y < m.Bounds().Max.Y; y++ {
		for x := range m.Bounds().Max.X {
			if r, _, _, _ := m.At(x, y).RGBA(); r > 0xC000 {
				n++
			}
		}
	}
	return n
}

func TestTransparentPNG(t *testing.T) {
	var b bytes.Buffer
	if err := figure.PNG(&b, list(new(draw.List), 50), stamp, figure.Options{Transparent: true}); err != nil {
		t.Fatal(err)
	}
	m, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, _, a := m.At(5, 195).RGBA(); a != 0 {
		t.Errorf("background alpha %d", a)
	}
	if got := color.RGBAModel.Convert(m.At(80, 80)); got != (color.RGBA{255, 0, 0, 255}) {
		t.Errorf("square %v", got)
	}
	if got := color.RGBAModel.Convert(m.At(1, m.Bounds().Max.Y-1)); got != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("caption strip %v, want white", got)
	}
}

func TestSameBytesTwice(t *testing.T) {
	for name, write := range map[string]func(io.Writer) error{
		"png": func(w io.Writer) error { return figure.PNG(w, list(new(draw.List), 50), stamp, figure.Options{}) },
		"svg": func(w io.Writer) error { return figure.SVG(w, list(new(draw.List), 50), stamp) },
		"gif": func(w io.Writer) error {
			return figure.GIF(w, 3, func(i int, l *draw.List) { list(l, float64(10*i)) }, 10, stamp, figure.Options{})
		},
		"pdf": func(w io.Writer) error { return figure.PDF(w, handout(3)) },
	} {
		var a bytes.Buffer
		if err := write(&a); err != nil || a.Len() < 500 {
			t.Errorf("%s: %v, %d bytes", name, err, a.Len())
		}
		for range 8 { // often enough to meet an order that is left to chance
			var b bytes.Buffer
			if err := write(&b); err != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
				t.Errorf("%s: %v, %d and %d bytes that differ", name, err, a.Len(), b.Len())
			}
		}
	}
}

func TestStampMustBeComplete(t *testing.T) {
	for _, spoil := range []func(*figure.Stamp){
		func(s *figure.Stamp) { s.Caution = " " }, func(s *figure.Stamp) { s.Version = "" }, func(s *figure.Stamp) { s.CaseHash = "" },
	} {
		s := stamp
		spoil(&s)
		h := handout(1)
		h.Stamp = s
		var b bytes.Buffer
		for name, err := range map[string]error{
			"png": figure.PNG(&b, list(new(draw.List), 0), s, figure.Options{}),
			"svg": figure.SVG(&b, list(new(draw.List), 0), s),
			"gif": figure.GIF(&b, 1, func(i int, l *draw.List) { list(l, 0) }, 10, s, figure.Options{}),
			"pdf": figure.PDF(&b, h),
		} {
			if err == nil || !strings.Contains(err.Error(), "empty") {
				t.Errorf("%s with stamp %+v: error %v", name, s, err)
			}
		}
		if b.Len() > 0 {
			t.Errorf("%d bytes written all the same", b.Len())
		}
	}
	if err := figure.PNG(io.Discard, list(new(draw.List), 0), stamp, figure.Options{Scale: 3}); err == nil {
		t.Error("scale 3 accepted")
	}
}

func TestLongCautionIsWrappedNotCut(t *testing.T) {
	s := stamp
	s.Caution = strings.Repeat("Nur zur Ausbildung und nicht zur Diagnose. ", 4)
	heights := map[bool]int{}
	for _, long := range []bool{false, true} {
		st := stamp
		if long {
			st = s
		}
		var b bytes.Buffer
		if err := figure.PNG(&b, list(new(draw.List), 0), st, figure.Options{}); err != nil {
			t.Fatal(err)
		}
		c, err := png.DecodeConfig(&b)
		if err != nil {
			t.Fatal(err)
		}
		heights[long] = c.Height
	}
	if heights[true] < heights[false]+2*15 {
		t.Errorf("strip for a long caution: figure %d high, %d for a short one", heights[true], heights[false])
	}
	var narrow draw.List
	narrow.Reset(90, 90, draw.Color{A: 255})
	if err := figure.PNG(io.Discard, &narrow, stamp, figure.Options{}); err == nil || !strings.Contains(err.Error(), "90 pixels wide") {
		t.Errorf("narrow figure: %v", err)
	}
}

// comment joins the sub-blocks of a GIF's first comment extension.
func comment(t *testing.T, g []byte) string {
	t.Helper()
	at := bytes.Index(g, []byte{0x21, 0xFE})
	if at < 0 {
		t.Fatal("no comment extension")
	}
	text := ""
	for at += 2; g[at] != 0; at += 1 + int(g[at]) {
		text += string(g[at+1 : at+1+int(g[at])])
	}
	return text
}

func TestGIF(t *testing.T) {
	var b bytes.Buffer
	if err := figure.GIF(&b, 4, func(i int, l *draw.List) { list(l, 20*float64(i)) }, 5, stamp, figure.Options{}); err != nil {
		t.Fatal(err)
	}
	if text := comment(t, b.Bytes()); !strings.Contains(text, "annuloscope:seed: 7") || !strings.Contains(text, stamp.Caution) {
		t.Errorf("comment %q", text)
	}
	g, err := gif.DecodeAll(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if len(g.Image) != 4 || g.LoopCount != 0 || g.Delay[3] != 5 {
		t.Fatalf("%d frames, loop %d, delays %v", len(g.Image), g.LoopCount, g.Delay)
	}
	canvas := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
	for i, f := range g.Image {
		for y := f.Rect.Min.Y; y < f.Rect.Max.Y; y++ {
			for x := f.Rect.Min.X; x < f.Rect.Max.X; x++ {
				canvas.Set(x, y, f.At(x, y))
			}
		}
		// The square runs from 20i to 20i+60.
		in, out := canvas.RGBAAt(20*i+30, 80), canvas.RGBAAt(20*i+64, 80)
		if in.R < 240 || in.G > 12 || out.R > 40 {
			t.Errorf("frame %d: inside %v, outside %v", i, in, out)
		}
	}
	if box := g.Image[1].Rect; box.Dx() > 100 || box.Dy() > 70 {
		t.Errorf("the second frame holds %v, more than what changed", box)
	}
}

func TestSVGIsWellFormedAndHoldsItsProvenance(t *testing.T) {
	var b bytes.Buffer
	l := list(new(draw.List), 50)
	l.Text("a < b & \x01c", 10, 180, 12, true, draw.End, draw.Color{A: 255})
	l.PushClip(draw.Rect{W: 10, H: 10}) // left open on purpose
	if err := figure.SVG(&b, l, stamp); err != nil {
		t.Fatal(err)
	}
	s := b.String()
	for d := xml.NewDecoder(strings.NewReader(s)); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	for _, want := range []string{"<title id=\"title\">Normal valve</title>", "Gap ≤ 0.1 mm at A2</desc>", stamp.CaseHash,
		"not for diagnosis or treatment planning</text>", "a &lt; b &amp; \uFFFDc", "data:image/png;base64,", "Δ 3.1 mm</text>"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, bad := range []string{"<style", "filter", "var(", "<script", "NaN"} {
		if strings.Contains(s, bad) {
			t.Errorf("holds %q", bad)
		}
	}
}

func handout(rows int) *figure.Handout {
	h := &figure.Handout{Title: "Functional leak, sinus band", Subtitle: "Before and after", Stamp: stamp,
		Columns:  []string{"Measure", "Before", "After", "Change"},
		Pictures: []figure.Picture{{List: list(new(draw.List), 0), Caption: "From the atrium"}, {List: list(new(draw.List), 90), Caption: "Cut through A2–P2"}},
		Sections: []figure.Section{{Heading: "Assumptions", Text: strings.Repeat("Sections coupled along the margin. ", 12)}}}
	for range rows {
		h.Rows = append(h.Rows, []string{"Septal-lateral diameter, mm", "37.0", "33.1", "−3.9 ▼"})
	}
	return h
}

func TestPDF(t *testing.T) {
	var b bytes.Buffer
	if err := figure.PDF(&b, handout(12)); err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(b.Bytes(), []byte("%PDF-")) || bytes.Count(b.Bytes(), []byte("/Type /Page\n")) != 1 {
		t.Errorf("%d pages, beginning %q", bytes.Count(b.Bytes(), []byte("/Type /Page\n")), b.Bytes()[:8])
	}
	if err := figure.PDF(io.Discard, handout(90)); err == nil || !strings.Contains(err.Error(), "too long for one page") {
		t.Errorf("90 rows: %v", err)
	}
	h := handout(1)
	h.Rows[0] = h.Rows[0][:2]
	if err := figure.PDF(io.Discard, h); err == nil || !strings.Contains(err.Error(), "2 cells") {
		t.Errorf("short row: %v", err)
	}
}

package gallery_test

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"image/gif"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf16"

	"annuloscope/assets"
	"annuloscope/scenes/present/gallery"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// remembered is the real engine, which answers a case it has met before from memory: many tests show the same few states.
type remembered struct{}

var (
	memory  sync.Map // of casefile.Hash to valve.Report, read only
	solving sync.Mutex
	quick   = valve.NewSolver() // the quick tier is enough here, warm from case to case
)

func (remembered) Solve(c casefile.Case) (valve.Report, error) {
	key := casefile.Hash(c)
	if r, ok := memory.Load(key); ok {
		return r.(valve.Report), nil
	}
	solving.Lock()
	defer solving.Unlock()
	r, err := quick.Solve(c, valve.Options{Warm: true})
	if err == nil {
		memory.Store(key, r)
	}
	return r, err
}

func beside() study.Runner { return study.NewSync(remembered{}) }

// treated is the functional leak with band and clip, and two plans, solved once for all tests.
var treated = sync.OnceValues(func() (*study.Study, error) {
	data, err := assets.Cases.ReadFile("cases/functional.yaml")
	if err != nil {
		return nil, err
	}
	c, err := casefile.Decode(data)
	if err != nil {
		return nil, err
	}
	c.Repairs = []repair.Step{repair.Must(repair.SinusBand), repair.Must(repair.EdgeClip)}
	s := study.New(study.NewSync(study.NewSolver()), c)
	s.Settle()
	for _, p := range study.Suggested(c, func(kinds ...repair.Kind) string {
		return string(kinds[len(kinds)-1]) + strings.Repeat("+", len(kinds)-1)
	}) {
		if err := s.AddPlan(p); err != nil {
			return nil, err
		}
	}
	return s, s.Failure
})

func open(t *testing.T, settings study.Settings) *gallery.Gallery {
	t.Helper()
	s, err := treated()
	if err != nil {
		t.Fatal(err)
	}
	return gallery.New(s.Snapshot(beside()), study.DefaultView(), settings, beside)
}

// produce runs a job to its end and returns the file; the slowest step is reported.
func produce(t *testing.T, g *gallery.Gallery, o gallery.Order) (string, []byte) {
	t.Helper()
	j, err := g.Start(o)
	if err != nil {
		t.Fatal(err)
	}
	slowest, steps := time.Duration(0), 0
	for done := false; !done; steps++ {
		from := time.Now()
		done = j.Step()
		slowest = max(slowest, time.Since(from))
		if steps > 5000 {
			t.Fatalf("%+v does not end, at %s %d of %d", o, j.Stage, j.Done, j.Total)
		}
	}
	name, data, err := j.Result()
	if err != nil {
		t.Fatalf("%+v: %v", o, err)
	}
	t.Logf("%s: %d bytes in %d steps, the slowest %v", name, len(data), steps, slowest.Round(time.Millisecond))
	if dir := os.Getenv("PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return name, data
}

// small are sizes for the figures that take long to paint.
var small = map[string][2]float64{gallery.Valve: {320, 240}, gallery.Compare: {640, 480}}

// Every figure, small or as ordered, says where it comes from and that it is for teaching only; every drawing of a flat
// figure holds no picture.
func TestEveryDrawing(t *testing.T) {
	for _, kind := range gallery.What(gallery.SVG) {
		if kind == gallery.Screen {
			continue
		}
		_, data := produce(t, open(t, study.DefaultSettings()), gallery.Order{What: kind, Format: gallery.SVG, Width: small[kind][0], Height: small[kind][1]})
		text := string(data)
		for d := xml.NewDecoder(strings.NewReader(text)); ; {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", kind, err)
			}
		}
		for _, want := range []string{"Educational only", "annuloscope:case-sha256", "annuloscope:repair-1", "annuloscope:converged\">yes", "<desc id=\"desc\">Invented functional leak"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in the drawing", kind, want)
			}
		}
		if flat := kind != gallery.Valve && kind != gallery.Compare; flat == strings.Contains(text, "<image") {
			t.Errorf("%s: holds a picture: %v", kind, !flat)
		}
		if strings.Count(text, "<path") < 10 {
			t.Errorf("%s: only %d lines and areas", kind, strings.Count(text, "<path"))
		}
	}
}

func TestPicturesInEverySize(t *testing.T) {
	const w, h = 240.0, 180.0
	for _, scale := range []float64{1, 2, 4} {
		_, data := produce(t, open(t, study.DefaultSettings()), gallery.Order{What: gallery.Orifices, Format: gallery.PNG, Scale: scale, Transparent: scale == 2, Width: w, Height: h})
		m, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if s := m.Bounds().Size(); s.X != int(w*scale) || s.Y < int(h*scale) {
			t.Errorf("scale %v: %v", scale, s)
		}
		if _, _, _, a := m.At(3, 3).RGBA(); (a == 0) != (scale == 2) {
			t.Errorf("scale %v: alpha %d in the corner", scale, a)
		}
		for _, want := range []string{"Educational only", "annuloscope:repair-2", "annuloscope:view"} {
			if !bytes.Contains(data, []byte(want)) {
				t.Errorf("scale %v: no %q", scale, want)
			}
		}
	}
}

func TestFilmOfTheBeat(t *testing.T) {
	_, data := produce(t, open(t, study.DefaultSettings()), gallery.Order{What: gallery.Valve, Format: gallery.GIF, Width: 480, Height: 360, Frames: 6})
	m, err := gif.DecodeAll(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Image) != 6 || m.LoopCount != 0 || m.Delay[0] < 2 {
		t.Errorf("%d frames, loop %d, delay %v", len(m.Image), m.LoopCount, m.Delay)
	}
	moved := 0
	for _, f := range m.Image[1:] {
		if f.Rect.Dx() > 50 {
			moved++
		}
	}
	if moved < 2 {
		t.Errorf("only %d frames show the leaflets in another place", moved)
	}
	for _, want := range []string{"Educational only", "annuloscope:movement: one beat in 6 frames"} {
		if !bytes.Contains(data, []byte(want)) {
			t.Errorf("no %q in the film", want)
		}
	}
}

func TestFramesOfASweep(t *testing.T) {
	g := open(t, study.DefaultSettings())
	_, data := produce(t, g, gallery.Order{What: gallery.Cut, Format: gallery.ZIP, Width: 480, Height: 360, Frames: 3, Knob: "repair/sinus-band/shortening_mm", From: 0, To: 20})
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var pictures [][]byte
	about := ""
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(f.Name, ".png") {
			if _, err := png.Decode(bytes.NewReader(b)); err != nil {
				t.Error(err)
			}
			pictures = append(pictures, b)
		} else {
			about += string(b)
		}
	}
	if len(pictures) != 3 || bytes.Equal(pictures[0], pictures[2]) || z.File[0].Name != "frame-0001.png" {
		t.Errorf("%d pictures, the first called %s", len(pictures), z.File[0].Name)
	}
	for _, want := range []string{"Educational only", "repair/sinus-band/shortening_mm from 0 to 20 mm in 3 frames, each solved", "case-sha256"} {
		if !strings.Contains(about, want) {
			t.Errorf("about.txt lacks %q:\n%s", want, about)
		}
	}
	if k, _ := g.Study().Knob("repair/sinus-band/shortening_mm"); k.Value != 20 {
		t.Errorf("the last frame has %v", k.Value)
	}
}

func TestHandouts(t *testing.T) {
	for _, lang := range []string{"en", "de"} {
		for _, kind := range gallery.What(gallery.PDF) {
			if (lang == "de") != (kind == gallery.Valve) && os.Getenv("PICTURES") == "" {
				continue // each page once, each language once
			}
			settings := study.DefaultSettings()
			settings.Language, settings.Theme = lang, "dark"
			name, data := produce(t, open(t, settings), gallery.Order{What: kind, Format: gallery.PDF})
			if n := bytes.Count(data, []byte("/Type /Page\n")); n != 1 {
				t.Errorf("%s in %s: %d pages", name, lang, n)
			}
			wants := []string{"annuloscope:case-sha256=", "annuloscope:converged=yes", map[string]string{"en": "Educational only", "de": "Nur zur Lehre"}[lang]}
			if kind == gallery.Compare {
				wants = append(wants, "annuloscope:plan-3=edge-clip+: sinus-band")
			}
			for _, want := range wants {
				if !bytes.Contains(data, wide(want)) {
					t.Errorf("%s in %s: no %q in the document's keywords", name, lang, want)
				}
			}
			if dir := os.Getenv("PICTURES"); dir != "" {
				if err := os.Rename(filepath.Join(dir, name), filepath.Join(dir, lang+"-"+name)); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}

// wide is a text as a PDF's information dictionary holds it: UTF-16, high byte first (ISO 32000-1, 7.9.2.2).
func wide(s string) []byte {
	var b []byte
	for _, u := range utf16.Encode([]rune(s)) {
		b = append(b, byte(u>>8), byte(u))
	}
	return b
}

func TestOrdersThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		o    gallery.Order
		says string
	}{
		{gallery.Order{What: "valves", Format: "png"}, "cannot show"},
		{gallery.Order{What: gallery.Valve, Format: "bmp"}, "format"},
		{gallery.Order{What: gallery.Valve, Format: "png", Scale: 3}, "scale"},
		{gallery.Order{What: gallery.Waves, Format: "gif"}, "cannot show"},
		{gallery.Order{What: gallery.Cut, Format: "gif"}, "does not move"},
		{gallery.Order{What: gallery.Compare, Format: "gif", Knob: "repair/sinus-band/shortening_mm"}, "only show the beat"},
		{gallery.Order{What: gallery.Valve, Format: "gif", Frames: 1000}, "frames"},
		{gallery.Order{What: gallery.Valve, Format: "svg", Transparent: true}, "background"},
		{gallery.Order{What: gallery.Screen, Format: "png"}, "screen"},
		{gallery.Order{What: gallery.Valve, Format: "gif", Knob: "repair/no/such"}, "no number"},
		{gallery.Order{What: gallery.Valve, Format: "gif", Knob: "repair/sinus-band/shortening_mm", From: 0, To: 900}, "0 to 40"},
	} {
		if _, err := open(t, study.DefaultSettings()).Start(c.o); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v, want %q", c.o, err, c.says)
		}
	}
}

// Imported geometry carries its mark on every figure and in the caution.
func TestImportedGeometryIsMarked(t *testing.T) {
	s, err := treated()
	if err != nil {
		t.Fatal(err)
	}
	c := s.Case.Clone()
	c.Patient.Imported = true
	q := study.New(beside(), c)
	q.Settle()
	mark := words.For(words.English).T("imported.mark")
	for _, o := range []gallery.Order{{What: gallery.Cut, Format: gallery.SVG}, {What: gallery.Valve, Format: gallery.SVG, Width: 320, Height: 240},
		{What: gallery.Orifices, Format: gallery.SVG}, {What: gallery.Compare, Format: gallery.SVG, Width: 640, Height: 480}} {
		_, data := produce(t, gallery.New(q.Snapshot(beside()), study.DefaultView(), study.DefaultSettings(), beside), o)
		drawn := 0
		for _, part := range strings.Split(string(data), "<text")[1:] {
			if strings.Contains(part, ">"+mark+"<") {
				drawn++
			}
		}
		if drawn < 2 || !strings.Contains(string(data), mark+":") {
			t.Errorf("%s: the mark is drawn %d times", o.What, drawn)
		}
	}
}

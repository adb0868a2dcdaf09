package font_test

import (
	"math"
	"testing"

	assets "annuloscope/assets/font"
	"annuloscope/scenes/present/font"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The oracle is golang.org/x/image/font's reader of advances and pairs, which shares only the font file with Measure's
// tables of pairs. (Its ready-made face is no oracle for kerning: at v0.47.0 opentype.Face.Kern answers in font units
// divided by 64.)
func TestWidthAgreesWithTheFontReader(t *testing.T) {
	for _, bold := range []bool{false, true} {
		data := assets.TextRegular
		if bold {
			data = assets.TextBold
		}
		f, err := opentype.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		const size = 512 // large, so that the drawer's 1/64 roundings do not matter
		face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range []string{"", "i", "Coaptation", "AV. To We, P.", "Größe 12.5 mm ± 0.3", "Δφ µm"} {
			var want float64
			before := sfnt.GlyphIndex(0)
			for _, r := range s {
				a, _ := face.GlyphAdvance(r)
				g, _ := f.GlyphIndex(nil, r)
				if before != 0 {
					k, err := f.Kern(nil, before, g, fixed.I(size), xfont.HintingNone)
					if err != nil {
						t.Fatal(err)
					}
					want += float64(k) / 64
				}
				want += float64(a) / 64
				before = g
			}
			got, _, _ := font.Measure(s, size, bold)
			if math.Abs(got-want) > 0.05*float64(len(s)+1) {
				t.Errorf("bold %v %q: width %.3f, reader says %.3f", bold, s, got, want)
			}
		}
		m := face.Metrics()
		_, a, d := font.Measure("x", size, bold)
		if math.Abs(a-float64(m.Ascent)/64) > 0.6 || math.Abs(d-float64(m.Descent)/64) > 0.6 {
			t.Errorf("bold %v: ascent %v descent %v, font says %v %v", bold, a, d, m.Ascent, m.Descent)
		}
	}
}

func TestKerningIsApplied(t *testing.T) {
	if pair, apart := font.Width("AV", 100, false), font.Width("A", 100, false)+font.Width("V", 100, false); pair >= apart-1 {
		t.Errorf("AV is %.2f wide, A and V apart %.2f: no kerning", pair, apart)
	}
}

func TestEveryCharacterOfTheInterfaceHasAGlyph(t *testing.T) {
	for _, r := range "AZaz09äöüÄÖÜßéñžŁ°²³½¼µ±×÷–—‘’“”„…•·≤≥≠≈→←↑↓↔Δ∂∑∫√∞▲▼◀▶△▽✓✗✔✘₀₁₂₉⁰⁴ⁿ₊₋αβγδεφλπσω€™⚠●○■□◆▮★☐☑" {
		if !font.Has(r) {
			t.Errorf("no glyph for %q (U+%04X)", r, r)
		}
	}
	if font.Has('漢') {
		t.Error("a character outside the fonts is said to be there")
	}
	if w := font.Width("漢", 10, false); w <= 0 {
		t.Error("an unknown character shows nothing")
	}
	if w := font.Width("\u200b\ufe0f", 10, false); w != 0 {
		t.Errorf("invisible characters are %v wide", w)
	}
}

func TestFit(t *testing.T) {
	s := "Größe des Spalts"
	for _, w := range []float64{0, 10, 33, 57, 1e3} {
		cut := font.Fit(s, 12, w, false)
		if got := font.Width(cut, 12, false); got > w {
			t.Errorf("width %v: %q is %v wide", w, cut, got)
		}
		if len(cut) < len(s) {
			if next := s[:len(cut)+len(string([]rune(s[len(cut):])[0]))]; font.Width(next, 12, false) <= w {
				t.Errorf("width %v: %q would fit too", w, next)
			}
		}
	}
}

func TestMeasureAllocatesNothing(t *testing.T) {
	font.Width("warm", 12, false)
	if n := testing.AllocsPerRun(50, func() { font.Measure("Septal-lateral 31.4 mm → 28.0", 13, true) }); n > 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkMeasure(b *testing.B) {
	for b.Loop() {
		font.Measure("Septal-lateral diameter 31.4 mm", 13, false)
	}
}

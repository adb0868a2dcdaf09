package font

import (
	"sync"

	assets "annuloscope/assets/font"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The sources of a glyph, the index that Source takes.
const (
	Regular = iota
	Bold
	Symbols
	sources
)

// Glyph is one glyph of one source font.
type Glyph struct {
	Source  uint8
	Index   uint16
	Advance float32 // in ems; zero for a character that shows nothing and takes no room
}

// Line metrics of the text font in ems (its hhea table); a test compares them with the font.
const (
	ascentEm  = 0.905
	descentEm = 0.212
)

// The runes the dense tables cover: everything the embedded fonts hold lies in these two ranges.
const (
	low0, low1   = 0x20, 0x400
	high0, high1 = 0x2000, 0x2C00
)

// replacement stands for a character that no font has.
const replacement = 0xFFFD

type tables struct {
	fonts   [sources]*sfnt.Font
	low     [2][low1 - low0]Glyph // by weight
	high    [2][high1 - high0]Glyph
	missing Glyph
	kern    [2]map[uint32]float32 // ems, by left<<16 | right
}

// load builds the tables once; they are constant afterwards.
var load = sync.OnceValue(func() *tables {
	t := &tables{}
	files := [sources][]byte{assets.TextRegular, assets.TextBold, assets.Symbols}
	for i, data := range files {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic("font: embedded font " + err.Error())
		}
		t.fonts[i] = f
	}
	var buf sfnt.Buffer
	t.missing, _ = t.find(&buf, Symbols, replacement)
	for w := range 2 {
		for i := range t.low[w] {
			t.low[w][i] = t.resolve(&buf, w, rune(low0+i))
		}
		for i := range t.high[w] {
			t.high[w][i] = t.resolve(&buf, w, rune(high0+i))
		}
		t.kern[w] = kernPairs(files[w], int(t.fonts[w].UnitsPerEm()))
	}
	return t
})

// find looks for r in one source.
func (t *tables) find(buf *sfnt.Buffer, source int, r rune) (Glyph, bool) {
	f := t.fonts[source]
	index, err := f.GlyphIndex(buf, r)
	if err != nil || index == 0 {
		return Glyph{}, false
	}
	em := fixed.I(int(f.UnitsPerEm()))
	a, err := f.GlyphAdvance(buf, index, em, font.HintingNone)
	if err != nil {
		return Glyph{}, false
	}
	return Glyph{Source: uint8(source), Index: uint16(index), Advance: float32(a) / float32(em)}, true
}

func (t *tables) resolve(buf *sfnt.Buffer, weight int, r rune) Glyph {
	if invisible(r) {
		return Glyph{}
	}
	if g, ok := t.find(buf, weight, r); ok {
		return g
	}
	if g, ok := t.find(buf, Symbols, r); ok {
		return g
	}
	return t.missing
}

// invisible tells the characters that neither show nor take room: controls, joiners, variation selectors.
func invisible(r rune) bool {
	return r < 0x20 || r >= 0x7F && r < 0xA0 || r == 0xAD || r >= 0x200B && r <= 0x200F || r >= 0xFE00 && r <= 0xFE0F
}

func weight(bold bool) int {
	if bold {
		return Bold
	}
	return Regular
}

func (t *tables) glyph(r rune, w int) Glyph {
	switch {
	case r >= low0 && r < low1:
		return t.low[w][r-low0]
	case r >= high0 && r < high1:
		return t.high[w][r-high0]
	case invisible(r):
		return Glyph{}
	}
	return t.missing
}

// Source returns one of the parsed fonts (Regular, Bold or Symbols), for reading outlines. It must not be changed.
func Source(i int) *sfnt.Font { return load().fonts[i] }

// Has tells whether some embedded font holds r.
func Has(r rune) bool { return load().glyph(r, Regular) != load().missing || r == replacement }

package font

// Measure returns the width of one line of text and how far the face reaches above and below the baseline, in the
// unit of size. Ascent and descent are those of the face, not of the letters in text, so lines align.
func Measure(text string, size float64, bold bool) (width, ascent, descent float64) {
	return Width(text, size, bold), ascentEm * size, descentEm * size
}

// Width returns the width of one line of text in the unit of size.
func Width(text string, size float64, bold bool) float64 {
	it := Walk(text, bold)
	for it.Next() {
	}
	return it.Pen() * size
}

// Iterator steps through the glyphs of a text; see Walk.
type Iterator struct {
	text   string
	t      *tables
	weight int
	at     int
	pen    float64 // ems, after the current glyph
	start  float64 // ems, of the current glyph
	glyph  Glyph
	began  bool
}

// Walk starts at the beginning of text. Call Next before the first Glyph. It allocates nothing.
func Walk(text string, bold bool) Iterator {
	return Iterator{text: text, t: load(), weight: weight(bold)}
}

// Next moves to the next visible glyph and tells whether there is one.
func (it *Iterator) Next() bool {
	for it.at < len(it.text) {
		r, n := decode(it.text[it.at:])
		it.at += n
		g := it.t.glyph(r, it.weight)
		if g.Advance == 0 {
			continue
		}
		if it.began && it.glyph.Source == g.Source && g.Source != Symbols {
			it.pen += float64(it.t.kern[g.Source][uint32(it.glyph.Index)<<16|uint32(g.Index)])
		}
		it.began, it.start, it.glyph = true, it.pen, g
		it.pen += float64(g.Advance)
		return true
	}
	return false
}

// Glyph returns the current glyph and where it starts, in ems from the start of the text.
func (it *Iterator) Glyph() (Glyph, float64) { return it.glyph, it.start }

// Pen returns where the next glyph would start without kerning, in ems; at the end, the width of the text.
func (it *Iterator) Pen() float64 { return it.pen }

// Offset returns the byte offset in the text just after the current glyph.
func (it *Iterator) Offset() int { return it.at }

// Fit returns the longest beginning of text, cut between characters, that is no wider than width.
func Fit(text string, size, width float64, bold bool) string {
	it := Walk(text, bold)
	end := 0
	for it.Next() {
		if it.Pen()*size > width {
			return text[:end]
		}
		end = it.Offset()
	}
	return text
}

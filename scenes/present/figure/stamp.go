package figure

import (
	"fmt"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/font"
)

// Caution is the line that every figure carries, in English.
const Caution = "Educational only – not for diagnosis or treatment planning"

// Field is one further line of provenance, such as seed, grid, tolerance or residual.
type Field struct{ Name, Value string }

// Stamp says where a figure comes from. CaseHash, Version and Caution must not be empty.
type Stamp struct {
	CaseHash string // SHA-256 of the case; the strip shows its first twelve characters
	Version  string
	Caution  string // Caution, or its translation
	Title    string
	Alt      string // the state told in words: description and alternative text
	Fields   []Field
}

// Validate tells what is missing.
func (s Stamp) Validate() error {
	for _, f := range []Field{{"CaseHash", s.CaseHash}, {"Version", s.Version}, {"Caution", s.Caution}} {
		if strings.TrimSpace(f.Value) == "" {
			return fmt.Errorf("figure: the stamp's %s is empty; every figure must carry it", f.Name)
		}
	}
	return nil
}

// all returns the whole provenance as name and value, in order. Names are those that the PNG specification gives
// (section 11.3.3.1) where one fits.
func (s Stamp) all() []Field {
	out := []Field{{"Title", s.Title}, {"Description", s.Alt}, {"Disclaimer", s.Caution},
		{"Software", "Annuloscope " + s.Version}, {"annuloscope:case-sha256", s.CaseHash}}
	for _, f := range s.Fields {
		out = append(out, Field{"annuloscope:" + f.Name, f.Value})
	}
	kept := out[:0]
	for _, f := range out {
		if f.Value != "" {
			kept = append(kept, f)
		}
	}
	return kept
}

// Sizes of the caption strip, logical pixels. Chosen: readable on a slide at the figure's own size.
const (
	stripText   = 11.0
	stripLine   = 15.0
	stripMargin = 8.0
	leastWidth  = 200.0 // a strip in a narrower figure would be a column of single words
)

// stamped returns the list with the caption strip below it.
func stamped(l *draw.List, s Stamp) (*draw.List, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if l.Width < leastWidth {
		return nil, fmt.Errorf("figure: %g pixels wide is too narrow for the caption; use at least %g", l.Width, leastWidth)
	}
	hash := s.CaseHash
	if len(hash) > 12 {
		hash = hash[:12]
	}
	lines := wrap(s.Caution, l.Width-2*stripMargin)
	source := "case " + hash + " · Annuloscope " + s.Version
	beside := len(lines) == 1 && font.Width(s.Caution, stripText, true)+font.Width(source, stripText, false)+4*stripMargin < l.Width
	if !beside {
		lines = append(lines, wrap(source, l.Width-2*stripMargin)...)
	}
	high := stripMargin + stripLine*float64(len(lines))
	out := &draw.List{}
	out.Reset(l.Width, l.Height+high, l.Background)
	out.Title = l.Title
	out.Ops = append(out.Ops, l.Ops...)
	for n := unbalanced(l.Ops); n > 0; n-- {
		out.PopClip()
	}
	back, ink := stripColours(l.Background)
	out.FillRect(draw.Rect{Y: l.Height, W: l.Width, H: high}, back)
	out.Line(ink, 1, draw.Point{X: 0, Y: l.Height + 0.5}, draw.Point{X: l.Width, Y: l.Height + 0.5})
	for i, line := range lines {
		out.Text(line, stripMargin, l.Height+stripMargin/2+stripLine*(float64(i)+0.78), stripText, i == 0, draw.Start, ink)
	}
	if beside {
		out.Text(source, l.Width-stripMargin, l.Height+stripMargin/2+stripLine*0.78, stripText, false, draw.End, ink)
	}
	return out, nil
}

// stripColours keeps to the figure's own background; on a transparent one the strip is white, to stay readable
// wherever the figure is laid.
func stripColours(b draw.Color) (back, ink draw.Color) {
	if b.A < 255 {
		b = draw.Color{R: 255, G: 255, B: 255, A: 255}
	}
	if 3*int(b.R)+6*int(b.G)+int(b.B) > 1200 {
		return b, draw.Color{A: 255}
	}
	return b, draw.Color{R: 255, G: 255, B: 255, A: 255}
}

// unbalanced counts clips that are still in force at the end.
func unbalanced(ops []draw.Op) int {
	n := 0
	for i := range ops {
		switch ops[i].Kind {
		case draw.KindPushClip:
			n++
		case draw.KindPopClip:
			n = max(0, n-1)
		}
	}
	return n
}

// wrap breaks a text between words into lines no wider than width; a longer word is broken within.
func wrap(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if next := strings.TrimSpace(line + " " + word); font.Width(next, stripText, true) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for font.Width(word, stripText, true) > width {
			head := font.Fit(word, stripText, width, true)
			lines = append(lines, head)
			word = word[len(head):]
		}
		line = word
	}
	return append(lines, line)
}

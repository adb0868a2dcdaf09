package lesson

import (
	"math"
	"regexp"
	"sort"
	"strconv"
	"strings"

	"annuloscope/scenes/present/words"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/valve"
)

// Text is words with gaps that the model fills: {{EXPRESSION | DECIMALS UNIT}}. Decimals and unit may be left out: they
// are then those of the quantity. The unit "bare" leaves it away.
type Text struct{ parts []part }

type part struct {
	text     string
	gap      *node
	decimals int // -1: those of the quantity
	unit     string
}

// Block is one piece of a section.
type Block struct {
	Kind Kind
	Text Text
}

// Kind says what a block is.
type Kind uint8

// The kinds of block.
const (
	Paragraph Kind = iota
	Key            // a paragraph wholly between ** and **: the sentence to remember
	Bullet
	Heading
)

// Section is the text of one part of a lesson.
type Section struct {
	Blocks       []Block
	line, column int
}

// Fill returns the text with its gaps filled; a gap whose plan is not solved is three dots.
func (t Text) Fill(w *words.Words, res Results) string {
	var b strings.Builder
	for _, p := range t.parts {
		if p.gap == nil {
			b.WriteString(p.text)
			continue
		}
		v, ok := p.gap.eval(res)
		if !ok {
			b.WriteString("…")
			continue
		}
		b.WriteString(p.show(w, v))
	}
	if w.Lang == words.Double {
		return w.Table("", b.String())
	}
	return b.String()
}

func (p part) show(w *words.Words, v Value) string {
	if v.isWord {
		return Word(w, v.Word)
	}
	decimals, unit := v.Decimals, v.Unit
	if p.decimals >= 0 {
		decimals = p.decimals
	}
	if p.unit != "" {
		unit = p.unit
	}
	if unit == "bare" {
		unit = "1"
	}
	return w.With(v.Num, decimals, unit)
}

// Word says a fact's word in a language.
func Word(w *words.Words, word string) string {
	if key := "lesson.word." + word; w.Has(key) {
		return w.T(key)
	}
	return strings.ReplaceAll(word, "_", " ")
}

// Bare tells whether a text has no gap.
func (t Text) Bare() bool {
	for _, p := range t.parts {
		if p.gap != nil {
			return false
		}
	}
	return true
}

func (t *Text) literal(s string) {
	if s != "" {
		t.parts = append(t.parts, part{text: tie(s)})
	}
}

var unitAfter = regexp.MustCompile(`([0-9]) (%|mm|cm²|mmHg|N|mL)\b|([0-9]) (%|cm²)`)

// tie joins numbers to their units, so that no line ends between them.
func tie(s string) string {
	return unitAfter.ReplaceAllString(s, "$1$3\u00a0$2$4")
}

// readText reads a line or a scalar: text with gaps. place gives line and column of an offset.
func (f *faults) readText(s string, place func(int) (int, int)) Text {
	var t Text
	at := 0
	for {
		i := strings.Index(s[at:], "{{")
		if i < 0 {
			f.markup(s[at:], at, place)
			t.literal(s[at:])
			return t
		}
		i += at
		j := strings.Index(s[i:], "}}")
		if next := strings.Index(s[i+2:], "{{"); j < 0 || next >= 0 && next+2 < j {
			line, column := place(i)
			f.add(line, column, "text", s[i:], "a gap is not closed", "{{ … }} on one line", "write }}")
			return t
		}
		j += i
		f.markup(s[at:i], at, place)
		t.literal(s[at:i])
		t.parts = append(t.parts, f.readGap(s[i+2:j], i+2, place))
		at = j + 2
	}
}

const mostDecimals = 4

func (f *faults) readGap(s string, from int, place func(int) (int, int)) part {
	expr, format, _ := strings.Cut(s, "|")
	p := newParser(expr, f, func(o int) (int, int) { return place(from + o) })
	g := part{decimals: -1, gap: p.value()}
	formats := strings.Fields(format)
	if len(formats) > 2 {
		line, column := place(from + len(expr) + 1)
		f.add(line, column, "text", format, "too much after the |", "decimals and a unit", "write for example | 1 mm")
	}
	for _, word := range formats {
		if n, err := strconv.Atoi(word); err == nil {
			if n < 0 || n > mostDecimals {
				line, column := place(from + len(expr) + 1)
				f.add(line, column, "text", word, "too many decimals", "0 to 4", "write fewer")
				n = 0
			}
			g.decimals = n
		} else {
			g.unit = word
		}
	}
	return g
}

// markup refuses what the pages cannot show.
func (f *faults) markup(s string, from int, place func(int) (int, int)) {
	for _, m := range []string{"**", "](", "`", "<", "}}"} {
		if i := strings.Index(s, m); i >= 0 {
			line, column := place(from + i)
			f.add(line, column, "text", m, "this markup is not shown", "plain paragraphs, lists with -, headings with ###, a whole paragraph in ** **", "write plain words")
		}
	}
}

// readSections reads the body of a lesson: the lines after the front matter, the first of which has the number first.
func (f *faults) readSections(lines []string, first int) map[string]Section {
	out := map[string]Section{}
	var name string
	var sec Section
	open := false // the last block goes on
	store := func() {
		if name != "" {
			out[name] = sec
		}
	}
	for i, raw := range lines {
		line := first + i
		text := strings.TrimRight(raw, " \t\r")
		trimmed := strings.TrimLeft(text, " \t")
		indent := len(text) - len(trimmed)
		at := func(skip int) func(int) (int, int) {
			return func(o int) (int, int) { return line, indent + skip + o + 1 }
		}
		switch {
		case trimmed == "":
			open = false
		case strings.HasPrefix(text, "## "):
			store()
			name, sec, open = strings.ToLower(strings.TrimSpace(text[3:])), Section{line: line, column: 4}, false
			if !known(sections, name) {
				f.add(line, 4, "section", name, "no such section", list(sections), "did you mean "+nearest(name, sections)+"?")
			} else if _, twice := out[name]; twice {
				f.add(line, 4, "section", name, "given twice", "once", "join the two")
			}
		case name == "":
			f.add(line, indent+1, "text", trimmed, "text before the first section", "## "+sections[0], "put a section heading over it")
			return out
		case strings.HasPrefix(trimmed, "### "):
			sec.Blocks = append(sec.Blocks, Block{Heading, f.readText(trimmed[4:], at(4))})
			open = false
		case strings.HasPrefix(trimmed, "#"):
			f.add(line, indent+1, "text", trimmed, "this heading is not used", "## for a section, ### within one", "use ###")
		case strings.HasPrefix(trimmed, "- "):
			sec.Blocks = append(sec.Blocks, Block{Bullet, f.readText(trimmed[2:], at(2))})
			open = true
		case !open && strings.HasPrefix(trimmed, "**") && strings.HasSuffix(trimmed, "**") && len(trimmed) > 4:
			sec.Blocks = append(sec.Blocks, Block{Key, f.readText(trimmed[2:len(trimmed)-2], at(2))})
		case open:
			b := &sec.Blocks[len(sec.Blocks)-1]
			b.Text.literal(" ")
			b.Text.parts = append(b.Text.parts, f.readText(trimmed, at(0)).parts...)
		default:
			sec.Blocks = append(sec.Blocks, Block{Paragraph, f.readText(trimmed, at(0))})
			open = true
		}
	}
	store()
	return out
}

func known(names []string, name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return false
}

var nearest = anatomy.Nearest

func paths() []string {
	var out []string
	for _, q := range valve.Quantities() {
		out = append(out, q.Path)
	}
	out = append(out, FactPaths()...)
	sort.Strings(out)
	return out
}

// finite tells whether a number can be shown.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

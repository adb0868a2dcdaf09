package words

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Language names a language.
type Language string

// The languages. Double is for tests.
const (
	English Language = "en"
	German  Language = "de"
	Double  Language = "double"
)

// Languages lists what a person may choose.
func Languages() []Language { return []Language{English, German} }

// Words gives texts in one language. The zero value is English.
type Words struct {
	Lang    Language
	doubled map[string]string
	kept    map[string]string
}

// For returns the texts of a language; an unknown one is English.
func For(l Language) *Words {
	if l != German && l != Double {
		l = English
	}
	return &Words{Lang: l, doubled: map[string]string{}}
}

// T returns the message with that key.
func (w *Words) T(key string) string {
	if w.Lang == German {
		if s, ok := german[key]; ok {
			return s
		}
	}
	s, ok := english[key]
	if !ok {
		return "«" + key + "»"
	}
	return w.maybeDouble(s)
}

// Has tells whether there is a message with that key.
func (w *Words) Has(key string) bool { _, ok := english[key]; return ok }

// F returns the message with that key, its gaps filled from name, value pairs.
func (w *Words) F(key string, pairs ...any) string { return fill(w.T(key), pairs, w) }

// Table returns the translation of a text of a definition table, or the text itself.
func (w *Words) Table(key, text string) string {
	if w.Lang == German {
		if s, ok := germanTables[key]; ok {
			return s
		}
	}
	return w.maybeDouble(text)
}

// Unit writes a unit of a definition table: "1" is none.
func (w *Words) Unit(u string) string {
	if u == "1" {
		return ""
	}
	if w.Lang == German {
		switch u {
		case "d":
			return "Tage"
		case "mL":
			return "ml"
		}
	}
	if u == "d" {
		return "days"
	}
	return u
}

// Parse reads a number as a person types it: point or comma, hyphen or true minus.
func (w *Words) Parse(text string) (float64, bool) {
	t := strings.NewReplacer(",", ".", "−", "-", "\u00a0", "", " ", "").Replace(text)
	v, err := strconv.ParseFloat(t, 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

func fill(pattern string, pairs []any, w *Words) string {
	var b strings.Builder
	for {
		i := strings.IndexByte(pattern, '{')
		if i < 0 {
			b.WriteString(pattern)
			return b.String()
		}
		j := strings.IndexByte(pattern[i:], '}')
		if j < 0 {
			b.WriteString(pattern)
			return b.String()
		}
		b.WriteString(pattern[:i])
		b.WriteString(gap(pattern[i+1:i+j], pairs, w))
		pattern = pattern[i+j+1:]
	}
}

func gap(inside string, pairs []any, w *Words) string {
	name, choices, plural := strings.Cut(inside, "|")
	for k := 0; k+1 < len(pairs); k += 2 {
		if pairs[k] != name {
			continue
		}
		s := ""
		switch v := pairs[k+1].(type) {
		case string:
			s = v
		case int:
			s = strconv.Itoa(v)
		case float64:
			s = w.Num(v, 1)
		}
		if !plural {
			return s
		}
		one, many, _ := strings.Cut(choices, "|")
		if s == "1" {
			return strings.ReplaceAll(one, "#", s)
		}
		return strings.ReplaceAll(many, "#", s)
	}
	return "«" + name + "»"
}

// maybeDouble lengthens a text for the test language, leaving gaps as they are in its first half only.
func (w *Words) maybeDouble(s string) string {
	if w.Lang != Double || s == "" {
		return s
	}
	if d, ok := w.doubled[s]; ok {
		return d
	}
	d := accent(s) + " " + accent(dropGaps(s))
	w.doubled[s] = d
	return d
}

var accents = strings.NewReplacer("a", "å", "e", "é", "i", "î", "o", "ö", "u", "ü", "A", "Å", "E", "É", "O", "Ö", "U", "Ü")

func accent(s string) string {
	var b strings.Builder
	for {
		i := strings.IndexByte(s, '{')
		if i < 0 {
			return b.String() + accents.Replace(s)
		}
		j := i + strings.IndexByte(s[i:], '}') + 1
		b.WriteString(accents.Replace(s[:i]) + s[i:j])
		s = s[j:]
	}
}

func dropGaps(s string) string {
	out := make([]byte, 0, len(s))
	depth := 0
	for i := 0; i < len(s); {
		_, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case s[i] == '{':
			depth++
			out = append(out, "xx"...)
		case s[i] == '}':
			depth--
		case depth == 0:
			out = append(out, s[i:i+n]...)
		}
		i += n
	}
	return string(out)
}

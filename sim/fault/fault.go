// Package fault is the one error a person meets for bad input: the field, the value, what is allowed, how to mend it,
// and where it stands in the file.
package fault

import (
	"fmt"
	"strings"
)

// Field is an error in one field of a case, a repair or a command.
type Field struct {
	Path    string // the field, such as annulus.septal_lateral_mm
	Value   string // what was given
	Problem string // what is wrong with it, such as "out of range"
	Allowed string // what is allowed, with its unit
	Fix     string // what to do
	Line    int    // 1-based; 0 when there is no file
	Column  int
}

// Error gives one line of plain English.
func (f *Field) Error() string {
	var b strings.Builder
	if f.Line > 0 {
		fmt.Fprintf(&b, "line %d, column %d: ", f.Line, f.Column)
	}
	if f.Path != "" {
		b.WriteString(f.Path + ": ")
	}
	b.WriteString(f.Problem)
	if f.Value != "" {
		fmt.Fprintf(&b, " (given: %s)", clip(f.Value))
	}
	if f.Allowed != "" {
		b.WriteString("; allowed: " + f.Allowed)
	}
	if f.Fix != "" {
		b.WriteString("; " + f.Fix)
	}
	return b.String()
}

// At returns the error with a place in the file, unless it already has one.
func (f *Field) At(line, column int) *Field {
	if f.Line > 0 {
		return f
	}
	g := *f
	g.Line, g.Column = line, column
	return &g
}

func clip(s string) string {
	const most = 60
	s = strings.ToValidUTF8(strings.ReplaceAll(s, "\n", " "), "?")
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

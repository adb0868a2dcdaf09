package casefile

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"annuloscope/sim/fault"

	"go.yaml.in/yaml/v3"
)

// locate adds the place of the field: where the file gave it, else where it gave the section the field belongs to, else
// where the case begins.
func (d *decoder) locate(err error, root *yaml.Node) error {
	var f *fault.Field
	if !errors.As(err, &f) {
		return err
	}
	for path := f.Path; path != ""; {
		if n, ok := d.place[path]; ok {
			return f.At(n.Line, n.Column)
		}
		k := strings.LastIndexByte(path, '.')
		if k < 0 {
			break
		}
		path = path[:k]
	}
	return f.At(root.Line, root.Column)
}

// placeOf returns line and column, both from 1, of a byte of a file.
func placeOf(data []byte, offset int) (line, column int) {
	before := data[:min(offset, len(data))]
	return 1 + bytes.Count(before, []byte("\n")), 1 + utf8.RuneCount(before[1+bytes.LastIndexByte(before, '\n'):])
}

// notText returns the offset of the first byte that is not text, or −1.
func notText(data []byte) int {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == 0 || r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

// firstLetter is the column of the first letter of a line, where the reader of YAML gives the line alone.
func firstLetter(data []byte, line int) int {
	lines := strings.Split(string(data), "\n")
	if line < 1 || line > len(lines) {
		return 1
	}
	text := lines[line-1]
	return 1 + len(text) - len(strings.TrimLeft(text, " \t"))
}

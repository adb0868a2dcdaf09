package sweep

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"annuloscope/sim/fault"
)

func TestDecodeRefuses(t *testing.T) {
	good := string(grid(t).Encode())
	for name, c := range map[string]struct{ from, to, says string }{
		"version":        {"annuloscope-sweep: 1", "annuloscope-sweep: 2", "version"},
		"unknown key":    {"seed: 0", "seeds: 0", "line"},
		"sampling":       {"sample: grid", "sample: random", "latin-hypercube"},
		"rows of grid":   {"seed: 0", "seed: 0\nrows: 4", "rows"},
		"unknown path":   {"repair.1.distal_mm", "repair.1.distant_mm", "distal_mm"},
		"no such repair": {"repair.1.distal_mm", "repair.2.distal_mm", "repair.1"},
		"value":          {"[84, 90, 120]", "[84, 900]", "20 to 150"},
		"twice":          {"repair.1.shortening_mm", "repair.1.distal_mm", "twice"},
		"falling":        {"from: 0, to: 30", "from: 30, to: 0", "does not rise"},
		"not a number":   {"from: 0, to: 30", "from: .nan, to: 30", "does not rise"},
		"count":          {"count: 4", "count: 1", "count"},
		"too many":       {"count: 4", "count: 900000", "too large"},
		"empty list":     {"[84, 90, 120]", "[]", "either a list or a range"},
		"case":           {"septal_lateral_mm: 34", "septal_lateral_mm: 340", "case.annulus.septal_lateral_mm"},
		"two documents":  {"sample: grid", "sample: grid\n---\na: 1", ""},
		"binary":         {"sample: grid", "sample: \x00", "not text"},
	} {
		text := strings.Replace(good, c.from, c.to, 1)
		if text == good {
			t.Fatalf("%s: nothing to replace in\n%s", name, good)
		}
		_, err := Decode([]byte(text))
		var f *fault.Field
		if !errors.As(err, &f) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever the bytes, the decoder returns a *fault.Field or a manifest that writes and reads back to itself.
func FuzzDecode(f *testing.F) {
	f.Add(grid(f).Encode())
	f.Add(sampled(f, Halton, 8, 1).Encode())
	f.Add([]byte("annuloscope-sweep: 1\naxes: [{path: a, list: [1]}]\ncase: |\n  annuloscope: 1\n"))
	f.Add([]byte("a: &a [*a, *a]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := Decode(data)
		if err != nil {
			var f *fault.Field
			if !errors.As(err, &f) {
				t.Fatalf("not a field error: %v", err)
			}
			return
		}
		again, err := Decode(m.Encode())
		if err != nil || !bytes.Equal(again.Encode(), m.Encode()) {
			t.Fatalf("does not read back: %v\n%s", err, m.Encode())
		}
	})
}

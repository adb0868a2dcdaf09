package casefile_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
)

func corpus(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Files of drafts open: what was renamed is read, what is no longer stated is left out.
func TestOldFilesOpen(t *testing.T) {
	c, err := casefile.Decode(corpus(t, "version-0.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if h := c.Patient.Heart; h.AtrialMeanMMHg != 17 || h.MeanArterialMMHg != 84 || c.Patient.Annulus.SeptalLateralMM != 36 || c.Repairs[0].Value("shortening_mm") != 15 {
		t.Errorf("read %+v, %+v, %v", h, c.Patient.Annulus, c.Repairs)
	}
	flat, err := casefile.Decode(corpus(t, "version-0.json"))
	if err != nil || flat.Patient.Heart.AtrialMeanMMHg != 12 {
		t.Errorf("flat keys: %v, %v", flat.Patient.Heart, err)
	}
}

// A rewritten old file is one of this version, with its comments.
func TestOldFileIsRewritten(t *testing.T) {
	old := corpus(t, "version-0.yaml")
	c, err := casefile.Decode(old)
	if err != nil {
		t.Fatal(err)
	}
	if same, err := casefile.Update(old, c); err != nil || string(same) != string(old) {
		t.Errorf("an old file that says the same was changed (%v)", err)
	}
	c.Patient.Annulus.HeightMM = 5
	text, err := casefile.Update(old, c)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"annuloscope: 1", "atrial_mean_mmhg: 17 # left atrium", "# the band comes first", "# wide", "height_mm: 5"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
	if strings.Contains(string(text), "systemic_resistance") {
		t.Error("a dropped number is still there")
	}
	again, err := casefile.Decode(text)
	if err != nil || casefile.Hash(again) != casefile.Hash(c) {
		t.Errorf("the rewritten file is another case: %v", err)
	}
}

func TestVersionsThatAreNotRead(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"annuloscope: 2\n", "newer version"},
		{"annuloscope: 99\nfuture_key: 1\n", "newer version"}, // said before the keys nobody knows
		{"annuloscope: -1\n", "not a version"},
		{"annuloscope: one\n", "not a version"},
		{"annuloscope: [1]\n", "not a version"},
		{"annuloscope: 1\nheart:\n  venous_mmhg: 9\n", "no such parameter"}, // an old name in a file of today
		{"annuloscope: 0\nheart:\n  venous_mmhg: 9\n  atrial_mean_mmhg: 9\n", "given by its name of today"},
		{"annuloscope: 0\nheart:\n  venous_mmhg: 99\n", "out of range"},
	} {
		_, err := casefile.Decode([]byte(c.text))
		var f *fault.Field
		if !errors.As(err, &f) || !strings.Contains(err.Error(), c.says) || f.Line == 0 || f.Column == 0 {
			t.Errorf("%q: %v; want %q with its place", c.text, err, c.says)
		}
	}
}

// Every error says where, also those of the whole file and of values that are not in it.
func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		name, text   string
		line, column int
	}{
		{"value", "annuloscope: 1\nannulus:\n  height_mm: 90\n", 3, 14},
		{"unknown key", "annuloscope: 1\nannulus:\n  hight_mm: 9\n", 3, 3},
		{"second of two", "annuloscope: 1\nannulus:\n  height_mm: 1\n  height_mm: 2\n", 4, 3},
		{"word", "annuloscope: 1\nmechanism: worn\n", 2, 12},
		{"number of a repair", "annuloscope: 1\nrepairs:\n  - kind: edge-clip\n    position: 1.5\n", 4, 15},
		{"kind", "annuloscope: 1\nrepairs:\n  - kind: edge-clamp\n", 3, 11},
		{"too many clips", "annuloscope: 1\nrepairs:\n" + strings.Repeat("  - kind: edge-clip\n", 4), 3, 3},
		{"measured in part", "annuloscope: 1\nmeasured:\n  depth_mm: 5\n", 3, 3},
		{"measured in part, flat", "annuloscope: 1\nname: x\nmeasured.depth_mm: 5\n", 1, 1},
		{"default against a value", "annuloscope: 1\nsinus:\n  length_mm: 80\n", 3, 3}, // cover_to_mm is the default
		{"no version", "\nannulus:\n  height_mm: 3\n", 2, 1},
		{"binary", "annuloscope: 1\nna\x00me: x\n", 2, 3},
		{"not UTF-8", "annuloscope: 1\nä\xff\n", 2, 2},
		{"empty", "  \n", 1, 1},
		{"list", "- 1\n", 1, 1},
		{"two documents", "annuloscope: 1\n---\nannuloscope: 1\n", 2, 1},
		{"indentation", "annuloscope: 1\nannulus:\n    height_mm: 1\n  commissural_mm: 40\n", 3, 5}, // where the reader of YAML stops
		{"too large", "annuloscope: 1\n" + strings.Repeat("# x\n", casefile.MaxBytes/4), 1 + 1 + (casefile.MaxBytes-15)/4, 2},
	} {
		_, err := casefile.Decode([]byte(c.text))
		var f *fault.Field
		if !errors.As(err, &f) || f.Line != c.line || f.Column != c.column {
			t.Errorf("%s: %v; want line %d, column %d", c.name, err, c.line, c.column)
		}
	}
}

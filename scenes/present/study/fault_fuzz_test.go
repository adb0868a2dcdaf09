package study_test

import (
	"errors"
	"strings"
	"testing"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/fault"
)

// A plan as written in a file: refused by name, or one that writes and reads back to itself.
func FuzzParsePlan(f *testing.F) {
	for _, s := range []string{"both: sinus-band,shortening_mm=20; edge-clip", "nothing:", ":", "a:b: edge-clip;;", strings.Repeat("x", 40) + ": edge-clip", "\xff:"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := study.ParsePlan(text)
		if err != nil {
			var g *fault.Field
			if !errors.As(err, &g) {
				t.Fatalf("%v is not a field error", err)
			}
			return
		}
		again, err := study.ParsePlan(p.String())
		if err != nil || again.String() != p.String() {
			t.Fatalf("%q becomes %q, then %v", text, p, err)
		}
	})
}

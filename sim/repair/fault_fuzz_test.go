package repair_test

import (
	"errors"
	"testing"

	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// A step as written on a command line or in an address: refused by name, or a step that writes and reads back to itself.
func FuzzParse(f *testing.F) {
	for _, s := range repair.Specs() {
		f.Add(repair.Must(s.Kind).String())
	}
	f.Add("sinus-band,shortening_mm=20,")
	f.Add("edge-clip, position = 1e-3 ,position=NaN")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := repair.Parse(text)
		if err != nil {
			var g *fault.Field
			if !errors.As(err, &g) {
				t.Fatalf("%v is not a field error", err)
			}
			return
		}
		again, err := repair.Parse(s.String())
		if err != nil || again.String() != s.String() {
			t.Fatalf("%q becomes %q, then %v %v", text, s, again, err)
		}
	})
}

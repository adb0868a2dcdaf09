package lectern_test

import (
	"testing"

	"annuloscope/scenes/present/lectern"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
)

// A running order of any content: refused, or one that writes and reads back to the same steps.
func FuzzDecode(f *testing.F) {
	doc := study.Document{Scene: "valve", Open: casefile.Case{Name: "x", Title: "X", Patient: anatomy.Normal()}, View: study.DefaultView(), Settings: study.DefaultSettings()}
	f.Add(lectern.Order{Title: "A talk", Steps: []lectern.Step{{Title: "One", Ask: "Why?", Note: "Because.", Number: "annulus.septal_lateral_mm", State: doc}}}.Encode())
	f.Add([]byte(`{"annuloscope_order":1,"steps":[{}]}`))
	f.Add([]byte(`{"annuloscope_order":1,"steps":[]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		o, _, err := lectern.Decode(data)
		if err != nil {
			return
		}
		again, warnings, err := lectern.Decode(o.Encode())
		if err != nil || len(again.Steps) != len(o.Steps) || len(warnings) > 0 || string(again.Encode()) != string(o.Encode()) {
			t.Fatalf("does not read back: %v %v", err, warnings)
		}
	})
}

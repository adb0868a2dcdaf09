package lectern

import (
	"strconv"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

// Demonstration is the built-in running order, in the language of the words. Built-in cases that are not among those
// given are left out.
func Demonstration(w *words.Words, cases []casefile.Case) Order {
	o := Order{Title: w.T("demo.title")}
	jet := func(c casefile.Case) float64 {
		if c.Patient.Chord.RupturedMM > 0 {
			return c.Patient.Chord.Position
		}
		return c.Patient.Jet.Position
	}
	band := repair.Must(repair.SinusBand).With("shortening_mm", 20)
	for i, s := range []struct {
		name, number, mode string
		repairs            func(c casefile.Case) []repair.Step
	}{
		{"functional", "regurgitation.effective_orifice_cm2", "systole", nil},
		{"functional", "annulus.septal_lateral_mm", "systole", func(casefile.Case) []repair.Step { return []repair.Step{band} }},
		{"high-sinus", "annulus.septal_lateral_mm", "systole", func(casefile.Case) []repair.Step { return []repair.Step{band} }},
		{"deep-artery", "artery.worst_view_narrowing_pct", "systole", func(casefile.Case) []repair.Step { return []repair.Step{band} }},
		{"flail-p2", "regurgitation.effective_orifice_cm2", "systole", func(c casefile.Case) []repair.Step {
			return []repair.Step{repair.Must(repair.EdgeClip).With("position", jet(c))}
		}},
		{"flail-p2", "opening.anatomic_area_cm2", "diastole", func(c casefile.Case) []repair.Step {
			clip := repair.Must(repair.EdgeClip)
			return []repair.Step{clip.With("position", jet(c)), clip.With("position", jet(c)+0.25)}
		}},
	} {
		for _, c := range cases {
			if c.Name != s.name {
				continue
			}
			c = c.Clone()
			if s.repairs != nil {
				c.Repairs = s.repairs(c)
			}
			v := study.DefaultView()
			v.Mode = s.mode
			key := "demo." + strconv.Itoa(i+1)
			o.Steps = append(o.Steps, Step{w.T(key + ".title"), w.T(key + ".ask"), w.T(key + ".note"), s.number,
				study.Document{Scene: "valve", Open: c, View: v, Settings: study.DefaultSettings()}})
		}
	}
	return o
}

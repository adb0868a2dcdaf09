package tell_test

import (
	"errors"
	"strings"
	"testing"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// engine answers with made-up numbers that depend on the case, so that a sentence can be checked word for word.
type engine struct{}

func (engine) Solve(c casefile.Case) (valve.Report, error) {
	if c.Patient.Heart.RatePerMin == 111 {
		return valve.Report{}, errors.New("made-up failure")
	}
	var r valve.Report
	r.Before.Annulus.SeptalLateralMM, r.After.Annulus.SeptalLateralMM = 36, 36
	r.Before.Regurgitation.EffectiveOrificeCM2, r.After.Regurgitation.EffectiveOrificeCM2 = 0.32, 0.32
	for _, s := range c.Repairs {
		if s.Kind == repair.SinusBand && s.Value("shortening_mm") > 0 {
			r.After.Annulus.SeptalLateralMM = 36 - s.Value("shortening_mm")/10
			r.After.Regurgitation.EffectiveOrificeCM2 = 0.2
			r.After.Sinus.TransmittedFraction = 0.25
			r.After.Artery.WorstViewNarrowing = 40
			r.After.Artery.Risk = "possible"
		}
	}
	return r, nil
}

func opened() *study.Study {
	s := study.New(study.NewSync(engine{}), casefile.Case{Name: "made-up", Title: "Made-up patient", Patient: anatomy.Normal()})
	s.Settle()
	return s
}

func plainly(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

// What a sentence must hold after each deed: the numbers before and after, the cause, the price, in the language's form.
func TestSentences(t *testing.T) {
	en, de := words.For(words.English), words.For(words.German)
	s := opened()
	has := func(when string, w *words.Words, parts ...string) {
		t.Helper()
		text := plainly(tell.Sentence(w, s))
		for _, p := range parts {
			if !strings.Contains(text, p) {
				t.Errorf("%s: %q is not in %q", when, p, text)
			}
		}
		if strings.Contains(text, "{") || strings.Contains(text, "«") || strings.Contains(text, "NaN") {
			t.Errorf("%s: a gap is left in %q", when, text)
		}
	}
	has("opened", en, "Made-up patient", "36.0 mm", "0.32 cm²")
	has("opened", de, "36,0 mm", "0,32 cm²")
	if err := s.Place("sinus-band", true); err != nil {
		t.Fatal(err)
	}
	if err := s.Turn("repair/sinus-band/shortening_mm", 30, false); err != nil {
		t.Fatal(err)
	}
	s.Settle()
	has("shortened", en, "30", "3.0 mm", "25 %", "40 %")
	has("shortened", de, "3,0 mm", "40 %")
	s.Undo()
	s.Settle()
	has("undone", en, "34.0 mm") // the band as it was placed
	s.Redo()
	s.Settle()
	has("redone", en, "33.0 mm", "0.20 cm²")
	if err := s.Place("sinus-band", false); err != nil {
		t.Fatal(err)
	}
	s.Settle()
	has("removed", en, "band")
	if err := s.Turn("anatomy/heart.rate_per_min", 111, false); err != nil {
		t.Fatal(err)
	}
	s.Settle()
	has("failed", en, "made-up failure")
}

// The state in words holds the main numbers of both states and every finding.
func TestStateInWords(t *testing.T) {
	s := opened()
	if err := s.Place("sinus-band", true); err != nil {
		t.Fatal(err)
	}
	s.Settle()
	s.Report.Findings = []valve.Finding{{Code: "made-up", Severity: "note", Text: "Something to know."}}
	text := plainly(tell.State(words.For(words.English), s, study.DefaultView()))
	for _, p := range []string{"36.0 mm", "34.0 mm", "0.20 cm²", "0.32 cm²", "40 %", "Something to know."} {
		if !strings.Contains(text, p) {
			t.Errorf("%q is not in %q", p, text)
		}
	}
	turned := study.DefaultView()
	turned.Named, turned.Azimuth = "", 30
	if a, b := text, plainly(tell.State(words.For(words.English), s, turned)); a == b || !strings.Contains(b, "30") {
		t.Errorf("a turned view is not told: %q", b)
	}
}

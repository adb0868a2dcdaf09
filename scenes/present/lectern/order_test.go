package lectern_test

import (
	"bytes"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present/lectern"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

func cases(t *testing.T) []casefile.Case {
	var all []casefile.Case
	for _, n := range assets.CaseNames() {
		data, err := assets.Cases.ReadFile("cases/" + n + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		c, err := casefile.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, c)
	}
	return all
}

func TestOrderComesBackFromItsFile(t *testing.T) {
	for _, lang := range words.Languages() {
		o := lectern.Demonstration(words.For(lang), cases(t))
		if len(o.Steps) != 6 {
			t.Fatalf("%d steps", len(o.Steps))
		}
		data := o.Encode()
		if !lectern.Is(data) {
			t.Error("its own file is not recognised")
		}
		back, warnings, err := lectern.Decode(data)
		if err != nil || len(warnings) > 0 || !bytes.Equal(back.Encode(), data) {
			t.Fatalf("%v %v\n%s", err, warnings, back.Encode())
		}
		for i, s := range back.Steps {
			if s.Title == "" || s.Ask == "" || s.Note == "" || s.Number == "" {
				t.Errorf("%s, step %d: %+v", lang, i+1, s)
			}
		}
	}
}

// The notes of the demonstration say which way things go; the model must agree.
func TestDemonstrationAgreesWithTheModel(t *testing.T) {
	o := lectern.Demonstration(words.For(words.English), cases(t))
	solver := valve.NewSolver()
	var r []valve.Report
	for _, s := range o.Steps {
		one, err := solver.Solve(s.State.Open, valve.Options{})
		if err != nil || !one.Provenance.Converged {
			t.Fatalf("%s: %v", s.Title, err)
		}
		r = append(r, one)
	}
	if r[0].After.Regurgitation.EffectiveOrificeCM2 < 0.1 {
		t.Error("step 1: no leak to be found")
	}
	narrower := func(i int) float64 { return r[i].Before.Annulus.SeptalLateralMM - r[i].After.Annulus.SeptalLateralMM }
	if narrower(1) < 1 || narrower(1) > 15 {
		t.Errorf("step 2: the band of 20 mm narrows by %.1f mm", narrower(1))
	}
	if narrower(2) >= narrower(1) || r[2].After.Sinus.TransmittedFraction >= r[1].After.Sinus.TransmittedFraction {
		t.Errorf("step 3 says less arrives from the higher vein: %.2f mm and %.2f, %.2f mm and %.2f lower", narrower(2), r[2].After.Sinus.TransmittedFraction, narrower(1), r[1].After.Sinus.TransmittedFraction)
	}
	if r[3].After.Artery.WorstViewNarrowing <= r[1].After.Artery.WorstViewNarrowing+5 {
		t.Errorf("step 4: the artery narrows by %.0f %%, in step 2 by %.0f %%", r[3].After.Artery.WorstViewNarrowing, r[1].After.Artery.WorstViewNarrowing)
	}
	if a, b := r[4].Before.Regurgitation.EffectiveOrificeCM2, r[4].After.Regurgitation.EffectiveOrificeCM2; b >= a/2 {
		t.Errorf("step 5: the clip leaves %.2f of %.2f cm²", b, a)
	}
	if d := r[4].Before.Annulus.SeptalLateralMM - r[4].After.Annulus.SeptalLateralMM; d < 0.1 || d >= narrower(1) {
		t.Errorf("step 5 says the annulus follows a little; it became narrower by %.2f mm, with the band by %.2f", d, narrower(1))
	}
	if r[5].After.Opening.AnatomicAreaCM2 >= r[5].Before.Opening.AnatomicAreaCM2*0.8 || len(r[5].After.Opening.OrificesCM2) < 2 {
		t.Errorf("step 6: opening %.2f of %.2f cm²", r[5].After.Opening.AnatomicAreaCM2, r[5].Before.Opening.AnatomicAreaCM2)
	}
}

func TestBadOrdersAreRefusedWithAReason(t *testing.T) {
	o := lectern.Demonstration(words.For(words.English), cases(t))
	good := string(o.Encode())
	for name, c := range map[string][2]string{
		"not JSON":       {"annuloscope: 1", "not a running order"},
		"future version": {strings.Replace(good, `"annuloscope_order": 1`, `"annuloscope_order": 9`, 1), "version 9"},
		"no steps":       {`{"annuloscope_order": 1, "steps": []}`, "no steps"},
		"bad state":      {strings.Replace(good, "septal_lateral_mm: 36", "septal_lateral_mm: 3600", 1), "step 1"},
		"too long":       {good + strings.Repeat(" ", 5<<20), "at most"},
	} {
		if _, _, err := lectern.Decode([]byte(c[0])); err == nil || !strings.Contains(err.Error(), c[1]) {
			t.Errorf("%s: %v, want %q", name, err, c[1])
		}
	}
	odd := strings.Replace(good, "annulus.septal_lateral_mm", "annulus.wisdom", 1)
	if back, warnings, err := lectern.Decode([]byte(odd)); err != nil || len(warnings) != 1 || !strings.Contains(warnings[0], "annulus.wisdom") || back.Steps[1].Number != "" {
		t.Errorf("%v %v", warnings, err)
	}
}

// A file of the first version, kept for ever.
func TestOldOrdersKeepOpening(t *testing.T) {
	data := []byte(`{"annuloscope_order": 1, "title": "Two", "steps": [
 {"title": "A", "ask": "What?", "note": "n", "number": "regurgitation.volume_ml",
  "state": {"version": 1, "scene": "strip", "case": "annuloscope: 1\nname: x\nmechanism: functional\nannulus:\n  septal_lateral_mm: 36\nrepairs:\n  - kind: sinus-band\n    shortening_mm: 20\n", "view": {"elevation": 90, "zoom": 1, "named": "atrium", "mode": "diastole", "speed": 1}, "settings": {"theme": "dark", "language": "de", "scale": 1}}},
 {"title": "B", "state": {"version": 1, "scene": "valve", "case": "annuloscope: 1\nname: y\n"}}]}`)
	o, warnings, err := lectern.Decode(data)
	if err != nil || len(warnings) > 0 || len(o.Steps) != 2 {
		t.Fatalf("%v %v %d", err, warnings, len(o.Steps))
	}
	s := o.Steps[0]
	if s.Ask != "What?" || s.State.View.Mode != "diastole" || len(s.State.Open.Repairs) != 1 || s.State.Open.Repairs[0].Value("shortening_mm") != 20 {
		t.Errorf("%+v", s)
	}
	if o.Steps[1].State.View != study.DefaultView() {
		t.Errorf("%+v", o.Steps[1].State.View)
	}
}

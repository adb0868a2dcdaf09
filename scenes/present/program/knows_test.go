package program_test

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"annuloscope/assets/validation"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/grade"
	"annuloscope/sim/verify"
)

// The page names everything that MODEL.md leaves out: when that list changes, the page has to be read again. The words
// looked for are one for each thing in the list.
func TestWhatTheModelDoesNotKnowIsAllSaid(t *testing.T) {
	data, err := os.ReadFile("../../../sim/MODEL.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, _ := strings.Cut(string(data), "## What this model does not know\n")
	list, _, _ = strings.Cut(list, "\n## ")
	p := start(t, "functional")
	key(p, "K", 0)
	paint(p, 1024, 768)
	page := ""
	for _, c := range p.Controls() {
		page += strings.ToLower(c.Name + ". " + c.Text + "\n")
	}
	bullets := 0
	for _, line := range strings.Split(list, "\n") {
		if strings.HasPrefix(line, "- ") {
			bullets++
		}
	}
	if bullets != 8 {
		t.Errorf("MODEL.md leaves %d things out, this test knows 8: read scenes/present/program/knows.go and its words again", bullets)
	}
	for _, w := range []string{"perforation", "thrombosis", "infection", "skill", "imaging", "chosen", "remodel", "delayed band", "sliding", "springs",
		"aside", "angle", "plaque", "spasm", "branches", "friction", "twist", "pressure", "plane", "margin", "rods", "stitches", "fold", "a millimetre", "invented"} {
		if !strings.Contains(page, w) {
			t.Errorf("the page does not say %q", w)
		}
		if !strings.Contains(strings.ToLower(list), w) && w != "springs" && w != "delayed band" && w != "remodel" {
			t.Errorf("MODEL.md no longer says %q", w)
		}
	}
	var c verify.Carried
	if err := json.Unmarshal(validation.Table, &c); err != nil {
		t.Fatal(err)
	}
	for _, r := range c.Disagree {
		if !strings.Contains(page, strings.ToLower(r.Quantity)) {
			t.Errorf("the page does not show the gap %q", r.Quantity)
		}
	}
	if len(c.Disagree) != c.Gaps+c.Failed {
		t.Errorf("%d rows for %d gaps", len(c.Disagree), c.Gaps)
	}
}

// Gaps and grades read as German in German.
func TestGapsAndGradesAreTranslated(t *testing.T) {
	var c verify.Carried
	if err := json.Unmarshal(validation.Table, &c); err != nil {
		t.Fatal(err)
	}
	de := words.For(words.German)
	const none = "\x00"
	want := func(key string) {
		if de.Table(key, none) == none {
			t.Errorf("no German for %q: add it to scenes/present/words/checks_german.go or grades_german.go", key)
		}
	}
	for _, r := range c.Disagree {
		want("check." + r.Quantity)
		want("checkkind." + string(r.Kind))
	}
	for _, s := range []grade.Scheme{grade.PrimaryFourStep, grade.PrimarySevere, grade.SecondaryAmerican, grade.SecondaryEuropean, grade.PrimaryEuropean} {
		want("scheme." + s.String())
		g := grade.Leak(s, grade.LeakInput{Orifice: grade.ExactOrifice(0.25), VolumeML: grade.NotMeasured(), FractionPct: grade.NotMeasured(), VenaContractaCM: grade.NotMeasured(), EarlySpeedMPS: grade.NotMeasured()})
		for _, c := range g.Criteria {
			want("criterion." + c.Name)
			if r := de.Rule(c.Rule); strings.Contains(r, "severe") || strings.Contains(r, "below") || strings.Contains(r, "from") || strings.Contains(r, ".") {
				t.Errorf("the rule %q reads %q in German", c.Rule, r)
			}
		}
		want("class." + g.Class.String())
	}
}

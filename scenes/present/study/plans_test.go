package study_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

func TestPlansTravelInTheDocument(t *testing.T) {
	c := builtIn(t, "functional")
	both, err := study.ParsePlan("late: both: sinus-band,shortening_mm=20; edge-clip,position=0.2")
	if err != nil || both.Name != "late: both" || len(both.Repairs) != 2 || both.Repairs[0].Value("shortening_mm") != 20 {
		t.Fatalf("%+v: %v", both, err)
	}
	d := study.Document{Scene: "compare", Open: c, View: study.DefaultView(), Settings: study.DefaultSettings(), Compare: []study.Plan{{Name: "nothing"}, both}}
	d.View.Map = "gap.change"
	text := d.Encode()
	if _, w, err := study.Decode(bytes.Replace(text, []byte(`"gap.change"`), []byte(`"heat"`), 1)); err != nil || len(w) != 1 || !strings.Contains(w[0], "view.map") {
		t.Errorf("an unknown map: %v %v", w, err)
	}
	back, warnings, err := study.Decode(text)
	if err != nil || len(warnings) > 0 || len(back.Compare) != 2 || back.View.Map != "gap.change" || back.Compare[1].String() != both.String() {
		t.Fatalf("%v, %v, %+v", err, warnings, back.Compare)
	}
	if again := back.Encode(); !bytes.Equal(again, text) {
		t.Error("a document changes on the way")
	}
}

// Documents written before there were plans keep opening; bad plans are named and the rest stays.
func TestBadPlansAreWarnedAbout(t *testing.T) {
	d := study.Document{Scene: "valve", Open: builtIn(t, "functional"), View: study.DefaultView(), Settings: study.DefaultSettings()}
	text := d.Encode()
	if bytes.Contains(text, []byte("plans")) {
		t.Error("a document without plans writes them")
	}
	if _, w, err := study.Decode(text); err != nil || len(w) > 0 {
		t.Errorf("without plans: %v %v", w, err)
	}
	var raw map[string]any
	if err := json.Unmarshal(text, &raw); err != nil {
		t.Fatal(err)
	}
	long := strings.Repeat("x", study.MostPlanName+1)
	raw["plans"] = []string{"no colon here", "unknown: edge-clamp", "out: sinus-band,shortening_mm=900", long + ": edge-clip", " : edge-clip",
		"off the vein: sinus-band,distal_mm=138", "good: edge-clip", "third: edge-clip", "fourth: edge-clip"}
	text, _ = json.Marshal(raw)
	got, warnings, err := study.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	// Five are left out, one does not fit this patient's vein but stays, and the last is one too many.
	if len(warnings) != 7 || len(got.Compare) != 3 || got.Compare[1].Name != "good" || got.Compare[2].Name != "third" {
		t.Errorf("plans %v, warnings:\n%s", got.Compare, strings.Join(warnings, "\n"))
	}
	for i, want := range []string{"colon", "edge-clip", "shortening_mm", "characters", "characters", "does not fit", "more than 3"} {
		if i < len(warnings) && !strings.Contains(warnings[i], want) {
			t.Errorf("warning %q does not say %q", warnings[i], want)
		}
	}
}

func TestPlansOfAStudy(t *testing.T) {
	s := study.New(study.NewSync(study.NewSolver()), builtIn(t, "functional"))
	s.Settle()
	before := s.Touched()
	plans := study.Suggested(s.Case, func(kinds ...repair.Kind) string { return string(kinds[0]) })
	if len(plans) != 3 || len(plans[0].Repairs) != 1 || len(plans[2].Repairs) != 2 {
		t.Fatalf("%+v", plans)
	}
	for i, p := range plans {
		if err := p.On(s.Case).Validate(); err != nil {
			t.Errorf("suggestion %d does not fit the patient: %v", i, err)
		}
		if err := s.AddPlan(p); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.AddPlan(plans[0]); err == nil || !strings.Contains(err.Error(), "full") {
		t.Errorf("a fourth plan: %v", err)
	}
	if s.Touched() == before {
		t.Error("plans are not kept: the document does not count as changed")
	}
	if err := s.ChangePlan(0, study.Plan{}); err == nil {
		t.Error("a plan without a name is taken")
	}
	s.RemovePlan(1)
	if len(s.Plans()) != 2 || len(s.Plans()[1].Repairs) != 2 {
		t.Errorf("after one is taken away: %+v", s.Plans())
	}
	if err := s.Take(s.Plans()[1]); err != nil || len(s.Case.Repairs) != 2 || !s.CanUndo() {
		t.Errorf("taking a plan over: %v, %v", err, s.Case.Repairs)
	}
	s.Undo()
	if len(s.Case.Repairs) != 0 {
		t.Error("taking a plan over cannot be undone")
	}
}

func builtIn(t *testing.T, name string) casefile.Case {
	t.Helper()
	data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := casefile.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

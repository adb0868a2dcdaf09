package tell_test

import (
	"math"
	"strings"
	"testing"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/units"
	"annuloscope/sim/valve"
)

// state is a made-up state of the valve.
func state(leak, width, gradient, artery float64) valve.State {
	var s valve.State
	s.Regurgitation.EffectiveOrificeCM2 = units.EffectiveCM2(leak)
	s.Annulus.SeptalLateralMM = width
	s.Opening.MeanGradientMMHg, s.Artery.WorstViewNarrowing = gradient, artery
	return s
}

// columns is a made-up comparison: the untreated valve first.
func columns(states ...valve.State) *study.Comparison {
	c := &study.Comparison{}
	for i, s := range states {
		k := study.Column{Solved: true, Case: casefile.Case{Patient: anatomy.Normal()}}
		if i > 0 {
			k.Plan.Name = string(rune('A' + i - 1))
		}
		k.Report.After = s
		c.Columns = append(c.Columns, k)
	}
	return c
}

func comparison(c *study.Comparison) string {
	return tell.Comparison(words.For(words.English), c.Base(), tell.Solved(c))
}

func TestComparisonSaysWhichLeaksLeastWhyAndAtWhatPrice(t *testing.T) {
	band, clip := state(0.12, 32.5, 1.2, 12), state(0.05, 35, 3.4, 0)
	band.Sinus.ShorteningMM, band.Sinus.TransmittedFraction = 14, 0.4
	clip.Clips = []valve.Clip{{Kind: "edge-clip", WidthMM: 5, Condition: "held"}}
	c := columns(state(0.31, 36, 1.2, 0), band, clip)
	c.Columns[1].Case.Repairs = []repair.Step{repair.Must(repair.SinusBand)}
	text := comparison(c)
	for _, want := range []string{"B leaves the least leak, 0.05\u00a0cm² instead of 0.31", "the annulus is 1.0\u00a0mm narrower", "the clip at A2-P2 holds 5.0\u00a0mm of both edges",
		"A leaves 0.12\u00a0cm²: the annulus is 3.5\u00a0mm narrower; the vein passes on 40\u00a0%", "The price: with B the mean gradient goes from 1.2 to 3.4\u00a0mmHg; with A the circumflex artery narrows by 12\u00a0%."} {
		if !strings.Contains(text, want) {
			t.Errorf("%q does not say %q", text, want)
		}
	}
	if strings.Index(text, "B leaves") > strings.Index(text, "A leaves") {
		t.Errorf("the best does not come first: %q", text)
	}
}

func TestComparisonWithoutAWinner(t *testing.T) {
	for _, c := range []struct {
		states []valve.State
		says   []string
		not    string
	}{
		{[]valve.State{state(0.31, 36, 1, 0)}, []string{"Untreated, the valve leaks", "Add a plan"}, "price"},
		{[]valve.State{state(0.31, 36, 1, 0), state(0.10, 33, 1, 0)}, []string{"With A: the leak fell from 0.31 to 0.10", "Neither gradient nor artery"}, "least"},
		{[]valve.State{state(0.31, 36, 1, 0), state(0.101, 33, 1, 0), state(0.102, 34, 1, 0)}, []string{"A and B leave the same leak, 0.10"}, "least leak"},
		{[]valve.State{state(0.31, 36, 1, 0), state(0.31, 36, 1, 0), state(0.40, 37, 1, 0)}, []string{"No plan lessens the leak of 0.31", "B leaves 0.40\u00a0cm²: the annulus is 1.0\u00a0mm wider"}, "least leak"},
	} {
		text := comparison(columns(c.states...))
		for _, want := range c.says {
			if !strings.Contains(text, want) {
				t.Errorf("%q does not say %q", text, want)
			}
		}
		if strings.Contains(text, c.not) {
			t.Errorf("%q says %q", text, c.not)
		}
	}
}

// A clip that could not reach is the reason told, not a clip that holds.
func TestAClipThatHoldsNothingIsSaid(t *testing.T) {
	s := state(0.31, 36, 1, 0)
	s.Clips = []valve.Clip{{Kind: "edge-clip", GapMM: 9.2, Condition: "not grasped"}}
	if text := comparison(columns(state(0.31, 36, 1, 0), s)); !strings.Contains(text, "holds nothing, because the gap of 9.2\u00a0mm") {
		t.Error(text)
	}
}

func TestRankFollowsTheOneDefinitionOfBetter(t *testing.T) {
	rank := func(path string, states ...valve.State) tell.Ranked {
		q, ok := valve.FindQuantity(path)
		if !ok {
			t.Fatal(path)
		}
		return tell.Rank(q, columns(states...))
	}
	w := words.For(words.English)
	// Lower is better; a difference below the precision shown is none; of three or more the best has a star.
	r := rank("regurgitation.effective_orifice_cm2", state(0.31, 0, 0, 0), state(0.08, 0, 0, 0), state(0.081, 0, 0, 0), state(0.35, 0, 0, 0))
	for i, want := range []string{"", "▼ −0.23 ★ best", "▼ −0.23 ★ best", "▲ +0.04 worse"} {
		if got := r.Verdict(w, i); got != want {
			t.Errorf("leak, column %d: %q, want %q", i, got, want)
		}
	}
	// Higher is better, and only one plan: no star.
	a, b := state(0, 0, 0, 0), state(0, 0, 0, 0)
	a.Opening.AnatomicAreaCM2, b.Opening.AnatomicAreaCM2 = 4, 2.5
	if r = rank("opening.anatomic_area_cm2", a, b); r.Verdict(w, 0) != "" || r.Verdict(w, 1) != "▼ −1.50 worse" {
		t.Errorf("opening: %q and %q", r.Verdict(w, 0), r.Verdict(w, 1))
	}
	// No direction is better: no word.
	a.Annulus.CommissuralMM, b.Annulus.CommissuralMM = 40, 38
	if r = rank("annulus.commissural_mm", a, b, a); r.Verdict(w, 1) != "▼ −2.0" || r.Marks[1] != tell.Moved || r.Verdict(w, 2) != "same" {
		t.Errorf("commissural: %q, %q", r.Verdict(w, 1), r.Verdict(w, 2))
	}
	// Where a quantity does not apply there is nothing to compare with.
	b.Sinus.ShorteningMM, b.Sinus.TransmittedFraction = 10, 0.5
	if r = rank("sinus.transmitted_fraction", a, b); !math.IsNaN(r.Values[0]) || r.Verdict(w, 1) != "" || !r.Applies {
		t.Errorf("transmitted: %v, %q", r.Values, r.Verdict(w, 1))
	}
	if r = rank("sinus.transmitted_fraction", a, a); r.Applies {
		t.Error("a quantity that applies nowhere is shown")
	}
}

// Where a band's shortening goes is said once; the other plans only give their share of the same measure.
func TestTheLossOfABandIsExplainedOnce(t *testing.T) {
	band := func(leak, share float64) valve.State {
		s := state(leak, 33, 1, 0)
		s.Sinus.ShorteningMM, s.Sinus.TransmittedFraction = 14, share
		return s
	}
	c := columns(state(0.31, 36, 1, 0), band(0.2, 0.3), band(0.1, 0.5))
	for i := range c.Columns[1:] {
		c.Columns[i+1].Case.Repairs = []repair.Step{repair.Must(repair.SinusBand)}
	}
	text := comparison(c)
	if strings.Count(text, "of what a band on the annulus would do") != 1 || !strings.Contains(text, "A leaves 0.20\u00a0cm²: the annulus is 3.0\u00a0mm narrower; the vein passes on 30\u00a0% of it.") {
		t.Error(text)
	}
}

package tell

import (
	"strings"
	"testing"

	"annuloscope/scenes/present/words"
	"annuloscope/sim/valve"
)

// The sentence names the two dearest causes in order, with their millimetres; a cause that helps or costs next to nothing
// is not named, and nothing is claimed without an attribution.
func TestCosts(t *testing.T) {
	a := &valve.Attribution{Causes: []valve.CausePart{{Code: "slack", MM: 1.23}, {Code: "slip"}, {Code: "wall", MM: 2.5}, {Code: "elevation", MM: 0.4}, {Code: "uncovered", MM: -3}}}
	w := words.For(words.English)
	got := strings.ReplaceAll(costs(w, a), "\u00a0", " ")
	if want := ", because the give of the atrial wall costs 2.5 mm and taking up slack and straightening the vein 1.2 mm"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	a.Causes = a.Causes[3:]
	if got := costs(w, a); strings.Contains(got, " and ") || !strings.Contains(got, "height") {
		t.Errorf("one cause: %q", got)
	}
	if german := costs(words.For(words.German), a); !strings.Contains(german, "0,4") {
		t.Errorf("German: %q", german)
	}
	a.Causes[0].MM = 0.1
	if costs(w, a) != "" || costs(w, nil) != "" {
		t.Error("a cause was named that is not there")
	}
}

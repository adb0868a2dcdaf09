package words_test

import (
	"regexp"
	"strings"
	"testing"

	"annuloscope/scenes/present/words"
)

// Every refusal of a measured curve that a person can bring about on the screen reads as German in German. What is wrong
// inside a VTK or VTP file stays English and is marked so.
func TestRefusalsOfCurvesAreTranslated(t *testing.T) {
	de := words.For(words.German)
	verb := regexp.MustCompile(`%[.0-9]*[dgf]`)
	check := func(text string) {
		for _, what := range []string{"perimeter", "length"} {
			for _, unit := range []string{"mm", "cm", "m"} {
				got := text
				if strings.HasPrefix(got, "%s = ") {
					got = what + strings.TrimPrefix(got, "%s")
				}
				got = strings.NewReplacer("%q", `"a, b.c"`, "%c", "x", "(column %s", "(column y", "%s", unit, ": %w", ": x").Replace(got)
				got = verb.ReplaceAllString(got, "7.5")
				read := de.Problem(got)
				for _, english := range []string{" the ", " is ", " are ", " has ", " of ", " one ", " at most ", " points"} {
					if strings.Contains(" "+read+" ", english) {
						t.Errorf("%q reads %q", got, read)
						break
					}
				}
				if strings.Contains(read, "%") || strings.Count(read, "7,5") != strings.Count(got, "7.5") {
					t.Errorf("%q loses a number: %q", got, read)
				}
			}
		}
	}
	fit := source(t, `Errorf\("contour: ([^"]+)"`, "../../../geometry/contour/*.go")
	for _, text := range fit {
		if regexp.MustCompile(`Scale = |to smooth|lambda|^parameter|^landmark %s|Normal = |: %w|eigenvalues`).MatchString(text) {
			continue // a caller's mistake, the command line's landmarks, or no fault of the points
		}
		if k := strings.LastIndex(text, ": "); k >= 0 { // the fix is another field
			text = text[:k]
		}
		check(text)
	}
	files := append(source(t, `Errorf\("(?:meshio: )?([^"]+)"`, "../../../geometry/meshio/csv.go"), source(t, `Errorf\("meshio: ([^"]+)"`, "../../../geometry/meshio/polyline.go")...)
	for _, text := range files {
		check(text)
	}
	if len(fit) < 20 || len(files) < 12 {
		t.Errorf("only %d and %d refusals found: the search is broken", len(fit), len(files))
	}
	allowed := source(t, `Allowed: +"([^"]+)"`, "../../../sim/measured/*.go")
	for _, text := range allowed {
		if de.Allowed(text) == text && text != "auto, mm, cm, m" {
			t.Errorf("what is allowed stays English: %q", text)
		}
	}
	if got := de.Problem("VTK, line 3: count 9 is too large"); !strings.HasPrefix(got, "VTK, Zeile 3 (englisch): ") {
		t.Error(got)
	}
}

package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"annuloscope/scenes/present/words"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Every label of the definition tables that a screen shows has its German.
func TestTablesAreTranslated(t *testing.T) {
	de := words.For(words.German)
	const none = "\x00"
	check := func(key string) {
		if de.Table(key, none) == none {
			t.Errorf("no German for %q", key)
		}
	}
	for _, q := range valve.Quantities() {
		check("quantity." + q.Path)
	}
	for _, p := range anatomy.Parameters() {
		check("parameter." + p.Path)
	}
	for _, c := range anatomy.Choices() {
		check("choice." + c.Path)
		for _, o := range c.Options {
			check("option." + o)
		}
	}
	for _, s := range repair.Specs() {
		check("repair." + string(s.Kind))
		for _, p := range s.Parameters {
			check("repair." + string(s.Kind) + "." + p.Key)
		}
	}
}

// What an explanation says of a number has its German too, and every group of numbers says what it comes from.
func TestExplanationsAreTranslated(t *testing.T) {
	de, en := words.For(words.German), words.For(words.English)
	const none = "\x00"
	sources := map[string]bool{}
	for _, q := range valve.Quantities() {
		for what, text := range map[string]string{"meaning": q.Meaning, "formula": q.Formula, "limits": q.Limits} {
			if key := what + "." + q.Path; text != "" && de.Table(key, none) == none {
				t.Errorf("no German for %q: %q", key, text)
			}
		}
		if de.Table("phase."+q.Phase, none) == none {
			t.Errorf("no German for the phase %q of %s", q.Phase, q.Path)
		}
		group, _, _ := strings.Cut(q.Path, ".")
		if !en.Has("tip.inputs." + group) {
			t.Errorf("nothing says what %s comes from: no tip.inputs.%s", q.Path, group)
		}
		sources[q.Source] = true
	}
	// A source is a row of a sheet (S45, physics.md F) and reads the same in every language; one in words has its German.
	row := regexp.MustCompile(`^((physics|anatomy|users)\.md [A-Z]\d*|S\d\d)(, ?(S?[A-Z]?\d+|[A-Z]\d))*$`)
	for s := range sources {
		if s != "" && !row.MatchString(s) && !strings.HasPrefix(s, "physics.md") && !strings.HasPrefix(s, "anatomy.md") && de.Table("source."+s, none) == none {
			t.Errorf("no German for the source %q", s)
		}
	}
}

// source returns the texts that a pattern finds in the program's own source, tests left out.
func source(t *testing.T, pattern string, folders ...string) []string {
	t.Helper()
	var found []string
	for _, f := range folders {
		files, err := filepath.Glob(f)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no files", f)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(string(data), -1) {
				found = append(found, strings.Join(m[1:], ""))
			}
		}
	}
	return found
}

// Every finding that sim/valve can make and every refusal in sim has its German.
func TestFindingsAndRefusalsAreTranslated(t *testing.T) {
	de := words.For(words.German)
	const none = "\x00"
	codes := source(t, `add\("([a-z-]+)", (?:note|caution|failure)|within\("([a-z-]+)"`, "../../../sim/valve/*.go")
	if len(codes) < 20 {
		t.Errorf("only %d findings found: the search is broken", len(codes))
	}
	for _, c := range codes {
		if de.Table("finding."+c, none) == none {
			t.Errorf("no German for the finding %q", c)
		}
	}
	problems := source(t, `Problem: +"([^"]+)"`, "../../../sim/*/*.go")
	if len(problems) < 40 {
		t.Errorf("only %d refusals found: the search is broken", len(problems))
	}
	for _, p := range problems {
		if de.Table("fault."+p, none) == none {
			t.Errorf("no German for the refusal %q", p)
		}
	}
}

func TestNumbersInGermanTexts(t *testing.T) {
	de, en := words.For(words.German), words.For(words.English)
	text := "The edge-clip at -0.25 grasps nothing: the gap there is 9.4 mm, beyond its reach. It has no effect."
	if got := de.Numbered("finding.clip-not-grasped", text); !strings.Contains(got, "bei −0,25") || !strings.Contains(got, "misst 9,4 mm") {
		t.Error(got)
	}
	if got := en.Numbered("finding.clip-not-grasped", text); got != text {
		t.Error(got)
	}
	if got := de.Allowed("at most 60 % of the path, 3.5 to 40 mm"); !strings.Contains(got, "höchstens 60") || !strings.Contains(got, "3,5 bis 40") {
		t.Error(got)
	}
	if got := de.Fault("no valve with this annulus closes like that (residual 3)"); got != "keine Klappe mit diesem Anulus schließt so (residual 3)" {
		t.Error(got)
	}
	if got := de.Fault("something new"); got != "something new" {
		t.Error(got)
	}
}

// Every error that a shared state, a link or a running order can make reads as German in German.
func TestErrorsOfFilesAreTranslated(t *testing.T) {
	de := words.For(words.German)
	texts := source(t, `(?:Errorf|errors\.New)\("(?:study|lectern|link): ([^"]+)"`, "../study/*.go", "../lectern/*.go", "../link/*.go")
	if len(texts) < 10 {
		t.Errorf("only %d errors found: the search is broken", len(texts))
	}
	for _, text := range texts {
		text = strings.NewReplacer("%d", "7", "%.8q", `"7"`, "%s", "7", ": %w", ": cannot be read: x").Replace(text)
		if strings.HasSuffix(text, " ") {
			text += "state="
		}
		got := de.Problem("study: " + text)
		for _, english := range []string{" the ", " is ", " are ", "step", "not a ", " than "} {
			if strings.Contains(" "+got, english) {
				t.Errorf("%q reads %q", text, got)
			}
		}
	}
	if got := de.Problem("lectern: step 3: study: version 9 is unknown, this program reads 1 to 1"); got != "Schritt 3: Version 9 ist unbekannt, dieses Programm liest 1 bis 1" {
		t.Error(got)
	}
	if got := de.Warning("view.zoom: 9.5 is outside 0.4 to 4"); got != "view.zoom: 9,5 liegt außerhalb von 0,4 bis 4" {
		t.Error(got)
	}
}

// Sources of parameters and repairs read as German in German: only references and names are left as they are.
func TestSourcesAreTranslated(t *testing.T) {
	de := words.For(words.German)
	english := regexp.MustCompile(`\b(the|of|from|chosen|normal adult|below|within|about|between|memory|practice|behind|covered|directly|grows|acute|chronic)\b`)
	check := func(text string) {
		if got := de.Source(text); english.MatchString(got) {
			t.Errorf("%q reads %q", text, got)
		}
	}
	for _, p := range anatomy.Parameters() {
		check(p.Source)
	}
	for _, s := range repair.Specs() {
		check(s.Source)
	}
	if got := de.Source("S63: 12 to 13 mm oblique; S68: below 8 mm plane to plane"); got != "S63: 12 bis 13 mm schräg; S68: unter 8 mm Ebene zu Ebene" {
		t.Error(got)
	}
}

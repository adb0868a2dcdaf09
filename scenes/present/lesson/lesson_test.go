package lesson_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"
)

func builtIn(name string) (casefile.Case, error) {
	data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
	if err != nil {
		return casefile.Case{}, &fault.Field{Path: "case", Value: name, Problem: "no such case"}
	}
	return casefile.Decode(data)
}

func file(t testing.TB, name string) []byte {
	t.Helper()
	data, err := assets.Lessons.ReadFile("lessons/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// solver solves each distinct case once for all tests.
var solver = struct {
	sync.Mutex
	done map[string]valve.Report
	s    *valve.Solver
}{done: map[string]valve.Report{}, s: valve.NewSolver()}

func solve(c casefile.Case) (valve.Report, error) {
	solver.Lock()
	defer solver.Unlock()
	if r, ok := solver.done[casefile.Hash(c)]; ok {
		return r, nil
	}
	r, err := solver.s.Solve(c, valve.Options{Circulation: true, Attribution: true})
	if err == nil {
		solver.done[casefile.Hash(c)] = r
	}
	return r, err
}

// solveAll solves the cases of all lessons side by side, each once.
func solveAll(all []*lesson.Lesson) {
	seen := map[string]bool{}
	var cases []casefile.Case
	for _, l := range all {
		for _, p := range l.Plans {
			if h := casefile.Hash(p.Case); !seen[h] {
				seen[h] = true
				cases = append(cases, p.Case)
			}
		}
	}
	var wait sync.WaitGroup
	const threads = 2
	for k := range threads {
		wait.Go(func() {
			s := valve.NewSolver() // keeps a patient's baseline from one case to the next
			for _, c := range cases[k*len(cases)/threads : (k+1)*len(cases)/threads] {
				r, err := s.Solve(c, valve.Options{Circulation: true, Attribution: true})
				if err == nil {
					solver.Lock()
					solver.done[casefile.Hash(c)] = r
					solver.Unlock()
				}
			}
		})
	}
	wait.Wait()
}

func check(data []byte) error {
	l, err := lesson.Parse(data, builtIn)
	if err != nil {
		return err
	}
	res, err := l.Solve(solve)
	if err != nil {
		return err
	}
	return l.Check(res)
}

func TestEveryBuiltInLessonAgreesWithTheModel(t *testing.T) {
	all, err := lesson.ReadAll(assets.LessonFiles(), func(n string) ([]byte, error) { return assets.Lessons.ReadFile("lessons/" + n) }, builtIn)
	if err != nil {
		t.Fatal(err)
	}
	languages := map[string]int{}
	for _, l := range all {
		languages[l.Language]++
	}
	if languages["en"] < 9 || languages["de"] < 9 {
		t.Errorf("lessons by language %v, at least nine are promised in each", languages)
	}
	if raced { // every lesson was read; solving all of them is for the run without the race detector, and for `lesson check`
		all = slices.DeleteFunc(all, func(l *lesson.Lesson) bool { return l.Name != "sinus-route" && l.Name != "commissural-view" })
	}
	solveAll(all)
	orders := map[int]string{}
	for _, l := range all {
		res, err := l.Solve(solve)
		if err != nil {
			t.Fatalf("%s: %v", l.Name, err)
		}
		if err := l.Check(res); err != nil {
			t.Errorf("%s.%s:\n%v", l.Name, l.Language, err)
		}
		w := words.For(words.Language(l.Language))
		if text := l.Script(w, res); strings.Contains(text, "…") || strings.Contains(text, "«") || strings.Contains(text, "{{") {
			t.Errorf("%s.%s: gaps left in\n%s", l.Name, l.Language, text)
		}
		for _, e := range l.Evidence {
			if model, gap, ok := e.Model(res); !ok || math.Abs(model-e.Published-gap) > 1e-9 {
				t.Errorf("%s: evidence %q has no gap", l.Name, e.Finding)
			}
		}
		if l.Language == "en" {
			if other := orders[l.Order]; other != "" {
				t.Errorf("%s and %s have the same place", l.Name, other)
			}
			orders[l.Order] = l.Name
		}
	}
}

// A lesson whose text is wrong fails at the line that is wrong.
func TestWrongLessonsNameTheLine(t *testing.T) {
	good := string(file(t, "sinus-route.en.md"))
	lineOf := func(text, word string) int {
		i := strings.Index(text, word)
		if i < 0 {
			t.Fatalf("%q is not in the lesson", word)
		}
		return strings.Count(text[:i], "\n") + 1
	}
	for _, c := range []struct{ name, from, to, at, says string }{
		{"a claim that the model denies", "band.sinus.transmitted_fraction < 75", "band.sinus.transmitted_fraction > 75", "transmitted_fraction > 75", "no longer agrees"},
		{"no choice is right", "when: 30 < band.sinus.transmitted_fraction <= 60", "when: band.sinus.transmitted_fraction > 990", "choices:", "no choice is right"},
		{"two choices are right", "when: band.sinus.transmitted_fraction <= 30", "when: band.sinus.transmitted_fraction <= 95", "text: Less than a third", "two choices are right"},
		{"unknown quantity in the text", "{{band: after.sinus.shortening_mm | 1}}", "{{band: after.sinus.shrtening_mm | 1}}", "shrtening", "did you mean sinus.shortening_mm"},
		{"unknown plan in the text", "{{high: after.sinus.transmitted_fraction | 0}}", "{{hihg: after.sinus.transmitted_fraction | 0}}", "hihg", "did you mean high"},
		{"unlike units", "{{high: after.sinus.transmitted_fraction | 0}}", "{{high: after.sinus.transmitted_fraction - high: after.sinus.tension_n | 0}}", "high: after.sinus.tension_n", "do not go together"},
		{"missing section", "## why", "### why", "---\n## question", "missing or empty"},
		{"unknown section", "## why", "## wy", "## wy", "did you mean why"},
		{"bad case", "case: high-sinus", "case: low-sinus", "case: low-sinus", "no such case"},
		{"bad repair", "posterior-band,downsizing_pct=15", "posterior-band,downsizing_pct=95", "downsizing_pct=95", "out of range"},
		{"unknown key", "minutes: 7", "minuets: 7", "minuets", "did you mean minutes"},
		{"unknown control", "group/distance]", "group/distanc]", "group/distanc]", "no such control"},
		{"a gap in a choice", "text: Less than a third", "text: Less than {{band.sinus.tension_n}}", "text: Less than {{", "no gaps"},
		{"unclosed gap", "{{high: after.sinus.transmitted_fraction | 0}}", "{{high: after.sinus.transmitted_fraction | 0", "{{high: after.sinus.transmitted_fraction | 0 instead", "not closed"},
		{"markup", "No operation", "No `operation`", "`operation`", "markup"},
		{"a quantity that does not apply", "{{high: after.sinus.transmitted_fraction | 0}}", "{{direct: after.sinus.transmitted_fraction | 0}}", "{{direct: after.sinus.transmitted_fraction", "does not apply"},
		{"evidence without a model", "    model: 100 * band.change.regurgitation", "    note2: 100 * band.change.regurgitation", "note2", "no such key"},
		{"yaml", "order: 1", "order: [1", "language: en", "cannot be read"}, // the YAML reader names the line before
		{"version", "annuloscope_lesson: 1", "annuloscope_lesson: 2", "annuloscope_lesson", "version"},
		{"a plan that cannot be solved", "case: high-sinus", "case: high-sinus\n    set: {heart.end_systolic_ml: 320}", "high:", "heart"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(good, c.from) {
				t.Fatalf("%q is not in the lesson", c.from)
			}
			bad := strings.Replace(good, c.from, c.to, 1)
			want := lineOf(bad, c.at)
			err := check([]byte(bad))
			var all lesson.Errors
			if !errors.As(err, &all) {
				t.Fatalf("error %v", err)
			}
			found := false
			for _, f := range all {
				found = found || f.Line == want && strings.Contains(f.Error(), c.says)
			}
			if !found {
				t.Errorf("want line %d and %q, got\n%v", want, c.says, err)
			}
		})
	}
}

func TestColumnOfAPlaceholder(t *testing.T) {
	good := string(file(t, "sinus-route.en.md"))
	const word = "hihg.sinus.tension_n"
	bad := strings.Replace(good, "Nothing was done differently.", "Nothing ä {{"+word+"}}.", 1)
	err := check([]byte(bad))
	var all lesson.Errors
	if !errors.As(err, &all) || len(all) != 1 {
		t.Fatal(err)
	}
	i := strings.Index(bad, word)
	if want := i - strings.LastIndex(bad[:i], "\n"); all[0].Column != want {
		t.Errorf("column %d, want %d (in bytes)", all[0].Column, want)
	}
}

func TestInlineCase(t *testing.T) {
	good := string(file(t, "commissural-view.en.md"))
	inline := strings.Replace(good, "    case: normal\n", "    case:\n      annuloscope: 1\n      name: mine\n      annulus:\n        height_mm: 8\n      measured: {depth_mm: 5, contact_mm: 4, effective_orifice_cm2: 0, opening_area_cm2: 5}\n", 1)
	l, err := lesson.Parse([]byte(inline), builtIn)
	if err != nil {
		t.Fatal(err)
	}
	if p, _ := l.Plan("sound"); p.Case.Patient.Annulus.HeightMM != 8 || p.Case.Name != "mine" {
		t.Errorf("read %+v", p.Case.Patient.Annulus)
	}
	bad := strings.Replace(inline, "height_mm: 8", "height_mm: 88", 1)
	_, err = lesson.Parse([]byte(bad), builtIn)
	var f *fault.Field
	want := strings.Count(bad[:strings.Index(bad, "height_mm: 88")], "\n") + 1
	if !errors.As(err, &f) || f.Line != want {
		t.Errorf("%v, want line %d", err, want)
	}
}

// Right answers follow the model: with another model the same lesson has another right answer.
func TestAnswersAreComputed(t *testing.T) {
	l, err := lesson.Parse(file(t, "sinus-route.en.md"), builtIn)
	if err != nil {
		t.Fatal(err)
	}
	for fraction, want := range map[float64]int{0.95: 0, 0.7: 1, 0.45: 2, 0.1: 3} {
		r := valve.Report{}
		r.After.Sinus.TransmittedFraction, r.After.Sinus.ShorteningMM = fraction, 10
		if got := l.Prediction.Right(lesson.Results{"band": &r}); got != want {
			t.Errorf("%v arrives: choice %d, want %d", fraction, got, want)
		}
	}
	if got := l.Prediction.Right(nil); got != -1 {
		t.Errorf("an answer before anything is solved: %d", got)
	}
}

func TestNumbersAreJudgedWithinTheMargin(t *testing.T) {
	g := lesson.Number{Within: 1, Min: -2, Max: 14, Step: 0.5}
	for guess, want := range map[float64]bool{3: true, 4: true, 4.5: false, 2: true, 1.5: false} {
		if g.Close(guess, 3) != want {
			t.Errorf("%v for 3", guess)
		}
	}
	if g.Middle() != 6 {
		t.Errorf("middle %v", g.Middle())
	}
}

func TestTranslationMustFit(t *testing.T) {
	l, err := lesson.Parse(file(t, "sinus-route.en.md"), builtIn)
	if err != nil {
		t.Fatal(err)
	}
	head := "---\nannuloscope_lesson: 1\ntranslates: true\nname: sinus-route\nlanguage: de\ntitle: T\nsummary: S\nplans: {band: B}\n"
	body := "---\n"
	for _, s := range lesson.SectionNames() {
		body += "## " + s + "\ntext {{band.sinus.tension_n | 1}}\n"
	}
	four := "prediction:\n  choices:\n    - text: a\n    - text: b\n    - text: c\n    - text: d\n"
	three := "transfer:\n  choices:\n    - text: a\n    - text: b\n    - text: c\n"
	cards := "evidence:\n  - finding: f\n  - finding: g\n"
	join := func(text string) error {
		tr, err := lesson.Parse([]byte(text), builtIn)
		if err != nil {
			return err
		}
		_, err = l.Translate(tr)
		return err
	}
	if err := join(head + four + three + cards + body); err != nil {
		t.Errorf("a good translation is refused: %v", err)
	}
	for name, text := range map[string]string{
		"too few choices": head + three + cards + strings.Replace(four, "    - text: d\n", "", 1) + body, "no cards": head + four + three + body,
		"another plan":        strings.Replace(head, "{band: B}", "{bnad: B}", 1) + four + three + cards + body,
		"another name":        strings.Replace(head, "sinus-route", "sinus-rout", 1) + four + three + cards + body,
		"unknown plan in gap": head + four + three + cards + strings.Replace(body, "{{band.", "{{bnad.", 1),
	} {
		if join(text) == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func frontMatter(t testing.TB, data []byte) any {
	t.Helper()
	parts := strings.SplitN(string(data), "---\n", 3)
	var v any
	if err := yaml.Unmarshal([]byte(parts[1]), &v); err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	out, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The published schema takes every built-in lesson, and refuses what Parse refuses.
func TestSchema(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(lesson.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(lesson.SchemaID, doc); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile(lesson.SchemaID)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range assets.LessonFiles() {
		if err := schema.Validate(frontMatter(t, file(t, name))); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	good := string(file(t, "sinus-route.en.md"))
	for _, c := range [][2]string{{"minutes: 7", "minutes: many"}, {"minutes: 7", "minuets: 7"}, {"language: en", "language: xx"}, {"downsizing_pct=15\"", "downsizing_pct 15\""}, {"scene: strip", "scene: home"}} {
		bad := strings.Replace(good, c[0], c[1], 1)
		if schema.Validate(frontMatter(t, []byte(bad))) == nil {
			t.Errorf("%s: the schema takes it", c[1])
		}
		if _, err := lesson.Parse([]byte(bad), builtIn); err == nil {
			t.Errorf("%s: Parse takes it", c[1])
		}
	}
	if repair.Must(repair.SinusBand).String() == "" {
		t.Fatal("no way to write a repair")
	}
}

func FuzzLesson(f *testing.F) {
	for _, name := range assets.LessonFiles() {
		data, err := assets.Lessons.ReadFile("lessons/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("---\nannuloscope_lesson: 1\nexpect: [\"((((a.b < 1\"]\nplans: {a: {case: {annuloscope: 1}}}\n---\n## question\n{{ abs(-a.x | 9 }} {{"))
	f.Add([]byte("---\n&a a: *a\n---\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := lesson.Parse(data, builtIn)
		var all lesson.Errors
		if err != nil && !errors.As(err, &all) {
			t.Fatalf("%v is not a list of faults", err)
		}
		for _, e := range all {
			if e.Line < 1 || e.Column < 1 {
				t.Fatalf("%v has no place", e)
			}
		}
		if err == nil && !l.Translates {
			l.Script(words.For(words.English), nil) // must not panic with nothing solved
			_ = l.Check(lesson.Results{})
		}
	})
}

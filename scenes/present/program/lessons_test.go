package program_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"sync"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/lessonview"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

func builtInCase(name string) (casefile.Case, error) {
	data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
	if err != nil {
		return casefile.Case{}, err
	}
	return casefile.Decode(data)
}

var readLessons = sync.OnceValues(func() ([]*lesson.Lesson, error) {
	return lesson.ReadAll(assets.LessonFiles(), func(n string) ([]byte, error) { return assets.Lessons.ReadFile("lessons/" + n) }, builtInCase)
})

func allLessons(t testing.TB) []*lesson.Lesson {
	all, err := readLessons()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// lessonSolver is the real engine in its quick tier; a case met before is answered from memory. Whether the texts agree
// with the closed loop is tested in package lesson.
type lessonSolver struct{ solver *valve.Solver }

func (s lessonSolver) Solve(c casefile.Case) (valve.Report, error) {
	return recall("lesson "+casefile.Hash(c), func() (valve.Report, error) { return s.solver.Solve(c, valve.Options{Attribution: true}) })
}

type keptProgress struct{ data []byte }

func (k *keptProgress) Keep(data []byte) error { k.data = append([]byte(nil), data...); return nil }

func startLessons(t testing.TB, k study.Keeper, kept []byte) *program.Program {
	solver := lessonSolver{valve.NewSolver()}
	p := program.New(program.Config{Runner: study.NewSync(remembered{}), Sweeper: func() study.Runner { return study.NewSync(noSweep{}) }, Cases: cases(t), Lessons: allLessons(t), Progress: k, Gone: kept,
		Beside: func() study.Runner { return study.NewSync(solver) }})
	settle(p)
	visit(t, p, "lessons")
	return p
}

func visit(t testing.TB, p *program.Program, name string) {
	t.Helper()
	p.Open("", "scene="+name)
	paint(p, 1280, 800)
	if p.Inspect().(map[string]any)["scene"] != name {
		t.Fatalf("no scene %s", name)
	}
}

// do works a control as the page's HTML side does, and paints.
func do(t testing.TB, p *program.Program, id, value string) {
	t.Helper()
	if err := p.Act(id, value); err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	paint(p, 1280, 800)
}

func control(p *program.Program, id string) (present.Control, bool) {
	for _, c := range p.Controls() {
		if c.ID == id {
			return c, true
		}
	}
	return present.Control{}, false
}

// spoken is everything that a screen reader meets on the page.
func spoken(p *program.Program) string {
	var b strings.Builder
	for _, c := range p.Controls() {
		b.WriteString(c.Name + " " + c.Text + "\n")
	}
	return b.String()
}

// compute ticks until the lesson's plans are solved.
func compute(t testing.TB, p *program.Program) {
	t.Helper()
	for range 100 {
		p.Tick(0)
		paint(p, 1280, 800)
		if _, busy := control(p, "lesson/computing"); !busy {
			return
		}
	}
	t.Fatal("the plans are not solved")
}

// answerPage commits a prediction: the choice with that index, or the middle of the slider.
func answerPage(t *testing.T, p *program.Program, choice int) {
	t.Helper()
	if c, _ := control(p, "lesson/commit"); !c.Disabled {
		t.Error("a prediction can be committed before one is made")
	}
	if c, ok := control(p, "lesson/choice"); ok {
		do(t, p, "lesson/choice", c.Options[choice])
	} else if c, ok := control(p, "lesson/number"); ok {
		do(t, p, "lesson/number", fmt.Sprint(c.Min+c.Step*2))
	} else {
		t.Fatal("nothing to predict")
	}
	do(t, p, "lesson/commit", "")
}

// walked are the lessons that are gone through under the race detector: one with choices alone, one with a number.
var walked = map[string]bool{"artery": true, "commissural-view": true}

// A person with a screen reader does every lesson from the first page to the last, in every language.
func TestEveryLessonFromStartToEndBySpokenControls(t *testing.T) {
	kept := &keptProgress{}
	p := startLessons(t, kept, nil)
	for _, lang := range []string{"en", "de"} {
		set(p, "light", lang, 1)
		for _, l := range allLessons(t) {
			if l.Language != lang || raceDetector && !walked[l.Name] {
				continue
			}
			paint(p, 1280, 800)
			do(t, p, "lesson/open/"+l.Name, "")
			for _, b := range l.Sections["question"].Blocks {
				if !strings.Contains(spoken(p), b.Text.Fill(p.Desk().W(), nil)) {
					t.Errorf("%s: the question is not spoken", l.Name)
				}
			}
			if c, ok := control(p, "lesson/next"); !ok || !c.Disabled {
				t.Fatalf("%s: the reveal is within reach before the prediction", l.Name)
			}
			if strings.Contains(spoken(p), "…") {
				t.Errorf("%s: gaps before the reveal: %s", l.Name, spoken(p))
			}
			answerPage(t, p, 0)
			if _, ok := control(p, "lesson/choice"); ok {
				t.Errorf("%s: the prediction can be changed after it was committed", l.Name)
			}
			compute(t, p)
			verdict, ok := control(p, "lesson/verdict")
			if !ok || len(verdict.Name) < 20 || p.Announcement() == "" || !strings.Contains(verdict.Name, afterColon(p.Announcement())) {
				t.Errorf("%s: verdict %q, announced %q", l.Name, verdict.Name, p.Announcement())
			}
			if len(l.Prediction.Choices) > 0 && !strings.Contains(spoken(p), l.Prediction.Choices[0].Text) {
				t.Errorf("%s: the prediction is not named at the reveal", l.Name)
			}
			numbers := 0
			for _, c := range p.Controls() {
				if strings.HasPrefix(c.ID, "quantity/") && c.Text != "" {
					numbers++
				}
			}
			if numbers != len(l.Compute.Quantities) {
				t.Errorf("%s: %d of %d quantities are spoken", l.Name, numbers, len(l.Compute.Quantities))
			}
			for _, section := range []string{"why", "evidence", "explore", "transfer"} {
				do(t, p, "lesson/next", "")
				text := spoken(p)
				if strings.Contains(text, "…") || strings.Contains(text, "«") {
					t.Errorf("%s, %s: gaps left: %s", l.Name, section, text)
				}
				for _, b := range l.Sections[section].Blocks[:1] {
					if first := strings.Fields(b.Text.Fill(p.Desk().W(), nil))[0]; !strings.Contains(text, first) {
						t.Errorf("%s: section %s is not spoken", l.Name, section)
					}
				}
				if section == "evidence" && !strings.Contains(text, p.Desk().W().T("lesson.card.gap")) && !strings.Contains(strings.ToLower(text), "gap") && !strings.Contains(text, "Abstand") {
					t.Errorf("%s: no gap on the evidence card", l.Name)
				}
				if section == "explore" {
					explore(t, p, l)
				}
			}
			if c, _ := control(p, "lesson/finish"); !c.Disabled {
				t.Errorf("%s: finished before the transfer case", l.Name)
			}
			answerPage(t, p, 0)
			compute(t, p)
			if _, ok := control(p, "lesson/verdict"); !ok {
				t.Errorf("%s: no answer to the transfer case", l.Name)
			}
			do(t, p, "lesson/finish", "")
			if !strings.Contains(p.Announcement(), l.Title) {
				t.Errorf("%s: the end is not announced: %q", l.Name, p.Announcement())
			}
		}
	}
	done := map[string]bool{}
	progress, err := lessonview.ReadProgress(kept.data)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range progress.Lessons {
		done[e.Lesson] = e.Done && e.Prediction != nil && e.Prediction.Agreed != nil && e.Transfer != nil && e.Transfer.Agreed != nil
	}
	for _, l := range allLessons(t) {
		if !done[l.Name] && (walked[l.Name] || !raceDetector) {
			t.Errorf("%s is not kept as done", l.Name)
		}
	}
}

// afterColon is the model's answer in the sentence on top.
func afterColon(s string) string {
	_, rest, _ := strings.Cut(s, ": ")
	return strings.TrimSuffix(rest, ".")
}

// explore goes to the other scene, checks that the lesson's case is there, and comes back.
func explore(t *testing.T, p *program.Program, l *lesson.Lesson) {
	t.Helper()
	do(t, p, "lesson/explore", "")
	settle(p)
	if at := p.Inspect().(map[string]any)["scene"]; at != l.Explore.Scene {
		t.Errorf("%s: exploring opened %v", l.Name, at)
	}
	plan, _ := l.Plan(l.Explore.Plan)
	if casefile.Hash(p.Desk().S.Case) != casefile.Hash(plan.Case) {
		t.Errorf("%s: another case is open", l.Name)
	}
	paint(p, 1280, 800)
	if !strings.Contains(p.Announcement(), l.Title) {
		t.Errorf("%s: the way back is not announced: %q", l.Name, p.Announcement())
	}
	visit(t, p, "lessons")
	if _, ok := control(p, "lesson/restore"); !ok {
		t.Fatalf("%s: no way to put the own patient back", l.Name)
	}
	do(t, p, "lesson/restore", "")
	settle(p)
	if casefile.Hash(p.Desk().S.Case) != casefile.Hash(cases(t)[0]) {
		t.Errorf("%s: the own patient did not come back", l.Name)
	}
}

// The same with keys alone, for one lesson: Tab, arrows, Enter.
func TestOneLessonByKeyboard(t *testing.T) {
	p := startLessons(t, nil, nil)
	paint(p, 1280, 800)
	focus(t, p, "lesson/open/sinus-route")
	key(p, input.Enter, 0)
	paint(p, 1280, 800)
	focus(t, p, "lesson/choice")
	key(p, input.Down, 0)
	paint(p, 1280, 800)
	if c, _ := control(p, "lesson/choice"); c.Text == "" {
		t.Fatal("the arrow keys choose nothing")
	}
	focus(t, p, "lesson/commit")
	key(p, input.Enter, 0)
	compute(t, p)
	if _, ok := control(p, "lesson/verdict"); !ok {
		t.Fatal("no verdict")
	}
	focus(t, p, "lesson/next")
	key(p, input.Enter, 0)
	paint(p, 1280, 800)
	if d := p.Description(); !strings.Contains(d, p.Desk().W().T("lesson.section.why")) {
		t.Errorf("description %q", d)
	}
}

// What was predicted is kept, taken up again and handed out as a file with the notice and nothing personal.
func TestProgressIsKeptAndExported(t *testing.T) {
	kept := &keptProgress{}
	p := startLessons(t, kept, nil)
	do(t, p, "lesson/open/artery", "")
	answerPage(t, p, 1)
	q := startLessons(t, kept, kept.data)
	do(t, q, "lesson/open/artery", "")
	compute(t, q)
	if _, ok := control(q, "lesson/verdict"); !ok {
		t.Error("the lesson does not go on where it was left")
	}
	do(t, q, "lesson/list", "")
	do(t, q, "lesson/save", "")
	wishes := q.Wishes()
	if len(wishes) != 1 || wishes[0].Kind != present.SaveFile {
		t.Fatalf("wishes %+v", wishes)
	}
	var file map[string]any
	if err := json.Unmarshal(wishes[0].Data, &file); err != nil {
		t.Fatal(err)
	}
	if file["notice"] != valve.Notice {
		t.Errorf("notice %v", file["notice"])
	}
	for k := range file {
		if k != "notice" && k != "version" && k != "lessons" {
			t.Errorf("unexpected field %s", k)
		}
	}
	do(t, q, "lesson/forget", "")
	if strings.Contains(string(kept.data), "artery") {
		t.Error("forgotten progress is still kept")
	}
	for _, bad := range []string{"{", `{"version":9}`, strings.Repeat("x", 1<<17)} {
		if _, err := lessonview.ReadProgress([]byte(bad)); err == nil {
			t.Errorf("%.20q accepted", bad)
		}
	}
}

// Where a lesson has no translation, the English one is shown with a note.
func TestLessonWithoutTranslationIsEnglishWithANote(t *testing.T) {
	var english []*lesson.Lesson
	for _, l := range allLessons(t) {
		if l.Language == "en" {
			english = append(english, l)
		}
	}
	p := program.New(program.Config{Runner: study.NewSync(remembered{}), Cases: cases(t), Lessons: english})
	visit(t, p, "lessons")
	set(p, "light", "de", 1)
	paint(p, 1280, 800)
	do(t, p, "lesson/open/artery", "")
	if c, ok := control(p, "lesson/language"); !ok || c.Name != p.Desk().W().T("lesson.english") {
		t.Errorf("no note: %+v", c)
	}
	set(p, "light", "en", 1)
	paint(p, 1280, 800)
	if _, ok := control(p, "lesson/language"); ok {
		t.Error("a note although the lesson is in the language in use")
	}
}

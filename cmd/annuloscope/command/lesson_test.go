package command_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/cmd/annuloscope/command"
)

func lessonFile(t *testing.T, edit func(string) string) string {
	t.Helper()
	data, err := assets.Lessons.ReadFile("lessons/commissural-view.en.md")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "mine.en.md")
	if err := os.WriteFile(path, []byte(edit(string(data))), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestLessonCommands(t *testing.T) {
	good := lessonFile(t, func(s string) string { return s })
	for _, c := range []struct {
		args []string
		says []string
	}{
		{[]string{"lesson"}, []string{"sinus-route", "Why the sinus route underperforms", "Educational only"}},
		{[]string{"lesson", "list"}, []string{"commissural-view"}},
		{[]string{"lesson", "check", good}, []string{"agrees with the model", "Educational only"}},
		{[]string{"lesson", "show", good}, []string{"== Why ==", "mm above", "Educational only"}},
		{[]string{"lesson", "show", "commissural-view", "--language", "de"}, []string{"== Warum ==", "Sattel"}},
		{[]string{"lesson", "answers", "commissural-view"}, []string{"> c)", "holds: sound.coaptation.depth_mm", "Educational only"}},
	} {
		code, out, errs := run(c.args...)
		if code != command.Done {
			t.Errorf("%v: exit %d: %s", c.args, code, errs)
		}
		for _, want := range c.says {
			if !strings.Contains(out, want) {
				t.Errorf("%v: %q is missing in\n%s", c.args, want, out)
			}
		}
	}
	if code, out, _ := run("lesson", "schema"); code != command.Done || !json.Valid([]byte(out)) {
		t.Errorf("schema: exit %d", code)
	}
}

// A lesson that no longer agrees fails with the exit code of a bad case, naming file, line and column.
func TestLessonCheckRefuses(t *testing.T) {
	for name, edit := range map[string][3]string{
		"a claim":   {"sound.coaptation.depth_mm > 3", "sound.coaptation.depth_mm > 30", "line 21, column 5: expect: the model no longer agrees"},
		"a mistake": {"minutes: 5", "minuets: 5", "line 8, column 1: minuets: no such key"},
	} {
		path := lessonFile(t, func(s string) string { return strings.Replace(s, edit[0], edit[1], 1) })
		code, out, errs := run("lesson", "check", path)
		if code != command.BadCase || !strings.Contains(errs, path+": "+edit[2]) {
			t.Errorf("%s: exit %d, %s", name, code, errs)
		}
		if out != "" {
			t.Errorf("%s: writes to standard output: %q", name, out)
		}
	}
	if code, _, errs := run("lesson", "check", "no-such.md"); code != command.Failed || !strings.Contains(errs, "no-such.md") {
		t.Errorf("exit %d, %s", code, errs)
	}
	if code, _, errs := run("lesson", "show", "sinus-rout"); code != command.BadCase || !strings.Contains(errs, "did you mean sinus-route?") {
		t.Errorf("exit %d, %s", code, errs)
	}
}

// A teacher's own file joins the list; a name that is taken is refused.
func TestOwnLessonJoinsTheList(t *testing.T) {
	own := lessonFile(t, func(s string) string { return strings.Replace(s, "name: commissural-view", "name: mine", 1) })
	all, err := command.Lessons(own)
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, l := range all {
		found = found || l.Name == "mine"
	}
	if !found {
		t.Error("the lesson is not in the list")
	}
	if _, err := command.Lessons(lessonFile(t, func(s string) string { return s })); err == nil || !strings.Contains(err.Error(), "already there") {
		t.Errorf("a name that is taken: %v", err)
	}
}

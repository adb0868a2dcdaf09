package command

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/scenes/present/lessonview"
)

// The progress in the lessons is kept in the user's own folder; a file that cannot be read is left as it is.
func TestLessonProgressIsKept(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", dir)
	t.Setenv("HOME", dir)
	var warn bytes.Buffer
	k, data := lessonProgress(&warn)
	if k == nil || data != nil {
		t.Fatalf("a fresh start: keeper %v, data %q", k, data)
	}
	want := lessonview.Progress{Lessons: []lessonview.Entry{{Lesson: "artery", Seen: 2, Prediction: &lessonview.Answer{Choice: 1}}}}.Encode()
	if err := k.Keep(want); err != nil {
		t.Fatal(err)
	}
	if k, data = lessonProgress(&warn); k == nil || !bytes.Equal(data, want) {
		t.Errorf("kept %q, want %q", data, want)
	}
	file := k.(lessonKeeper).file
	if err := os.WriteFile(file, []byte("damaged"), 0o644); err != nil {
		t.Fatal(err)
	}
	if k, data = lessonProgress(&warn); k != nil || data != nil || warn.Len() == 0 {
		t.Errorf("a damaged file: keeper %v, data %q, said %q", k, data, warn.String())
	}
	if left, err := os.ReadFile(file); err != nil || string(left) != "damaged" {
		t.Errorf("the damaged file was changed: %q %v", left, err)
	}
	if names, _ := filepath.Glob(filepath.Join(filepath.Dir(file), "*")); len(names) != 1 {
		t.Errorf("left behind: %v", names)
	}
}

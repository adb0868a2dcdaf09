package save_test

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/scenes/save"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

func TestFileIsReplacedOnlyWhenFinished(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "valve.png")
	if err := save.File(name, text("first")); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken")
	err := save.File(name, func(w io.Writer) error {
		io.WriteString(w, "half a fi")
		if got, _ := os.ReadFile(name); string(got) != "first" {
			t.Errorf("while writing, the file holds %q", got)
		}
		return broken
	})
	if !errors.Is(err, broken) {
		t.Errorf("error %v", err)
	}
	if got, _ := os.ReadFile(name); string(got) != "first" {
		t.Errorf("after a failure the file holds %q", got)
	}
	if err := save.File(name, text("second")); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(name); string(got) != "second" {
		t.Errorf("the file holds %q", got)
	}
	if all, _ := os.ReadDir(dir); len(all) != 1 {
		t.Errorf("left behind: %v", all)
	}
}

func TestFileInMissingFolder(t *testing.T) {
	name := filepath.Join(t.TempDir(), "none", "valve.png")
	if err := save.File(name, text("x")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("error %v", err)
	}
}

func TestPanicLeavesTheOldFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "valve.png")
	if err := save.File(name, text("first")); err != nil {
		t.Fatal(err)
	}
	func() {
		defer func() { _ = recover() }()
		save.File(name, func(w io.Writer) error { io.WriteString(w, "x"); panic("killed") })
	}()
	if got, _ := os.ReadFile(name); string(got) != "first" {
		t.Errorf("the file holds %q", got)
	}
	if all, _ := os.ReadDir(filepath.Dir(name)); len(all) != 1 {
		t.Errorf("left behind: %v", all)
	}
}

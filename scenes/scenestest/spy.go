package scenestest

import (
	"encoding/json"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"annuloscope/scenes/present"
)

// State is what a running program says of itself (scenes.Options.Spy in a window, annuloscopeState in a page).
type State struct {
	Pictures      int
	Width, Height float64
	Scale         float64
	Pending       bool
	Announcement  string
	Description   string
	Controls      []present.Control
	Screen        json.RawMessage
}

// Control returns the control with an id.
func (s State) Control(id string) (present.Control, bool) {
	for _, c := range s.Controls {
		if c.ID == id {
			return c, true
		}
	}
	return present.Control{}, false
}

// WaitState reads the state in a spy folder until it is as wanted, and fails the test after the time given.
func WaitState(tb testing.TB, spy string, timeout time.Duration, what string, wanted func(State) bool) State {
	tb.Helper()
	var s State
	var err error
	for end := time.Now().Add(timeout); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
		var data []byte
		if data, err = os.ReadFile(filepath.Join(spy, "state.json")); err != nil {
			continue
		}
		s = State{}
		if err = json.Unmarshal(data, &s); err == nil && wanted(s) {
			return s
		}
	}
	tb.Fatalf("waited %v for: %s; last state %+v, error %v", timeout, what, s, err)
	return s
}

// Frame returns the last picture in a spy folder.
func Frame(tb testing.TB, spy string) image.Image {
	tb.Helper()
	f, err := os.Open(filepath.Join(spy, "frame.png"))
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	m, err := png.Decode(f)
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

// Build builds a main package with the Go that runs the test, without cgo, and returns the program's path. More
// environment variables (GOOS=js, GOARCH=wasm) may be given.
func Build(tb testing.TB, pkg string, env ...string) string {
	tb.Helper()
	out := filepath.Join(tb.TempDir(), "program")
	cmd := exec.Command("go", "build", "-trimpath", "-o", out, pkg)
	cmd.Env = append(append(os.Environ(), "CGO_ENABLED=0"), env...)
	if text, err := cmd.CombinedOutput(); err != nil {
		tb.Fatalf("go build %s: %v\n%s", pkg, err, text)
	}
	return out
}

package main_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/scenestest"
)

// The window is killed without warning a few seconds after a change; the next one opens with it.
func TestKilledWindowComesBack(t *testing.T) {
	display := scenestest.StartXvfb(t, 1280, 800)
	program := scenestest.Build(t, "annuloscope/cmd/annuloscope")
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("XDG_CONFIG_HOME", home)
	file := filepath.Join(home, "annuloscope", "state.json")
	id := "repair/sinus-band/shortening_mm"
	value := func(s scenestest.State) float64 { c, _ := s.Control(id); return c.Value }

	spy := t.TempDir()
	first := display.Start(spy, program, "open", "--window")
	display.Window("Annuloscope")
	solved := scenestest.WaitState(t, spy, 60*time.Second, "solved", func(s scenestest.State) bool { return s.Pictures > 0 && !s.Pending })
	slider, ok := solved.Control(id)
	if !ok {
		t.Fatal("no slider for the shortening")
	}
	display.Click(int(slider.Rect.X+0.6*slider.Rect.W), int(slider.Rect.Y+slider.Rect.H/2))
	moved := scenestest.WaitState(t, spy, 30*time.Second, "a shorter sinus", func(s scenestest.State) bool { return value(s) > 5 && !s.Pending })
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		if data, err := os.ReadFile(file); err == nil && strings.Contains(string(data), "sinus-band") {
			break
		}
		if time.Now().After(end) {
			t.Fatal("nothing was kept within 20 s")
		}
	}
	first.Process.Kill()
	first.Wait()

	spy = t.TempDir()
	display.Start(spy, program, "open", "--window")
	again := scenestest.WaitState(t, spy, 60*time.Second, "solved again", func(s scenestest.State) bool { return s.Pictures > 0 && !s.Pending })
	if value(again) != value(moved) {
		t.Errorf("before the end %v mm, after it %v mm", value(moved), value(again))
	}
}

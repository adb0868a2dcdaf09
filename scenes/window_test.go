package scenes_test

import (
	"encoding/json"
	"errors"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/scenestest"
)

type tiny struct {
	Blue                 bool
	Level, Notches       float64
	Typed, Keys, Saved   string
	Drags, Painted       int
	Fragment, Query      string
	Dropped, Said, State string
}

func inside(t *testing.T, s scenestest.State) tiny {
	t.Helper()
	var v tiny
	if err := json.Unmarshal(s.Screen, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

const patience = 20 * time.Second

func TestWindow(t *testing.T) {
	d := scenestest.StartXvfb(t, 800, 600)
	program := scenestest.Build(t, "./scenestest/tiny")
	spy, files := t.TempDir(), t.TempDir()
	t.Setenv("TMPDIR", files)
	cmd := d.Start(spy, program)
	wait := func(what string, wanted func(tiny) bool) scenestest.State {
		t.Helper()
		return scenestest.WaitState(t, spy, patience, what, func(s scenestest.State) bool { return wanted(inside(t, s)) })
	}
	pixel := func(x, y int, want color.RGBA) {
		t.Helper()
		if got := color.RGBAModel.Convert(scenestest.Frame(t, spy).At(x, y)); got != want {
			t.Errorf("pixel %d,%d is %v, want %v", x, y, got, want)
		}
	}
	wait("the first picture", func(v tiny) bool { return v.Painted > 0 })
	id := d.Window("Tiny")
	d.Tool("windowmove", id, "0", "0")
	pixel(90, 90, color.RGBA{255, 0, 0, 255})
	pixel(300, 140, color.RGBA{0, 255, 0, 255})
	d.Click(90, 90)
	wait("a click turns the square blue", func(v tiny) bool { return v.Blue })
	pixel(90, 90, color.RGBA{0, 0, 255, 255})
	screen(t, d, 90, 90, color.RGBA{0, 0, 255, 255})
	d.Key("Right", "Right", "Right", "Left")
	wait("arrow keys move the level", func(v tiny) bool { return v.Level == 2 })
	d.Tool("keydown", "Right")
	wait("a held key repeats", func(v tiny) bool { return v.Level >= 5 })
	d.Tool("keyup", "Right")
	d.Key("a", "ctrl+z")
	wait("text and a shortcut", func(v tiny) bool {
		return v.Typed == "a" && strings.Contains(v.Keys, "A ") && strings.Contains(v.Keys, "^Z ")
	})
	d.Wheel(-2)
	wait("two notches towards the person", func(v tiny) bool { return v.Notches == -2 })
	d.Drag(300, 300, 380, 340)
	wait("a drag", func(v tiny) bool { return v.Drags >= 4 })
	d.Key("ctrl+s")
	s := wait("a file saved", func(v tiny) bool { return v.Saved != "" })
	if data, err := os.ReadFile(filepath.Join(files, "tiny.txt")); err != nil || string(data) != "tiny" {
		t.Errorf("saved file: %q, %v (said %q)", data, err, inside(t, s).Saved)
	}
	quiet(t, spy, cmd)
	d.Tool("windowsize", id, "700", "500")
	scenestest.WaitState(t, spy, patience, "the new size", func(s scenestest.State) bool { return s.Width == 700 && s.Height == 500 })
}

// screen looks at the display itself, past our own frame.
func screen(t *testing.T, d *scenestest.Display, x, y int, want color.RGBA) {
	t.Helper()
	if _, err := exec.LookPath("import"); err != nil {
		t.Log("the display itself was not looked at: import is not here (Debian package imagemagick)")
		return
	}
	var got []byte
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		cmd := exec.Command("import", "-window", "root", "-crop", "1x1+90+90", "-depth", "8", "rgb:-")
		cmd.Env = d.Env()
		var err error
		if got, err = cmd.Output(); err == nil && len(got) >= 3 && got[0] == want.R && got[1] == want.G && got[2] == want.B {
			return
		}
	}
	t.Errorf("the display shows %v at %d,%d, want %v", got, x, y, want)
}

// quiet checks that nothing is painted while nothing changes, and that idling costs little.
func quiet(t *testing.T, spy string, cmd *exec.Cmd) {
	t.Helper()
	time.Sleep(time.Second) // past the refinement
	before := scenestest.WaitState(t, spy, patience, "a state", func(scenestest.State) bool { return true })
	ticks := processorTicks(t, cmd.Process.Pid)
	time.Sleep(2 * time.Second)
	after := scenestest.WaitState(t, spy, patience, "a state", func(scenestest.State) bool { return true })
	if after.Pictures != before.Pictures {
		t.Errorf("%d pictures painted while nothing changed", after.Pictures-before.Pictures)
	}
	share := float64(processorTicks(t, cmd.Process.Pid)-ticks) / 100 / 2
	t.Logf("idle: %.0f %% of one processor", 100*share)
}

// processorTicks reads the processor time of a process in 1/100 s (proc(5), fields 14 and 15 of stat).
func processorTicks(t *testing.T, pid int) int {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("/proc", itoa(pid), "stat"))
	if err != nil {
		t.Fatal(err)
	}
	f := strings.Fields(string(data[strings.LastIndexByte(string(data), ')')+1:]))
	return atoi(f[11]) + atoi(f[12])
}

func itoa(n int) string { b, _ := json.Marshal(n); return string(b) }
func atoi(s string) (n int) {
	json.Unmarshal([]byte(s), &n)
	return n
}

func TestNoDisplayIsAnError(t *testing.T) {
	program := scenestest.Build(t, "./scenestest/tiny")
	for _, display := range []string{"", ":4711", "nonsense", ":99999999"} {
		cmd := exec.Command(program)
		cmd.Env = append(os.Environ(), "DISPLAY="+display, "WAYLAND_DISPLAY=")
		out, err := cmd.CombinedOutput()
		var exit *exec.ExitError
		if !errors.As(err, &exit) || exit.ExitCode() != 5 || !strings.HasPrefix(string(out), "no display: ") {
			t.Errorf("DISPLAY=%q: %v, output %q", display, err, out)
		}
		if strings.Contains(string(out), "goroutine") {
			t.Errorf("DISPLAY=%q: a panic: %s", display, out)
		}
	}
}

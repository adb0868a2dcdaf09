package scenestest

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Display is a virtual X display that ends with the test.
type Display struct {
	Name string // such as :99
	tb   testing.TB
}

// StartXvfb starts a display of w by h pixels. It skips the test if Xvfb or xdotool is missing.
func StartXvfb(tb testing.TB, w, h int) *Display {
	tb.Helper()
	need(tb, "Xvfb", "xvfb")
	need(tb, "xdotool", "xdotool")
	// The server picks a free number and writes it to the pipe once it listens.
	r, out, err := os.Pipe()
	if err != nil {
		tb.Fatal(err)
	}
	cmd := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", w, h), "-nolisten", "tcp")
	cmd.ExtraFiles = []*os.File{out}
	if err := cmd.Start(); err != nil {
		tb.Fatal(err)
	}
	out.Close()
	tb.Cleanup(func() { Stop(cmd) })
	r.SetReadDeadline(time.Now().Add(20 * time.Second))
	line, err := bufio.NewReader(r).ReadString('\n')
	r.Close()
	if err != nil {
		tb.Fatalf("Xvfb did not start: %v", err)
	}
	return &Display{Name: ":" + strings.TrimSpace(line), tb: tb}
}

func need(tb testing.TB, program, pkg string) {
	tb.Helper()
	if _, err := exec.LookPath(program); err != nil {
		tb.Skipf("skipped: %s is not here (Debian package %s)", program, pkg)
	}
}

// Stop ends a program that was started: politely first, then for good.
func Stop(cmd *exec.Cmd) {
	done := make(chan struct{})
	go func() { cmd.Wait(); close(done) }()
	cmd.Process.Signal(os.Interrupt)
	select {
	case <-done:
	case <-time.After(3 * time.Second):
		cmd.Process.Kill()
		<-done
	}
}

// Env returns the environment for a program on the display, with more variables added.
func (d *Display) Env(more ...string) []string {
	env := append(os.Environ(), "DISPLAY="+d.Name, "WAYLAND_DISPLAY=")
	return append(env, more...)
}

// Start starts a program on the display; it ends with the test. Its output goes to the returned buffer's reader.
func (d *Display) Start(spy string, name string, args ...string) *exec.Cmd {
	d.tb.Helper()
	cmd := exec.Command(name, args...)
	cmd.Env = d.Env("ANNULOSCOPE_SPY=" + spy)
	cmd.Stderr = logger{d.tb}
	if err := cmd.Start(); err != nil {
		d.tb.Fatal(err)
	}
	d.tb.Cleanup(func() { Stop(cmd) })
	return cmd
}

type logger struct{ tb testing.TB }

func (l logger) Write(b []byte) (int, error) {
	l.tb.Log(strings.TrimSpace(string(b)))
	return len(b), nil
}

var _ io.Writer = logger{}

// Tool runs xdotool and returns what it prints.
func (d *Display) Tool(args ...string) string {
	d.tb.Helper()
	cmd := exec.Command("xdotool", args...)
	cmd.Env = d.Env()
	out, err := cmd.CombinedOutput()
	if err != nil {
		d.tb.Fatalf("xdotool %s: %v: %s", strings.Join(args, " "), err, out)
	}
	return strings.TrimSpace(string(out))
}

// Window waits for a window with the title and focuses it, since there is no window manager.
func (d *Display) Window(title string) string {
	d.tb.Helper()
	id := strings.Fields(d.Tool("search", "--sync", "--onlyvisible", "--name", title))[0]
	d.Tool("windowfocus", id)
	time.Sleep(held)
	return id
}

const held = 60 * time.Millisecond // longer than a tick, so that a poll sees it

// Move puts the pointer at x, y of the display.
func (d *Display) Move(x, y int) {
	d.Tool("mousemove", strconv.Itoa(x), strconv.Itoa(y))
	time.Sleep(held)
}

// Click presses and releases the left button at x, y.
func (d *Display) Click(x, y int) {
	d.Move(x, y)
	d.Tool("mousedown", "1")
	time.Sleep(held)
	d.Tool("mouseup", "1")
	time.Sleep(held)
}

// Drag presses at the first place, moves in steps and releases at the last.
func (d *Display) Drag(x0, y0, x1, y1 int) {
	d.Move(x0, y0)
	d.Tool("mousedown", "1")
	const steps = 8
	for i := 1; i <= steps; i++ {
		d.Move(x0+(x1-x0)*i/steps, y0+(y1-y0)*i/steps)
	}
	d.Tool("mouseup", "1")
	time.Sleep(held)
}

// Wheel turns the wheel by notches, away from the person if positive.
func (d *Display) Wheel(notches int) {
	button := "4"
	if notches < 0 {
		button, notches = "5", -notches
	}
	for range notches {
		d.Tool("click", button)
		time.Sleep(held)
	}
}

// Key presses keys by their X names ("Tab", "ctrl+z"), one after another.
func (d *Display) Key(names ...string) {
	for _, n := range names {
		parts := strings.Split(n, "+")
		for _, p := range parts {
			d.Tool("keydown", p)
			time.Sleep(held)
		}
		for i := len(parts) - 1; i >= 0; i-- {
			d.Tool("keyup", parts[i])
		}
		time.Sleep(held)
	}
}

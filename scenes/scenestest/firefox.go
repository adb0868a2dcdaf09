package scenestest

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/page"
)

// Fox is the program running in a Firefox tab. It is driven by Firefox's remote protocol, Marionette: WebDriver commands
// as JSON, each after its length and a colon.
type Fox struct {
	tb   testing.TB
	conn net.Conn
	in   *bufio.Reader
	id   int
}

// OpenFirefox starts Firefox on a virtual display (without one it has no WebGL) and goes to url. It skips the test if
// Firefox or the display is missing.
func OpenFirefox(tb testing.TB, url string, w, h int, timeout time.Duration) *Fox {
	tb.Helper()
	name := "firefox"
	if _, err := exec.LookPath(name); err != nil {
		name = "firefox-esr"
	}
	need(tb, name, "firefox-esr")
	d := StartXvfb(tb, w+100, h+200)
	profile := tb.TempDir()
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(page.FirefoxOptions+`user_pref("marionette.port", 0);`) /* free to choose */, 0o600); err != nil {
		tb.Fatal(err)
	}
	cmd := exec.Command(name, "--marionette", "--no-remote", "--profile", profile, "--width", fmt.Sprint(w), "--height", fmt.Sprint(h))
	cmd.Env = d.Env("HOME="+profile, "MOZ_CRASHREPORTER_DISABLE=1")
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &said
	cmd.WaitDelay = 2 * time.Second // its children hold the pipes
	if err := cmd.Start(); err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { Stop(cmd) })
	f := &Fox{tb: tb}
	end := time.Now().Add(timeout)
	for ; ; time.Sleep(100 * time.Millisecond) {
		if port, err := os.ReadFile(filepath.Join(profile, "MarionetteActivePort")); err == nil {
			if f.conn, err = net.Dial("tcp", "127.0.0.1:"+strings.TrimSpace(string(port))); err == nil {
				break
			}
		}
		if time.Now().After(end) {
			tb.Fatalf("Firefox did not listen within %v:\n%s", timeout, said.String())
		}
	}
	tb.Cleanup(func() { f.conn.Close() })
	f.conn.SetDeadline(end)
	f.in = bufio.NewReader(f.conn)
	if _, err := f.read(); err != nil { // it greets first
		tb.Fatal(err)
	}
	f.call("WebDriver:NewSession", map[string]any{"capabilities": map[string]any{}}, nil)
	f.call("WebDriver:SetWindowRect", map[string]any{"x": 0, "y": 0, "width": w, "height": h + 86}, nil) // its own bars take about 86
	f.call("WebDriver:Navigate", map[string]any{"url": url}, nil)
	return f
}

func (f *Fox) read() ([]byte, error) {
	n, err := f.in.ReadString(':')
	if err != nil {
		return nil, err
	}
	size, err := strconv.Atoi(strings.TrimSuffix(n, ":"))
	if err != nil {
		return nil, err
	}
	b := make([]byte, size)
	_, err = io.ReadFull(f.in, b)
	return b, err
}

// call sends a command and decodes its answer into result unless that is nil.
func (f *Fox) call(command string, params map[string]any, result any) {
	f.tb.Helper()
	f.id++
	b, err := json.Marshal([]any{0, f.id, command, params})
	if err != nil {
		f.tb.Fatal(err)
	}
	if _, err := fmt.Fprintf(f.conn, "%d:%s", len(b), b); err != nil {
		f.tb.Fatalf("%s: %v", command, err)
	}
	answer, err := f.read()
	if err != nil {
		f.tb.Fatalf("%s: %v", command, err)
	}
	var parts [4]json.RawMessage // type, number, error, result
	if err := json.Unmarshal(answer, &parts); err != nil {
		f.tb.Fatalf("%s: %v in %s", command, err, answer)
	}
	if string(parts[2]) != "null" {
		f.tb.Fatalf("%s: %s", command, parts[2])
	}
	if result == nil {
		return
	}
	var value struct{ Value json.RawMessage }
	if err := json.Unmarshal(parts[3], &value); err != nil {
		f.tb.Fatalf("%s: %v in %s", command, err, parts[3])
	}
	if err := json.Unmarshal(value.Value, result); err != nil {
		f.tb.Fatalf("%s: %v in %s", command, err, parts[3])
	}
}

// Eval evaluates an expression and returns its value as text.
func (f *Fox) Eval(js string) string {
	f.tb.Helper()
	var v string
	f.call("WebDriver:ExecuteScript", map[string]any{"script": "return String(" + js + ")", "args": []any{}, "sandbox": nil}, &v)
	return v
}

// WaitState waits until the program's own state is as wanted.
func (f *Fox) WaitState(timeout time.Duration, what string, wanted func(State) bool) State {
	f.tb.Helper()
	s, text, ok := await(timeout, func() string { return f.Eval(stateNow) }, wanted)
	if !ok {
		f.tb.Fatalf("waited %v for: %s; state %.2000s", timeout, what, text)
	}
	return s
}

// Outside returns the addresses of requests that left the page's own origin.
func (f *Fox) Outside() string {
	f.tb.Helper()
	return f.Eval(outside)
}

// Click presses and releases the left button at x, y.
func (f *Fox) Click(x, y float64) {
	f.tb.Helper()
	pause := map[string]any{"type": "pause", "duration": held.Milliseconds()} // longer than a tick, so that a poll sees it
	f.act("pointer", pause, map[string]any{"type": "pointerMove", "x": int(x), "y": int(y)}, pause,
		map[string]any{"type": "pointerDown", "button": 0}, pause, map[string]any{"type": "pointerUp", "button": 0}, pause)
}

// foxKeys are WebDriver's characters for keys without text.
var foxKeys = map[string]rune{"ArrowRight": '\uE014'}

// Key presses and releases keys named as in KeyboardEvent.code, of those in foxKeys, without modifier keys.
func (f *Fox) Key(modifiers int64, codes ...string) {
	f.tb.Helper()
	pause := map[string]any{"type": "pause", "duration": held.Milliseconds()}
	for _, code := range codes {
		key, ok := foxKeys[code]
		if !ok || modifiers != 0 {
			f.tb.Fatalf("no key %s with modifiers %d here", code, modifiers)
		}
		f.act("key", map[string]any{"type": "keyDown", "value": string(key)}, pause, map[string]any{"type": "keyUp", "value": string(key)}, pause)
	}
}

func (f *Fox) act(kind string, steps ...map[string]any) {
	f.tb.Helper()
	f.call("WebDriver:PerformActions", map[string]any{"actions": []any{map[string]any{"type": kind, "id": kind, "actions": steps}}}, nil)
}

// Screenshot returns what the tab shows.
func (f *Fox) Screenshot() image.Image {
	f.tb.Helper()
	var data string
	f.call("WebDriver:TakeScreenshot", map[string]any{"full": false}, &data)
	b, err := base64.StdEncoding.DecodeString(data)
	if err != nil {
		f.tb.Fatal(err)
	}
	m, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		f.tb.Fatal(err)
	}
	return m
}

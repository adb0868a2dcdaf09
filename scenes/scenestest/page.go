package scenestest

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"image/png"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// What is asked of a page: the program's own state, or why there is none; the requests that left the page's origin.
const (
	stateNow = "window.annuloscopeState || window.annuloscopeError || ''"
	outside  = `performance.getEntriesByType("resource").map(e => e.name).filter(n => !n.startsWith(location.origin + "/") && !n.startsWith("blob:") && !n.startsWith("data:")).join(" ")`
)

// await reads the state until it is as wanted; text is what was read last.
func await(timeout time.Duration, read func() string, wanted func(State) bool) (s State, text string, ok bool) {
	for end := time.Now().Add(timeout); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		text = read()
		s = State{}
		if json.Unmarshal([]byte(text), &s) == nil && wanted(s) {
			return s, text, true
		}
	}
	return State{}, text, false
}

// Page is the program running in a browser tab.
type Page struct {
	Context context.Context
	tb      testing.TB
	mu      sync.Mutex
	console []string
}

// OpenPage starts Chromium, listens to its console and goes to url.
func OpenPage(tb testing.TB, url string, w, h int, timeout time.Duration) *Page {
	tb.Helper()
	p := &Page{Context: Chromium(tb, w, h, timeout), tb: tb}
	messages := chromedp.Console(p.Context)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			p.mu.Lock()
			p.console = append(p.console, string(m.Type)+": "+m.Text)
			p.mu.Unlock()
		}
	}()
	if err := chromedp.Do(p.Context, chromedp.Navigate(url)); err != nil {
		tb.Fatalf("opening %s: %v", url, err)
	}
	return p
}

// Complaints returns what the console was told so far if errors or exceptions are among it (broken policies count, too),
// else nothing. The rest belongs to it: the trace of a panic comes as plain lines.
func (p *Page) Complaints() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	if slices.ContainsFunc(p.console, func(m string) bool {
		return strings.HasPrefix(m, "error") || strings.HasPrefix(m, "exception") || strings.Contains(m, "Content Security Policy")
	}) {
		return slices.Clone(p.console)
	}
	return nil
}

// Outside returns the addresses of requests that left the page's own origin.
func (p *Page) Outside() string {
	p.tb.Helper()
	return p.Eval(outside)
}

// Eval evaluates an expression and returns its value as text.
func (p *Page) Eval(js string) string {
	p.tb.Helper()
	v, err := p.try(js)
	if err != nil {
		p.tb.Fatalf("%s: %v", js, err)
	}
	return v
}

func (p *Page) try(js string) (string, error) {
	return chromedp.Run(p.Context, chromedp.Evaluate[string]("String("+js+")"))
}

// Until waits until an expression is true.
func (p *Page) Until(what, js string) {
	p.tb.Helper()
	for end := time.Now().Add(15 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if p.Eval(js) == "true" {
			return
		}
	}
	p.tb.Fatalf("waited for: %s (%s)", what, js)
}

// WaitState waits until the program's own state is as wanted.
func (p *Page) WaitState(timeout time.Duration, what string, wanted func(State) bool) State {
	p.tb.Helper()
	s, text, ok := await(timeout, func() string {
		text, err := p.try(stateNow)
		if err != nil && !strings.Contains(err.Error(), "navigated") { // a page on its way elsewhere is waited for
			p.tb.Fatal(err)
		}
		return text
	}, wanted)
	if !ok {
		p.tb.Fatalf("waited %v for: %s; state %s; console %q", timeout, what, text, p.console)
	}
	return s
}

func (p *Page) mouse(e input.DispatchMouseEventParams) {
	p.tb.Helper()
	if _, err := chromedp.Call(p.Context, input.DispatchMouseEvent, e); err != nil {
		p.tb.Fatal(err)
	}
	time.Sleep(held)
}

// Click presses and releases the left button at x, y.
func (p *Page) Click(x, y float64) { p.Drag(x, y, x, y) }

// Drag presses at the first place, moves in steps and releases at the last.
func (p *Page) Drag(x0, y0, x1, y1 float64) {
	p.tb.Helper()
	e := input.DispatchMouseEventParams{Type: input.DispatchMouseEventTypeMouseMoved, X: x0, Y: y0}
	p.mouse(e)
	e.Type, e.Button, e.Buttons, e.ClickCount = input.DispatchMouseEventTypeMousePressed, "left", 1, 1
	p.mouse(e)
	if x0 != x1 || y0 != y1 {
		const steps = 8
		for i := 1.0; i <= steps; i++ {
			e.Type, e.X, e.Y = input.DispatchMouseEventTypeMouseMoved, x0+(x1-x0)*i/steps, y0+(y1-y0)*i/steps
			p.mouse(e)
		}
	}
	e.Type, e.Buttons = input.DispatchMouseEventTypeMouseReleased, 0
	p.mouse(e)
}

// Wheel turns the wheel at x, y by notches, away from the person if positive.
func (p *Page) Wheel(x, y, notches float64) {
	p.tb.Helper()
	p.mouse(input.DispatchMouseEventParams{Type: input.DispatchMouseEventTypeMouseWheel, X: x, Y: y,
		DeltaX: 1e-9, DeltaY: -100 * notches}) // a zero would be left out, and the browser wants both
}

// Key presses and releases keys named as in KeyboardEvent.code ("ArrowRight", "KeyZ", "F6"), while the modifier keys
// are held (a sum of 1 Alt, 2 Control, 8 Shift).
func (p *Page) Key(modifiers int64, codes ...string) {
	p.tb.Helper()
	p.modify(modifiers, input.DispatchKeyEventTypeRawKeyDown)
	for _, code := range codes {
		e := input.DispatchKeyEventParams{Type: input.DispatchKeyEventTypeRawKeyDown, Code: code, Key: code, Modifiers: modifiers}
		if len(code) == 4 && strings.HasPrefix(code, "Key") {
			e.Key = strings.ToLower(code[3:])
			if modifiers&2 == 0 {
				e.Type, e.Text = input.DispatchKeyEventTypeKeyDown, e.Key
			}
		}
		e.WindowsVirtualKeyCode = virtual[code]
		p.key(e)
		e.Type, e.Text = input.DispatchKeyEventTypeKeyUp, ""
		p.key(e)
	}
	p.modify(modifiers, input.DispatchKeyEventTypeKeyUp)
}

func (p *Page) modify(modifiers int64, kind input.DispatchKeyEventType) {
	p.tb.Helper()
	for _, m := range []struct {
		bit       int64
		key, code string
	}{{1, "Alt", "AltLeft"}, {2, "Control", "ControlLeft"}, {8, "Shift", "ShiftLeft"}} {
		if modifiers&m.bit != 0 {
			p.key(input.DispatchKeyEventParams{Type: kind, Key: m.key, Code: m.code})
		}
	}
}

func (p *Page) key(e input.DispatchKeyEventParams) {
	p.tb.Helper()
	if _, err := chromedp.Call(p.Context, input.DispatchKeyEvent, e); err != nil {
		p.tb.Fatal(err)
	}
	time.Sleep(held)
}

// virtual holds the Windows key codes that Chromium wants for keys without text (UI Events, legacy keyCode table).
var virtual = map[string]int64{"Tab": 9, "Enter": 13, "Escape": 27, "Space": 32, "PageUp": 33, "PageDown": 34, "End": 35, "Home": 36,
	"ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40, "F1": 112, "F6": 117}

// LessMotion makes the browser say that the person wants reduced motion, or does not.
func (p *Page) LessMotion(on bool) {
	p.tb.Helper()
	value := "no-preference"
	if on {
		value = "reduce"
	}
	if _, err := chromedp.Call(p.Context, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: value}}}); err != nil {
		p.tb.Fatal(err)
	}
}

// Screenshot returns what the tab shows.
func (p *Page) Screenshot() image.Image {
	p.tb.Helper()
	data, err := chromedp.Run(p.Context, chromedp.CaptureScreenshot())
	if err != nil {
		p.tb.Fatal(err)
	}
	m, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		p.tb.Fatal(err)
	}
	return m
}

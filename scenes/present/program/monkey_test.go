package program_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// quick is the geometry tier alone: a monkey does not wait for the closed loop.
type quick struct{ s *study.Solver }

func (q quick) Solve(c casefile.Case) (valve.Report, error) { return q.s.Solve(c) }

// monkey plays with a program. Everything it does follows from its seed.
type monkey struct {
	r      *rand.Rand
	p      *program.Program
	w, h   float64
	x, y   float64
	now    float64
	list   draw.List
	recent []string
	stuck  int // things done on one page
}

var (
	monkeyKeys = []input.Key{input.Tab, input.Tab, input.Tab, input.Enter, input.Space, input.Escape, input.Left, input.Right, input.Up, input.Down,
		input.PageUp, input.PageDown, input.Home, input.End, input.Backspace, input.Delete, input.F1, input.F2, input.F5, input.F11, input.Plus, input.Minus,
		input.Comma, input.Period, input.Slash, input.LeftSq, input.RightSq, "A", "B", "C", "G", "H", "L", "N", "P", "R", "S", "T", "V", "X", "Y", "Z",
		"1", "2", "3", "4", "5", "6", "7", "8", "9", "0"}
	monkeySizes = [][2]float64{{1024, 768}, {1280, 800}, {1920, 1080}}
	monkeyRunes = []rune("0123456789.,-−eE+ abz\x00€é漢\u202e")
	monkeyFiles = []string{"", "{", `{"version":1,"view":{}}`, "annuloscope: 1\nname: x\n", "annuloscope: 1\nannulus: {height_mm: 99}\n", "\x89PNG\r\n", strings.Repeat("x", 2<<20)}
)

func newMonkey(t testing.TB, r study.Runner, seed uint64) *monkey {
	m := &monkey{r: rand.New(rand.NewPCG(seed, 1)), w: 1280, h: 800}
	m.p = program.New(program.Config{Runner: r, Sweeper: func() study.Runner { return study.NewSync(noSweep{}) }, Beside: func() study.Runner { return study.NewSync(noSweep{}) }, Cases: cases(t)})
	m.p.Desk().U.Record = true
	m.paint()
	return m
}

func (m *monkey) paint() {
	m.now += 1.0 / 60
	m.p.Tick(m.now)
	for _, w := range m.p.Wishes() {
		if w.Done != nil {
			if m.r.IntN(2) == 0 {
				w.Done("", errors.New("no room"))
			} else {
				w.Done("/somewhere/file", nil)
			}
		}
	}
	m.p.Paint(&m.list, m.w, m.h)
}

func (m *monkey) do(e input.Event) {
	e.X, e.Y = m.x, m.y
	if len(e.Data) > 40 {
		m.note(fmt.Sprintf("drop %d bytes", len(e.Data)))
	} else {
		m.note(fmt.Sprintf("%+v", e))
	}
	m.p.Handle(e)
}

func (m *monkey) note(what string) {
	m.recent = append(m.recent, what)
	if len(m.recent) > 25 {
		m.recent = m.recent[1:]
	}
}

func (m *monkey) point() {
	m.x, m.y = m.r.Float64()*m.w, m.r.Float64()*m.h
	if all := m.p.Desk().U.Controls; len(all) > 0 && m.r.Float64() < 0.8 { // rather something than nothing
		c := all[m.r.IntN(len(all))].Rect
		m.x, m.y = c.X+m.r.Float64()*c.W, c.Y+m.r.Float64()*c.H
	}
}

// play does one thing. A page is left sooner or later, and so is a scene.
func (m *monkey) play() {
	if m.stuck++; m.stuck > 12 {
		m.stuck = 0
		m.do(input.Event{Kind: input.KeyDown, Key: input.Escape})
		m.do(input.Event{Kind: input.KeyDown, Key: input.Escape})
		m.do(input.Event{Kind: input.KeyDown, Key: input.Key(fmt.Sprint(1 + m.r.IntN(len(m.p.Scenes()))))})
		return
	}
	mods := input.Mods(0)
	if m.r.IntN(8) == 0 {
		mods = input.Mods(m.r.IntN(8))
	}
	switch m.r.IntN(20) {
	case 0, 1, 2, 3, 4: // a click, sometimes lost half-way
		m.point()
		m.do(input.Event{Kind: input.Press, Button: m.r.IntN(4) / 3, Mods: mods})
		if m.r.IntN(12) > 0 {
			m.do(input.Event{Kind: input.Release, Mods: mods})
		}
	case 5: // a drag
		m.point()
		m.do(input.Event{Kind: input.Press})
		for range 4 {
			m.x, m.y = m.x+(m.r.Float64()-0.5)*300, m.y+(m.r.Float64()-0.5)*300
			m.do(input.Event{Kind: input.Move})
			m.paint()
		}
		m.do(input.Event{Kind: input.Release})
	case 6, 7:
		m.point()
		m.do(input.Event{Kind: input.Move})
	case 8:
		m.do(input.Event{Kind: input.Wheel, DX: m.r.Float64() - 0.5, DY: 6*m.r.Float64() - 3, Mods: mods})
	case 9:
		m.do(input.Event{Kind: input.Text, Rune: monkeyRunes[m.r.IntN(len(monkeyRunes))], Mods: mods})
	case 10:
		size := monkeySizes[m.r.IntN(len(monkeySizes))]
		m.w, m.h = size[0], size[1]
		m.p.Handle(input.Event{Kind: input.Resize, X: m.w, Y: m.h})
		m.note(fmt.Sprint("resize ", size))
	case 11:
		if m.r.IntN(4) == 0 {
			m.do(input.Event{Kind: input.Drop, Name: "file", Data: []byte(monkeyFiles[m.r.IntN(len(monkeyFiles))])})
		}
	case 12:
		m.do(input.Event{Kind: input.Leave})
	case 13: // what a page's HTML side or a screen reader does
		all := m.p.Controls()
		c := all[m.r.IntN(len(all))]
		values := append([]string{"true", "false", "0", fmt.Sprint(c.Min + (c.Max-c.Min)*m.r.Float64()), "NaN", "é"}, c.Options...)
		v := values[m.r.IntN(len(values))]
		m.note(fmt.Sprintf("act %s %q", c.ID, v))
		_ = m.p.Act(c.ID, v) // a refusal is an answer
	default:
		k := monkeyKeys[m.r.IntN(len(monkeyKeys))]
		m.do(input.Event{Kind: input.KeyDown, Key: k, Mods: mods, Repeat: m.r.IntN(5) == 0})
		m.do(input.Event{Kind: input.KeyUp, Key: k, Mods: mods})
	}
}

// run plays n times. No panic, no text cut or overlapping, no control without a name, and what a person must always see
// or hear is there.
func (m *monkey) run(t *testing.T, n int, seed uint64) {
	t.Helper()
	defer func() {
		if r := recover(); r != nil || t.Failed() {
			t.Logf("seed %d, after\n%s", seed, strings.Join(m.recent, "\n"))
			if r != nil {
				panic(r)
			}
		}
	}()
	seen := map[string]int{}
	for i := range n {
		m.play()
		m.paint()
		where := m.p.Inspect().(map[string]any)
		seen[strings.TrimRight(fmt.Sprint(where["scene"], " ", where["page"]), " ")]++
		name := fmt.Sprintf("seed %d, event %d, %gx%g", seed, i, m.w, m.h)
		m.checkTexts(t, name)
		checkTargets(t, name, m.p.Desk().U.Controls, m.p.Desk().U.Scale)
		if m.p.Announcement() == "" || m.p.Description() == "" {
			t.Errorf("%s: says nothing", name)
		}
		caution := false
		for _, c := range m.p.Desk().U.Cells {
			caution = caution || strings.Contains(c.Text, m.p.Desk().W().T("app.caution")) || strings.Contains(m.p.Desk().W().T("app.caution"), strings.TrimPrefix(c.Text, "⚠ ")) && len(c.Text) > 20
		}
		if !caution {
			t.Errorf("%s: the caution is not in view", name)
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("seed %d, %d events; met: %v", seed, n, seen)
}

// checkTexts checks the texts of the screen and those of the explanation that may lie over it, which is painted last.
func (m *monkey) checkTexts(t *testing.T, name string) {
	t.Helper()
	u := m.p.Desk().U
	all := slices.Clone(u.Cells)
	explain := u.TipFor
	u.TipFor = nil
	m.p.Paint(&m.list, m.w, m.h)
	if len(u.Cells) >= 10 || m.p.Inspect().(map[string]any)["scene"] != "lectern" { // a slide may hold less
		checkTexts(t, name, u.Cells, m.w, m.h)
	}
	tip := all[min(len(all), len(u.Cells)):]
	u.TipFor = explain
	m.p.Paint(&m.list, m.w, m.h)
	for i, c := range tip {
		if c.Box.X < c.Rect.X-1 || c.Box.X+c.Box.W > c.Rect.X+c.Rect.W+1 || c.Box.X < 0 || c.Box.X+c.Box.W > m.w || c.Box.Y < 0 || c.Box.Y+c.Box.H > m.h {
			t.Errorf("%s: %q of an explanation is cut", name, c.Text)
		}
		for _, d := range tip[i+1:] {
			if overlap(c.Box, d.Box) > 4 {
				t.Errorf("%s: %q and %q of an explanation overlap", name, c.Text, d.Text)
			}
		}
	}
}

func monkeySeed() uint64 {
	seed := uint64(1)
	fmt.Sscan(os.Getenv("SEED"), &seed)
	return seed
}

// A monkey at the screens, with a fixed seed; SEED chooses another.
func TestMonkey(t *testing.T) {
	n := 300
	if raceDetector {
		n = 60
	}
	seed := monkeySeed()
	newMonkey(t, study.NewSync(quick{study.NewSolver()}), seed).run(t, n, seed)
}

// No goroutine outlives a program whose runner is closed.
func TestMonkeyLeavesNoGoroutine(t *testing.T) {
	before := runtime.NumGoroutine()
	for seed := range uint64(5) {
		a := study.NewAsync(remembered{})
		m := newMonkey(t, a, seed)
		for range 20 {
			m.do(input.Event{Kind: input.KeyDown, Key: monkeyKeys[m.r.IntN(len(monkeyKeys))]})
			m.paint()
		}
		a.Close()
	}
	for end := time.Now().Add(10 * time.Second); runtime.NumGoroutine() > before; time.Sleep(10 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("%d goroutines before, %d after", before, runtime.NumGoroutine())
		}
	}
}

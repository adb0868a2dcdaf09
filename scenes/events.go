package scenes

import (
	"io"
	"io/fs"

	"annuloscope/scenes/present/input"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// Repeat of a held key, in ticks of 1/60 s, and the largest dropped file. Common practice, no source.
const (
	repeatAfter = 24
	repeatEvery = 3
	largestDrop = 16 << 20 // bytes
)

// poll turns Ebitengine's polled state into events.
type poll struct {
	x, y    float64 // the pointer, logical pixels
	w, h    float64 // the picture
	inside  bool
	touch   ebiten.TouchID
	touched bool
	out     []input.Event
	keys    []ebiten.Key
	runes   []rune
	touches []ebiten.TouchID
}

// events returns what happened since the last tick on a picture of w by h logical pixels, after the events already
// waiting. The slice is reused.
func (p *poll) events(scale, w, h float64, waiting []input.Event) []input.Event {
	p.out = append(p.out[:0], waiting...)
	p.w, p.h = w, h
	mods := modifiers()
	if !p.finger(scale, mods) {
		p.mouse(scale, mods)
	}
	p.keyboard(mods)
	if files := ebiten.DroppedFiles(); files != nil {
		p.drop(files)
	}
	return p.out
}

func modifiers() input.Mods {
	var m input.Mods
	if ebiten.IsKeyPressed(ebiten.KeyShift) {
		m |= input.Shift
	}
	if ebiten.IsKeyPressed(ebiten.KeyControl) || ebiten.IsKeyPressed(ebiten.KeyMeta) {
		m |= input.Control
	}
	if ebiten.IsKeyPressed(ebiten.KeyAlt) {
		m |= input.Alt
	}
	return m
}

func (p *poll) add(kind input.Kind, button int, mods input.Mods) {
	p.out = append(p.out, input.Event{Kind: kind, X: p.x, Y: p.y, Button: button, Mods: mods})
}

// buttons in the order of input.Event.Button.
var buttons = [...]ebiten.MouseButton{ebiten.MouseButtonLeft, ebiten.MouseButtonRight, ebiten.MouseButtonMiddle}

// mouse reports the pointer. What was pressed and released within one tick is still both: Ebitengine keeps such edges.
func (p *poll) mouse(scale float64, mods input.Mods) {
	x, y := ebiten.CursorPositionF()
	x, y = x/scale, y/scale
	held := false
	for _, b := range buttons {
		held = held || ebiten.IsMouseButtonPressed(b)
	}
	inside := x >= 0 && y >= 0 && x < p.w && y < p.h
	if x != p.x || y != p.y {
		p.x, p.y = x, y
		if inside || held {
			p.add(input.Move, 0, mods)
		}
	}
	if p.inside && !inside && !held {
		p.add(input.Leave, 0, mods)
	}
	p.inside = inside || held
	for i, b := range buttons {
		if inpututil.IsMouseButtonJustPressed(b) {
			p.add(input.Press, i, mods)
		}
		if inpututil.IsMouseButtonJustReleased(b) {
			p.add(input.Release, i, mods)
		}
	}
	if dx, dy := ebiten.Wheel(); dx != 0 || dy != 0 {
		p.add(input.Wheel, 0, mods)
		e := &p.out[len(p.out)-1]
		e.DX, e.DY = notches(dx), notches(dy)
	}
}

// notches turns a wheel's movement into notches, at most three at a time: one is 1 in a window, about 100 pixels in a
// page (Chromium 156: 100 or 120).
func notches(d float64) float64 {
	if onPage {
		d /= 100
	}
	return min(max(d, -3), 3)
}

// finger reports the first finger as the left button and tells whether one is there.
func (p *poll) finger(scale float64, mods input.Mods) bool {
	if p.touched {
		if inpututil.IsTouchJustReleased(p.touch) {
			p.add(input.Release, 0, mods)
			p.add(input.Leave, 0, mods)
			p.touched, p.inside = false, false
			return true
		}
		if x, y := ebiten.TouchPosition(p.touch); float64(x)/scale != p.x || float64(y)/scale != p.y {
			p.x, p.y = float64(x)/scale, float64(y)/scale
			p.add(input.Move, 0, mods)
		}
		return true
	}
	p.touches = inpututil.AppendJustPressedTouchIDs(p.touches[:0])
	if len(p.touches) == 0 {
		return false
	}
	p.touch, p.touched = p.touches[0], true
	x, y := ebiten.TouchPosition(p.touch)
	p.x, p.y = float64(x)/scale, float64(y)/scale
	p.add(input.Move, 0, mods)
	p.add(input.Press, 0, mods)
	return true
}

// keyboard reports keys in the order of their codes, then typed text unless a command key is held.
func (p *poll) keyboard(mods input.Mods) {
	p.keys = inpututil.AppendJustPressedKeys(p.keys[:0])
	for _, k := range p.keys {
		p.key(input.KeyDown, k, mods, false)
	}
	p.keys = inpututil.AppendPressedKeys(p.keys[:0])
	for _, k := range p.keys {
		if n := inpututil.KeyPressDuration(k); n >= repeatAfter && (n-repeatAfter)%repeatEvery == 0 {
			p.key(input.KeyDown, k, mods, true)
		}
	}
	p.keys = inpututil.AppendJustReleasedKeys(p.keys[:0])
	for _, k := range p.keys {
		p.key(input.KeyUp, k, mods, false)
	}
	p.runes = ebiten.AppendInputChars(p.runes[:0])
	if mods&input.Control != 0 {
		return
	}
	for _, r := range p.runes {
		p.out = append(p.out, input.Event{Kind: input.Text, Rune: r, X: p.x, Y: p.y, Mods: mods})
	}
}

func (p *poll) key(kind input.Kind, k ebiten.Key, mods input.Mods, repeat bool) {
	name := keyName(k)
	if name == "" {
		return
	}
	p.out = append(p.out, input.Event{Kind: kind, Key: name, X: p.x, Y: p.y, Mods: mods, Repeat: repeat})
}

// drop reports each dropped file. One that cannot be read or is too large arrives without content, so that the screen
// can say so.
func (p *poll) drop(files fs.FS) {
	list, err := fs.ReadDir(files, ".")
	if err != nil {
		return
	}
	for _, entry := range list {
		if !entry.IsDir() {
			p.out = append(p.out, input.Event{Kind: input.Drop, Name: entry.Name(), Data: read(files, entry.Name()), X: p.x, Y: p.y})
		}
	}
}

func read(files fs.FS, name string) []byte {
	f, err := files.Open(name)
	if err != nil {
		return nil
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, largestDrop+1))
	if err != nil || len(data) > largestDrop {
		return nil
	}
	return data
}

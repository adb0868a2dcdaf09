// Command tiny is a small screen with one of everything, for the tests of the window and the page.
package main

import (
	"errors"
	"fmt"
	"os"
	"strconv"

	"annuloscope/scenes"
	"annuloscope/scenes/pace"
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"

	"gonum.org/v1/gonum/spatial/r3"
)

// screen has a square that turns from red to blue at a click, a level moved by the arrow keys, and notes what it gets.
type screen struct {
	Blue      bool    `json:"blue"`
	Level     float64 `json:"level"`
	Typed     string  `json:"typed"`
	Notches   float64 `json:"notches"`
	Keys      string  `json:"keys"`
	Drags     int     `json:"drags"`
	Fragment  string  `json:"fragment"`
	Query     string  `json:"query"`
	Dropped   string  `json:"dropped"`
	Saved     string  `json:"saved"`
	Said      string  `json:"said"`
	Painted   int     `json:"painted"`
	Held      bool    `json:"held"`
	changed   bool
	scene     draw.Scene
	wishes    []present.Wish
	lastWidth float64
}

func (s *screen) say(text string) { s.Said, s.changed = text, true }

func (s *screen) Handle(e input.Event) {
	switch e.Kind {
	case input.Press:
		s.Held = true
		if (draw.Rect{X: 40, Y: 40, W: 100, H: 100}).Contains(draw.Point{X: e.X, Y: e.Y}) {
			s.Blue = !s.Blue
			s.say(fmt.Sprintf("square is blue: %v", s.Blue))
		}
	case input.Release:
		s.Held, s.changed = false, true
	case input.Move:
		if s.Held {
			s.Drags++
			s.changed = true
		}
	case input.Wheel:
		s.Notches += e.DY
		s.changed = true
	case input.Text:
		s.Typed += string(e.Rune)
		s.changed = true
	case input.Drop:
		s.Dropped = e.Name + "=" + string(e.Data)
		s.changed = true
	case input.KeyDown:
		s.key(e)
	}
}

func (s *screen) key(e input.Event) {
	s.changed = true
	mark := ""
	if e.Mods&input.Control != 0 {
		mark = "^"
	}
	if !e.Repeat {
		s.Keys += mark + string(e.Key) + " "
	}
	switch e.Key {
	case input.Right:
		s.set(s.Level + 1)
	case input.Left:
		s.set(s.Level - 1)
	case "S":
		if mark != "" {
			s.wish(present.Wish{Kind: present.SaveFile, Name: "tiny.txt", Data: []byte("tiny")})
		}
	}
}

func (s *screen) wish(w present.Wish) {
	w.Done = func(where string, err error) {
		s.Saved = where
		if err != nil {
			s.Saved = err.Error()
		}
		s.changed = true
	}
	s.wishes = append(s.wishes, w)
}

func (s *screen) set(v float64) {
	s.Level = min(max(v, 0), 10)
	s.say(fmt.Sprintf("level %g", s.Level))
}

func (s *screen) Tick(float64) bool {
	c := s.changed
	s.changed = false
	return c
}

func (s *screen) Paint(l *draw.List, w, h float64) {
	s.Painted++
	s.lastWidth = w
	l.Reset(w, h, draw.Color{R: 255, G: 255, B: 255, A: 255})
	c := draw.Color{R: 255, A: 255}
	if s.Blue {
		c = draw.Color{B: 255, A: 255}
	}
	l.FillRect(draw.Rect{X: 40, Y: 40, W: 100, H: 100}, c)
	l.FillRect(draw.Rect{X: 40, Y: 160, W: 20 * s.Level, H: 20}, draw.Color{G: 128, A: 255})
	l.Text("Tiny "+s.Typed, 40, 220, 20, false, draw.Start, draw.Color{A: 255})
	l.Solid(draw.Rect{X: 200, Y: 40, W: 200, H: 200}, draw.Camera{Elevation: 90, Scale: 10}, &s.scene)
}

func (s *screen) Controls() []present.Control {
	return []present.Control{
		{ID: "blue", Name: "Blue square", Role: present.Checkbox, On: s.Blue},
		{ID: "level", Name: "Level", Role: present.Slider, Value: s.Level, Max: 10, Step: 1, Unit: "mm", Text: fmt.Sprintf("%g millimetres", s.Level)},
		{ID: "reset", Name: "Reset", Role: present.Button},
		{ID: "word", Name: "Word", Role: present.Choice, Options: []string{"one", "two"}, Text: "one"},
		{ID: "save", Name: "Save", Role: present.Button},
		{ID: "area", Name: "Area", Role: present.Reading, Text: fmt.Sprintf("%g cm²", s.Level), Hint: "Formula: level × 1 cm", Group: "Numbers"},
		{ID: "lectern/notes", Name: "Notes", Role: present.Reading, Text: fmt.Sprintf("Say that the level is %g.", s.Level)},
	}
}

func (s *screen) Act(id, value string) error {
	switch id {
	case "blue":
		s.Blue = value == "true"
		s.say(fmt.Sprintf("square is blue: %v", s.Blue))
	case "level":
		v, err := strconv.ParseFloat(value, 64)
		if err != nil {
			return fmt.Errorf("level is %q; it must be a number from 0 to 10", value)
		}
		s.set(v)
	case "reset":
		s.Blue = false
		s.set(0)
	case "save":
		s.wish(present.Wish{Kind: present.SaveFile, Name: "tiny.txt", Data: []byte("tiny")})
		s.changed = true
	case "word":
		s.say("word " + value)
	default:
		return errors.New("no control named " + id)
	}
	return nil
}

func (s *screen) Announcement() string { return s.Said }
func (s *screen) Description() string  { return fmt.Sprintf("A square, blue: %v", s.Blue) }
func (s *screen) Language() string     { return "en" }
func (s *screen) Inspect() any         { return s }
func (s *screen) Open(fragment, query string) {
	s.Fragment, s.Query, s.changed = fragment, query, true
}

func (s *screen) Wishes() []present.Wish {
	w := s.wishes
	s.wishes = nil
	return w
}

func main() {
	s := &screen{scene: draw.Scene{Surfaces: []draw.Surface{{Flat: true, Color: draw.Color{G: 255, A: 255},
		Vertices: []r3.Vec{{X: -5, Y: -5}, {X: 5, Y: -5}, {Y: 5}}, Faces: [][3]int32{{0, 1, 2}}}}}}
	err := scenes.Run(s, scenes.Options{Title: "Tiny", Width: 640, Height: 480, SaveTo: os.TempDir(), Times: new(pace.Times)})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		if errors.Is(err, scenes.ErrNoDisplay) {
			os.Exit(5)
		}
		os.Exit(1)
	}
}

package widget_test

import (
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
)

func TestALineIsChangedByTyping(t *testing.T) {
	th, _ := theme.Named("light")
	u := widget.New(th, words.For(words.English))
	text := "Band"
	paint := func() {
		u.Begin(new(draw.List), 400, 300)
		u.Line("name", 10, 10, 200, "Name", text)
		u.End()
	}
	handle := func(events ...input.Event) {
		for _, e := range events {
			actions, _ := u.Handle(e)
			for _, a := range actions {
				if a.ID != "name" || a.Verb != widget.Typed {
					t.Errorf("action %+v", a)
				}
				text = a.Text
			}
			paint()
		}
	}
	key := func(k input.Key) input.Event { return input.Event{Kind: input.KeyDown, Key: k} }
	char := func(r rune) input.Event { return input.Event{Kind: input.Text, Rune: r} }
	paint()
	u.SetFocus("name")
	handle(key(input.Enter), char(' '), char('2'), char('\n'), char('ü'), key(input.Backspace))
	if text != "Band" || !u.Typing() {
		t.Fatalf("%q before Enter, typing %v", text, u.Typing())
	}
	handle(key(input.Enter))
	if text != "Band 2" || u.Typing() {
		t.Errorf("after Enter %q", text)
	}
	handle(key(input.Enter), char('x'), key(input.Escape))
	if text != "Band 2" || u.Typing() {
		t.Errorf("after Escape %q", text)
	}
	// With the pointer: a click begins, a click elsewhere takes the text.
	handle(input.Event{Kind: input.Press, X: 50, Y: 20}, input.Event{Kind: input.Release, X: 50, Y: 20}, char('!'), input.Event{Kind: input.Press, X: 350, Y: 250})
	if text != "Band 2!" {
		t.Errorf("after a click elsewhere %q", text)
	}
}

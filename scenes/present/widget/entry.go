package widget

import (
	"strings"
	"unicode/utf8"

	"annuloscope/scenes/present/input"
)

// entry is a number being typed into a slider, or a text into a line.
type entry struct {
	id, text string
	fresh    bool // the first character replaces the old value
	line     bool // a text, not a number
}

// Typing tells whether a number is being typed, so that letters are not shortcuts.
func (u *UI) Typing() bool { return u.edit.id != "" }

func (u *UI) beginEdit(c *Control) {
	if c.Kind == Line {
		u.edit = entry{id: c.ID, text: c.Text, line: true}
		u.tipID, u.changed = "", true
		return
	}
	u.edit = entry{id: c.ID, text: u.W.Num(c.Value, shown(c.Value, c.Step, c.Decimals)), fresh: true}
	u.tipID = ""
	u.changed = true
}

const mostTyped = 12 // characters of a number

func (u *UI) typed(r rune) bool {
	if u.edit.id == "" {
		return false
	}
	if u.edit.line {
		u.typedLine(r)
		return true
	}
	if strings.ContainsRune("0123456789.,-−", r) {
		if u.edit.fresh {
			u.edit.text, u.edit.fresh = "", false
		}
		if utf8.RuneCountInString(u.edit.text) < mostTyped {
			u.edit.text += string(r)
		}
	}
	return true
}

func (u *UI) editKey(e input.Event) bool {
	switch e.Key {
	case input.Enter:
		u.commit()
	case input.Escape:
		u.edit = entry{}
	case input.Tab:
		u.commit()
		d := 1
		if e.Mods&input.Shift != 0 {
			d = -1
		}
		u.walk(d)
	case input.Backspace, input.Delete:
		u.edit.fresh = false
		if _, n := utf8.DecodeLastRuneInString(u.edit.text); n > 0 {
			u.edit.text = u.edit.text[:len(u.edit.text)-n]
		}
	}
	return true
}

// commit uses the typed number, or refuses it with the range.
func (u *UI) commit() {
	c, text := u.find(u.edit.id), u.edit.text
	u.edit = entry{}
	if c == nil {
		return
	}
	if c.Kind == Line {
		u.commitLine(c, text)
		return
	}
	v, ok := u.W.Parse(text)
	if !ok || v < c.Min || v > c.Max {
		u.do(Action{ID: c.ID, Verb: Refused, Text: u.W.F("message.refused", "name", c.Name, "given", text,
			"low", u.W.Num(c.Min, c.Decimals), "high", u.W.With(c.Max, c.Decimals, c.Unit))})
		return
	}
	if v != c.Value {
		u.do(Action{ID: c.ID, Verb: Changed, Value: v})
	}
}

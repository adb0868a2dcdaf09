package widget

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

const mostLine = 64 // characters that a line takes; its owner may allow fewer

// Line draws a line of text that can be changed by typing, and returns its height. Enter or a click begins, Enter or
// Tab takes the new text (Verb Typed), Escape keeps the old.
func (u *UI) Line(id string, x, y, width float64, name, text string) float64 {
	h := u.S(32)
	r := draw.Rect{X: x, Y: y, W: width, H: h}
	u.add(Control{ID: id, Kind: Line, Rect: r, Name: name, Text: text})
	edge, shown := u.T.Edge, text
	typing := u.edit.id == id
	if typing {
		edge, shown = u.T.Accent, u.edit.text+"|"
	}
	u.Fill(r, u.S(4), u.T.Card)
	u.outline(r, u.S(4), u.S(1), edge)
	in := draw.Rect{X: x + u.S(8), Y: y, W: width - u.S(16), H: h}
	u.Text(in, u.fit(shown, in.W, typing), theme.Body, true, draw.Start, u.T.Ink)
	u.ring(id, r, u.S(4))
	return h
}

// fit shortens a text to a width with an ellipsis: at its end, or while it is typed at its start.
func (u *UI) fit(s string, width float64, end bool) string {
	if u.Wide(s, theme.Body, true) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 0 {
		if end {
			r = r[1:]
			s = "…" + string(r)
		} else {
			r = r[:len(r)-1]
			s = strings.TrimSpace(string(r)) + "…"
		}
		if u.Wide(s, theme.Body, true) <= width {
			break
		}
	}
	return s
}

// typedLine takes a character of a line.
func (u *UI) typedLine(r rune) {
	if u.edit.fresh {
		u.edit.text, u.edit.fresh = "", false
	}
	most := mostLine
	if c := u.find(u.edit.id); c != nil && c.Long {
		most = mostNote
	}
	if unicode.IsPrint(r) && utf8.RuneCountInString(u.edit.text) < most {
		u.edit.text += string(r)
	}
}

// commitLine hands the new text over when it differs.
func (u *UI) commitLine(c *Control, text string) {
	if text = strings.TrimSpace(text); text != c.Text {
		u.do(Action{ID: c.ID, Verb: Typed, Text: text})
	}
}

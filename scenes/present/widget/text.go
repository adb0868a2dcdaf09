package widget

import (
	"math"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/font"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/words"
)

type wrapKey struct {
	text        string
	size, width float64
	bold        bool
}

const mostWraps = 4000 // remembered line breaks; above that they are forgotten and made again

// Wide returns the width of one line at a type size given at 100 %.
func (u *UI) Wide(s string, size float64, bold bool) float64 {
	return math.Ceil(font.Width(s, u.Scale*size, bold))
}

// LineHeight returns the height of a line of that type size.
func (u *UI) LineHeight(size float64) float64 { return math.Round(size * u.Scale * theme.Leading) }

// Lines breaks a text to a width. A word longer than the width is divided with a hyphen.
func (u *UI) Lines(s string, size float64, bold bool, width float64) []string {
	key := wrapKey{s, size * u.Scale, width, bold}
	if l, ok := u.wraps[key]; ok {
		return l
	}
	if len(u.wraps) > mostWraps {
		clear(u.wraps)
	}
	l := wrap(s, size*u.Scale, bold, width)
	u.wraps[key] = l
	return l
}

func wrap(s string, size float64, bold bool, width float64) []string {
	var out []string
	for _, part := range strings.Split(s, "\n") {
		start, end := 0, 0 // the line so far is part[start:end]
		for end < len(part) || start == 0 && end == 0 {
			next := end
			for next < len(part) && part[next] == ' ' {
				next++
			}
			if i := strings.IndexByte(part[next:], ' '); i >= 0 {
				next += i
			} else {
				next = len(part)
			}
			switch {
			case font.Width(strings.TrimLeft(part[start:next], " "), size, bold) <= width:
				end = next
			case end > start:
				out = append(out, strings.TrimSpace(part[start:end]))
				start = end
			default: // one word too long
				word := strings.TrimLeft(part[start:next], " ")
				fit := font.Fit(word, size, width-font.Width("-", size, bold), bold)
				if fit == "" {
					fit = string([]rune(word)[:1])
				}
				out = append(out, hyphenated(word, &fit))
				start += strings.Index(part[start:], word) + len(fit)
				end = start
			}
			if end >= len(part) {
				break
			}
		}
		out = append(out, strings.TrimSpace(part[start:]))
	}
	return out
}

// hyphenated shortens fit, the beginning of a word that the line takes, to the last place where the language divides the
// word, if there is one, and returns it with its hyphen.
func hyphenated(word string, fit *string) string {
	last := 0
	for _, at := range words.Divide(word) {
		if at <= len(*fit) {
			last = at
		}
	}
	if last > 0 {
		*fit = (*fit)[:last]
	}
	if strings.HasSuffix(*fit, "-") {
		return *fit
	}
	return *fit + "-"
}

// Height returns the height of a text broken to a width.
func (u *UI) Height(s string, size float64, bold bool, width float64) float64 {
	return float64(len(u.Lines(s, size, bold, width))) * u.LineHeight(size)
}

// Para writes a text broken to a width, its top at y, and returns its height.
func (u *UI) Para(x, y, width float64, s string, size float64, bold bool, c draw.Color) float64 {
	h := u.LineHeight(size)
	lines := u.Lines(s, size, bold, width)
	for i, line := range lines {
		u.Text(draw.Rect{X: x, Y: y + float64(i)*h, W: width, H: h}, line, size, bold, draw.Start, c)
	}
	return float64(len(lines)) * h
}

// Text writes one line, centred vertically in its cell.
func (u *UI) Text(cell draw.Rect, s string, size float64, bold bool, a draw.Anchor, c draw.Color) {
	if s == "" {
		return
	}
	px := size * u.Scale
	x := cell.X
	switch a {
	case draw.Middle:
		x += cell.W / 2
	case draw.End:
		x += cell.W
	}
	y := math.Round(cell.Y + cell.H/2 + px*0.36) // 0.36 em: half the height of capitals
	u.List.Text(s, x, y, px, bold, a, c)
	if u.Record {
		w, up, down := font.Measure(s, px, bold)
		switch a {
		case draw.Middle:
			x -= w / 2
		case draw.End:
			x -= w
		}
		u.Cells = append(u.Cells, Cell{Rect: cell, Text: s, Clip: u.clip(), Box: draw.Rect{X: x, Y: y - up*0.8, W: w, H: up*0.8 + down*0.8}})
	}
}

// Centred writes a text broken to the cell's width, in its middle both ways.
func (u *UI) Centred(cell draw.Rect, s string, size float64, bold bool, c draw.Color) {
	lines := u.Lines(s, size, bold, cell.W)
	h := u.LineHeight(size)
	y := cell.Y + (cell.H-h*float64(len(lines)))/2
	for i, line := range lines {
		u.Text(draw.Rect{X: cell.X, Y: y + float64(i)*h, W: cell.W, H: h}, line, size, bold, draw.Middle, c)
	}
}

// clip is the part of the screen that shows now.
func (u *UI) clip() draw.Rect {
	if n := len(u.open); n > 0 {
		return u.panels[u.open[n-1]].rect
	}
	return draw.Rect{W: u.Width, H: u.Tall}
}

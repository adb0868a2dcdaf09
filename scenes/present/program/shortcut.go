package program

import (
	"fmt"
	"math"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/theme"
)

// Shortcut is one line of the help and, where do is set, what the keys do. This is the only table of keys.
type Shortcut struct {
	Keys string // as the help shows them
	Help string // key of the words
	on   []chord
	do   func(p *Program, e input.Event)
}

type chord struct {
	key  input.Key
	mods input.Mods
}

func plain(keys ...input.Key) []chord {
	var c []chord
	for _, k := range keys {
		c = append(c, chord{k, 0})
	}
	return c
}

// Shortcuts is the table.
func Shortcuts() []Shortcut {
	return []Shortcut{
		{Keys: "Tab", Help: "key.tab"},
		{Keys: "← → ↑ ↓", Help: "key.arrows"},
		{Keys: "Page ↑, Page ↓", Help: "key.pages"},
		{Keys: "Home, End", Help: "key.ends"},
		{Keys: "Enter", Help: "key.enter"},
		{Keys: "Space", Help: "key.space", on: plain(input.Space), do: func(p *Program, _ input.Event) { p.toggleBeat() }},
		{Keys: "1 2 3 …", Help: "key.scenes", on: plain("1", "2", "3", "4", "5", "6", "7", "8", "9"), do: func(p *Program, e input.Event) {
			if i := int(e.Key[0] - '1'); i < len(p.scenes) {
				p.at = i
			}
		}},
		{Keys: "Ctrl+Z, Z", Help: "key.undo", on: []chord{{"Z", input.Control}, {"Z", 0}}, do: func(p *Program, _ input.Event) { p.press("undo") }},
		{Keys: "Ctrl+Y, Y", Help: "key.redo", on: []chord{{"Y", input.Control}, {"Z", input.Control | input.Shift}, {"Y", 0}}, do: func(p *Program, _ input.Event) { p.press("redo") }},
		{Keys: "R", Help: "key.reset", on: plain("R"), do: func(p *Program, _ input.Event) { p.press("reset") }},
		{Keys: "V", Help: "key.views", on: plain("V"), do: func(p *Program, _ input.Event) { p.d.NextView() }},
		{Keys: ",", Help: "key.systole", on: plain(input.Comma), do: func(p *Program, _ input.Event) { p.d.Hold(desk.Held) }},
		{Keys: ".", Help: "key.diastole", on: plain(input.Period), do: func(p *Program, _ input.Event) { p.d.Hold(desk.Opened) }},
		{Keys: "[ ]", Help: "key.cut", on: plain(input.LeftSq, input.RightSq), do: func(p *Program, e input.Event) {
			by := 0.05
			if e.Key == input.LeftSq {
				by = -by
			}
			p.d.Move(by)
		}},
		{Keys: "+ −", Help: "key.zoom", on: plain(input.Plus, input.Minus), do: func(p *Program, e input.Event) {
			if e.Key == input.Plus {
				p.d.Zoom(1)
			} else {
				p.d.Zoom(-1)
			}
		}},
		{Keys: "C", Help: "key.cases", on: plain("C"), do: func(p *Program, _ input.Event) { p.open("cases") }},
		{Keys: "T", Help: "key.theme", on: plain("T"), do: func(p *Program, _ input.Event) { p.nextTheme() }},
		{Keys: "L", Help: "key.language", on: plain("L"), do: func(p *Program, _ input.Event) { p.nextLanguage() }},
		{Keys: "Ctrl++, Ctrl+−", Help: "key.scale", on: []chord{{input.Plus, input.Control}, {input.Minus, input.Control}, {input.Plus, input.Control | input.Shift}}, do: func(p *Program, e input.Event) {
			by := 0.1
			if e.Key == input.Minus {
				by = -by
			}
			p.d.P.Scale = math.Round(math.Min(math.Max(p.d.P.Scale+by, 1), 2)*10) / 10
			p.Settings()
		}},
		{Keys: "S", Help: "key.share", on: plain("S"), do: func(p *Program, _ input.Event) { p.open("share") }},
		{Keys: "E", Help: "key.export", on: plain("E"), do: func(p *Program, _ input.Event) { p.open("export") }},
		{Keys: "K", Help: "key.knows", on: plain("K"), do: func(p *Program, _ input.Event) { p.open("knows") }},
		{Keys: "M", Help: "key.menu", on: plain("M"), do: func(p *Program, _ input.Event) { p.open("menu") }},
		{Keys: "Page ↓, Page ↑, → ←", Help: "key.lectern"},
		{Keys: "V", Help: "key.reveal"},
		{Keys: "B, .", Help: "key.blank"},
		{Keys: "F6", Help: "key.words"},
		{Keys: "F11", Help: "key.full", on: plain(input.F11), do: func(p *Program, _ input.Event) { p.d.Wish(present.Wish{Kind: present.FullScreen}) }},
		{Keys: "F2", Help: "key.settings", on: plain(input.F2), do: func(p *Program, _ input.Event) { p.open("settings") }},
		{Keys: "F1, H", Help: "key.help", on: plain(input.F1, "H"), do: func(p *Program, _ input.Event) { p.open("help") }},
		{Keys: "Escape", Help: "key.escape", on: plain(input.Escape), do: func(p *Program, _ input.Event) { p.close() }},
	}
}

// Chords lists the keys of a line, for tests.
func (s Shortcut) Chords() []string {
	var all []string
	for _, c := range s.on {
		all = append(all, fmt.Sprint(c.mods, c.key))
	}
	return all
}

// single tells whether a chord is one printable key, which the setting can switch off (WCAG 2.1.4).
func (c chord) single() bool { return c.mods&^input.Shift == 0 && len(c.key) == 1 }

// shortcut does what a key asks for.
func (p *Program) shortcut(e input.Event) bool {
	for _, s := range Shortcuts() {
		for _, c := range s.on {
			if c.key != e.Key || c.mods != e.Mods || c.single() && !p.d.P.OneKey {
				continue
			}
			if p.page != "" && e.Key != input.Escape && e.Mods == 0 && e.Key != input.F1 && e.Key != input.F2 {
				return false
			}
			s.do(p, e)
			p.dirty = true
			return true
		}
	}
	return false
}

func (p *Program) toggleBeat() {
	if p.d.V.Mode == desk.Beat {
		p.d.Hold(desk.Held)
	} else {
		p.d.Hold(desk.Beat)
	}
}

func (p *Program) nextTheme() {
	all := theme.Names()
	for i, n := range all {
		if n == p.d.P.Theme {
			p.d.P.Theme = all[(i+1)%len(all)]
			break
		}
	}
	p.Settings()
	p.d.Say(p.d.W().F("message.theme", "name", p.d.W().T("theme."+p.d.P.Theme)), false)
}

func (p *Program) nextLanguage() {
	all := p.languages()
	for i, l := range all {
		if string(l) == p.d.P.Language {
			p.d.P.Language = string(all[(i+1)%len(all)])
			break
		}
	}
	p.Settings()
}

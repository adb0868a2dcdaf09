package program

import (
	"slices"
	"strings"

	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/widget"
)

// Handle takes one event.
func (p *Program) Handle(e input.Event) {
	switch e.Kind {
	case input.Resize:
		p.dirty = true
		return
	case input.Drop:
		if !p.dropCurve(e) {
			p.OpenFile(e.Data)
		}
		return
	}
	if e.Kind == input.KeyDown && p.lecturing() && !e.Repeat && p.lectern.Key(e) {
		p.dirty = true
		return
	}
	actions, used := p.d.U.Handle(e)
	for _, a := range actions {
		p.apply(a)
	}
	if used {
		p.dirty = true
	}
	if !used && e.Kind == input.KeyDown && !p.d.U.Typing() {
		p.shortcut(e)
	}
}

func (p *Program) apply(a widget.Action) {
	p.d.Message = ""
	p.dirty = true
	switch {
	case p.d.ApplyView(a), p.d.Apply(a), p.scenes[p.at].Apply(a):
	case a.ID == "scene":
		p.at, p.page = a.Index, ""
	case strings.HasPrefix(a.ID, "set/"):
		p.applySetting(a)
	case strings.HasPrefix(a.ID, "case/"):
		for _, c := range p.cases {
			if c.Name == strings.TrimPrefix(a.ID, "case/") {
				p.d.Refuse(p.d.S.Open(c))
				p.close()
			}
		}
	case a.Verb == widget.Pressed && p.applyShare(a.ID):
	case p.applyExport(a):
	case a.Verb == widget.Pressed:
		p.press(a.ID)
	}
	p.follow()
}

// follow goes to the scene that was asked for.
func (p *Program) follow() {
	if i := slices.Index(p.names, p.d.Goto); i >= 0 {
		p.at, p.page = i, ""
	}
	p.d.Goto = ""
}

// press does what a common button says.
func (p *Program) press(id string) {
	p.d.Message = ""
	s := p.d.S
	switch id {
	case "undo":
		if !s.Undo() {
			p.d.Say(p.d.W().T("message.nothing"), false)
		}
	case "redo":
		if !s.Redo() {
			p.d.Say(p.d.W().T("message.nothing"), false)
		}
	case "reset":
		s.Reset()
	case "scenes":
		p.open("menu")
	case "close":
		p.close()
	default:
		if page(id) != nil {
			p.open(id)
		}
	}
	if p.page == "menu" && (id == "undo" || id == "redo" || id == "reset") {
		p.close()
	}
	p.dirty = true
}

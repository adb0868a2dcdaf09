package program

import (
	"strings"

	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/widget"
)

// Language is the language in use, for the page's HTML side.
func (p *Program) Language() string { return string(p.d.W().Lang) }

// hint is the explanation of a control as one text, the same that the picture shows under the pointer.
func (p *Program) hint(c *widget.Control) string {
	tip := p.d.U.TipFor(c.ID)
	if tip.Title == "" && len(tip.Rows) == 0 {
		return ""
	}
	var parts []string
	if tip.Title != c.Name && tip.Title != "" {
		parts = append(parts, tip.Title)
	}
	for _, r := range tip.Rows {
		if r.Head == "" {
			continue // the keys of the picture; HTML has its own
		}
		parts = append(parts, r.Head+": "+r.Text)
	}
	return strings.Join(parts, ". ")
}

// heading is the heading under which a control stands on the page's HTML side.
func (p *Program) heading(c *widget.Control) string {
	w := p.d.W()
	if p.page != "" {
		return ""
	}
	kind, rest, found := strings.Cut(c.ID, "/")
	if !found {
		switch c.ID {
		case "undo", "redo", "reset", "cases", "share", "export", "settings", "help", "menu", "scenes", "scene", "knows":
			return w.T("button.menu")
		}
		return w.T("scene." + p.names[p.at])
	}
	switch kind {
	case "place", "repair":
		ref, _, _ := strings.Cut(rest, "/")
		return tell.RepairName(w, ref)
	case "anatomy", "group", "choice":
		return w.T("heading.anatomy")
	case "quantity":
		return w.T("heading.numbers")
	case "turn":
		return w.T("picture.valve")
	}
	return w.T("scene." + p.names[p.at])
}

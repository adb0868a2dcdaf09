package scenes

import (
	"annuloscope/scenes/pace"
	"annuloscope/scenes/present"
)

// state is what tests and the bench command see of a running screen.
type state struct {
	Pictures     int               `json:"pictures"`
	Width        float64           `json:"width"`
	Height       float64           `json:"height"`
	Scale        float64           `json:"scale"`
	Pending      bool              `json:"pending"`
	Announcement string            `json:"announcement"`
	Description  string            `json:"description"`
	Controls     []present.Control `json:"controls"`
	Times        *pace.Summaries   `json:"times,omitempty"`
	Screen       any               `json:"screen,omitempty"`
}

func (g *game) state() state {
	w, h := g.size()
	s := state{Pictures: g.pictures, Width: w, Height: h, Scale: g.scale, Pending: g.pending()}
	if sp, ok := g.screen.(present.Spoken); ok {
		s.Announcement, s.Description, s.Controls = sp.Announcement(), sp.Description(), sp.Controls()
	}
	if t := g.options.Times; t != nil {
		all := t.Summary()
		s.Times = &all
	}
	if i, ok := g.screen.(present.Inspected); ok {
		s.Screen = i.Inspect()
	}
	return s
}

package program

import (
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/lectern"
)

// Lectern gives tests the lectern.
func (p *Program) Lectern() *lectern.View { return p.lectern }

// lecturing tells whether the lectern covers the whole screen.
func (p *Program) lecturing() bool {
	return p.page == "" && p.scenes[p.at] == Scene(p.lectern) && p.lectern.Presenting()
}

// lecture draws the lectern's presentation over everything but the caution at the foot.
func (p *Program) lecture(w, h float64) {
	u := p.d.U
	u.List.FillRect(draw.Rect{W: w, H: h}, u.T.Paper)
	p.lectern.Cover(w, p.foot(w, h))
}

// openOrder opens a running order and goes to the lectern.
func (p *Program) openOrder(data []byte) {
	o, warnings, err := lectern.Decode(data)
	if err != nil {
		p.d.Refuse(err)
		return
	}
	p.lectern.Use(o)
	p.d.Goto = "lectern"
	p.follow()
	p.d.Say(p.d.W().T("message.loaded"), false)
	if len(warnings) > 0 {
		p.d.Say(p.d.W().Warning(warnings[0]), true)
	}
}

// prompt is the presenter's notes as a control of the page's HTML side, from where a second window takes them. They are
// not on the picture.
func (p *Program) prompt(all []present.Control) []present.Control {
	if !p.lecturing() {
		return all
	}
	return append(all, present.Control{ID: "lectern/notes", Name: p.d.W().T("lectern.notes"), Role: present.Reading, Text: p.lectern.Note()})
}

// demonstrate presents the built-in running order from a step on.
func (p *Program) demonstrate(at int) {
	p.lectern.Use(lectern.Demonstration(p.d.W(), p.cases))
	p.lectern.Choose(at)
	p.page = ""
	p.d.Goto = "lectern"
	p.follow()
	p.lectern.Start()
}

package program

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/gallery"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/sim/repair"
)

// startFile begins to make the file from a copy of the state, so that the person can go on.
func (p *Program) startFile() {
	e := &p.export
	if e.job != nil {
		return
	}
	o := e.order
	if o.Format == gallery.SVG || o.Format == gallery.PDF {
		o.Scale = 1
	}
	if o.What == gallery.Screen {
		o.Screen = p.screen()
	}
	e.own = e.beside()
	e.studio = gallery.New(p.d.S.Snapshot(e.own), p.d.V, p.d.P, e.beside)
	if o.What == gallery.Compare {
		if s := e.studio.Study(); len(s.Plans()) == 0 {
			s.SetPlans(study.Suggested(s.Case, func(kinds ...repair.Kind) string { return tell.PlanName(p.d.W(), kinds...) }))
		}
	}
	job, err := e.studio.Start(o)
	if err != nil {
		p.endFile()
		p.d.Refuse(err)
		return
	}
	e.job = job
	if e.studio != nil {
		p.d.U.SetFocus("export/cancel")
	}
}

// makeFile does a slice of the file and tells whether the picture changed.
func (p *Program) makeFile() bool {
	e := &p.export
	if e.job == nil {
		return false
	}
	before := p.stage()
	if !e.job.Step() {
		return p.page == "export" && p.stage() != before
	}
	name, data, err := e.job.Result()
	p.endFile()
	if err != nil {
		p.d.Refuse(err)
	} else {
		p.keepFile(name, data)
	}
	return true
}

// endFile forgets the file being made.
func (p *Program) endFile() {
	e := &p.export
	if e.studio != nil {
		e.studio.Close()
	}
	if c, ok := e.own.(interface{ Close() }); ok {
		c.Close()
	}
	e.job, e.studio, e.own = nil, nil, nil
	if p.page == "export" {
		p.d.U.Focus = "export/save"
	}
	p.dirty = true
}

// screen draws what the person sees without the sheet.
func (p *Program) screen() *draw.List {
	u, w, h := p.d.U, p.d.U.Width, p.d.U.Tall
	page, focus, list := p.page, u.Focus, new(draw.List)
	p.page, u.Focus = "", ""
	p.Paint(list, w, h)
	p.page, u.Focus = page, focus
	p.Paint(new(draw.List), w, h) // the controls are again those of the sheet
	p.dirty = true
	return list
}

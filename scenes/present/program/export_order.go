package program

import (
	"math"
	"slices"

	"annuloscope/scenes/present/gallery"
)

// startOrder offers what the scene at hand shows; the rest of the order stays as it was.
func (p *Program) startOrder() {
	e := &p.export
	if e.scene == p.names[p.at] {
		return
	}
	if e.scene == "" {
		e.order = gallery.Order{Format: gallery.PNG, Scale: 2, Frames: gallery.DefaultFrames}
	}
	e.scene = p.names[p.at]
	e.order.What = gallery.Screen
	if what, ok := ofScene[e.scene]; ok {
		e.order.What = what
	}
	p.mendOrder()
}

// mendOrder keeps the order possible after a change.
func (p *Program) mendOrder() {
	o := &p.export.order
	if what := gallery.What(o.Format); !slices.Contains(what, o.What) {
		o.What = what[0]
	}
	if beat, sweep := gallery.Moves(o.What); !film(o.Format) || !sweep {
		o.Knob = ""
	} else if o.Knob == "" && !beat {
		p.chooseKnob(knobs[0])
	}
}

func (p *Program) chooseKnob(id string) {
	o := &p.export.order
	k, _ := p.d.S.Knob(id)
	o.Knob, o.From, o.To = id, k.Min, k.Max
	if id == knobs[0] {
		o.To = math.Min(mostShortening, k.Max)
	}
}

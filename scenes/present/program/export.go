package program

import (
	"fmt"
	"math"
	"slices"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/gallery"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// export is what the sheet for saving figures knows: the order being put together, and the file being made.
type export struct {
	beside func() study.Runner
	scene  string // for which the order was put together
	order  gallery.Order
	job    *gallery.Job
	studio *gallery.Gallery
	own    study.Runner // of the study being drawn
}

// knobs are the numbers a film can change.
var knobs = []string{"repair/sinus-band/shortening_mm", "group/elevation", "group/distance", "repair/edge-clip/position", "repair/edge-clip/width_mm",
	"anatomy/annulus.septal_lateral_mm"}

// ofScene is what the sheet offers first in a scene.
var ofScene = map[string]string{"valve": gallery.Valve, "strip": gallery.Strip, "beat": gallery.Waves, "compare": gallery.Compare}

// mostShortening is where a film of the shortening ends unless told otherwise, mm. Chosen: within what every built-in vein takes.
const mostShortening = 30.0

func film(format string) bool { return format == gallery.GIF || format == gallery.ZIP }

// exportSheet lets the person choose what to save, and says what it does.
func (p *Program) exportSheet() {
	p.startOrder()
	u, w, e := p.d.U, p.d.W(), &p.export
	o := &e.order
	x, y, width := p.sheet(w.T("export.title"))
	y += u.Para(x, y, width, w.T("export.intro"), theme.Body, false, u.T.Ink) + u.S(10)
	choice := func(id, name string, keys []string, prefix, now string) {
		y += u.Para(x, y, width, name, theme.Body, true, u.T.Ink) + u.S(4)
		labels := make([]string, len(keys))
		for i, k := range keys {
			labels[i] = w.T(prefix + k)
		}
		y += u.Options(id, x, y, width, name, labels, slices.Index(keys, now)) + u.S(12)
	}
	choice("export/format", w.T("export.format"), gallery.Formats(), "export.format.", o.Format)
	prefix := "figure."
	if o.Format == gallery.PDF {
		prefix = "export.handout."
	}
	choice("export/what", w.T("export.what"), gallery.What(o.Format), prefix, o.What)
	if o.Format == gallery.PNG || o.Format == gallery.ZIP || o.Format == gallery.GIF {
		choice("export/scale", w.T("export.scale"), []string{"1", "2", "4"}, "export.scale.", fmt.Sprint(o.Scale))
	}
	if o.Format == gallery.PNG || o.Format == gallery.ZIP {
		y += u.Switch("export/transparent", x, y, width, w.T("export.transparent"), o.Transparent, false) + u.S(10)
	}
	if film(o.Format) {
		y = p.movement(x, y, width)
	}
	y += u.Para(x, y, width, p.promise(), theme.Body, false, u.T.Soft) + u.S(10)
	p.exportButtons(x, y, width)
	y += u.S(theme.Primary) + u.S(10)
	if msg := p.d.Message; msg != "" {
		ink, mark := u.T.Ink, "● "
		if p.d.Bad {
			ink, mark = u.T.Worse, "■ "
		}
		y += u.Para(x, y, width, mark+msg, theme.Body, true, ink)
	}
	u.EndPanel(y + u.S(8))
}

// movement chooses what a film shows: the beat, or a number between two values.
func (p *Program) movement(x, y, width float64) float64 {
	u, w, o := p.d.U, p.d.W(), &p.export.order
	beat, sweep := gallery.Moves(o.What)
	var names []string
	at := 0
	if beat {
		names = append(names, w.T("export.beat"))
	}
	if sweep {
		for _, id := range knobs {
			k, _ := p.d.S.Knob(id)
			if id == o.Knob {
				at = len(names)
			}
			names = append(names, tell.FullName(w, k))
		}
	}
	y += u.Para(x, y, width, w.T("export.movement"), theme.Body, true, u.T.Ink) + u.S(4)
	y += u.Options("export/movement", x, y, width, w.T("export.movement"), names, at) + u.S(12)
	narrow := math.Min(width, u.S(420))
	if o.Knob != "" {
		k, _ := p.d.S.Knob(o.Knob)
		for _, end := range []struct {
			id    string
			value float64
		}{{"from", o.From}, {"to", o.To}} {
			y += u.Slider(x, y, narrow, widget.SliderSpec{ID: "export/" + end.id, Name: w.T("export." + end.id), Value: end.value, Min: k.Min, Max: k.Max, Step: k.Step,
				Mark: math.NaN(), Decimals: k.Decimals, Unit: k.Unit}) + u.S(6)
		}
	}
	return y + u.Slider(x, y, narrow, widget.SliderSpec{ID: "export/frames", Name: w.T("export.frames"), Value: float64(o.Frames), Min: gallery.LeastFrames, Max: gallery.MostFrames,
		Step: 1, Mark: gallery.DefaultFrames, Unit: "1"}) + u.S(10)
}

// promise says what the button will do.
func (p *Program) promise() string {
	w, o := p.d.W(), &p.export.order
	pw, ph := p.figureSize()
	scale := o.Scale
	if o.Format == gallery.SVG || o.Format == gallery.PDF {
		scale = 1
	}
	text := ""
	if o.What == gallery.Compare && len(p.d.S.Plans()) == 0 {
		text = " " + w.T("export.suggested")
	}
	return w.F("export.will."+o.Format, "name", o.Name(p.d.S.Case.Name), "w", w.Num(pw*scale, 0), "h", w.Num(ph*scale, 0), "n", o.Frames) + text
}

func (p *Program) figureSize() (w, h float64) {
	if p.export.order.What == gallery.Screen {
		return p.d.U.Width, p.d.U.Tall
	}
	return gallery.Size(p.export.order.What)
}

// exportButtons are the one that begins, or how far it is and the one that stops.
func (p *Program) exportButtons(x, y, width float64) {
	u, w, e := p.d.U, p.d.W(), &p.export
	h := u.S(theme.Primary)
	label, id, look := w.T("export.save"), "export/save", widget.Loud
	if e.job != nil {
		label, id, look = w.T("export.cancel"), "export/cancel", widget.Quiet
	}
	bw, _ := u.ButtonSize(label)
	bw = math.Min(math.Max(bw, u.S(120)), width)
	u.Button(id, draw.Rect{X: x, Y: y, W: bw, H: h}, label, "", look, false)
	if e.job == nil {
		return
	}
	text := p.stage()
	in := draw.Rect{X: x + bw + u.S(16), Y: y, W: width - bw - u.S(16), H: h}
	if in.W < u.S(80) {
		return
	}
	u.Info("export/progress", in, w.T("export.progress"), text)
	line := u.Lines(text, theme.Body, false, in.W)[0]
	u.Text(draw.Rect{X: in.X, Y: y, W: in.W, H: h - u.S(14)}, line, theme.Body, false, draw.Start, u.T.Ink)
	bar := draw.Rect{X: in.X, Y: y + h - u.S(12), W: in.W, H: u.S(6)}
	u.Fill(bar, u.S(3), u.T.Tint)
	if e.job.Total > 0 {
		bar.W *= math.Min(float64(e.job.Done)/float64(e.job.Total), 1)
		u.Fill(bar, u.S(3), u.T.Accent)
	}
}

// stage words how far the file is.
func (p *Program) stage() string {
	j := p.export.job
	return p.d.W().F("figure.stage."+j.Stage, "done", min(j.Done+1, j.Total), "total", j.Total)
}

// applyExport does what an action on the sheet asks for and tells whether it was one.
func (p *Program) applyExport(a widget.Action) bool {
	e := &p.export
	o := &e.order
	switch a.ID {
	case "export/format":
		o.Format = gallery.Formats()[a.Index]
		if o.Format != gallery.PNG && o.Format != gallery.ZIP {
			o.Transparent = false
		}
		if o.Format == gallery.GIF || o.Format == gallery.ZIP {
			o.Scale = 1
		}
	case "export/what":
		o.What = gallery.What(o.Format)[a.Index]
	case "export/scale":
		o.Scale = []float64{1, 2, 4}[a.Index]
	case "export/transparent":
		o.Transparent = a.Value > 0
	case "export/movement":
		beat, _ := gallery.Moves(o.What)
		if i := a.Index; beat && i == 0 {
			o.Knob = ""
		} else {
			if beat {
				i--
			}
			p.chooseKnob(knobs[i])
		}
	case "export/from", "export/to", "export/frames":
		if a.Verb != widget.Changed {
			return a.Verb == widget.Refused && p.d.Apply(a)
		}
		switch a.ID {
		case "export/from":
			o.From = a.Value
		case "export/to":
			o.To = a.Value
		default:
			o.Frames = int(a.Value)
		}
	case "export/save":
		p.startFile()
	case "export/cancel":
		p.endFile()
		p.d.Say(p.d.W().T("export.cancelled"), false)
	default:
		return false
	}
	p.mendOrder()
	return true
}

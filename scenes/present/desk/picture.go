package desk

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// Picture draws the valve into r with its labels, the buttons that turn it, and a line that says what is drawn.
func (d *Desk) Picture(r draw.Rect) {
	u := d.U
	d.Sync()
	u.Picture("picture", r, d.W().T("picture.valve"))
	if d.Model.Empty() {
		u.Centred(r.Inset(u.S(16)), d.W().T("say.wait"), theme.Body, false, u.T.Soft)
		return
	}
	roomy := !d.Small // on a small screen the view tab has these buttons
	pad := d.pad(r)
	if !roomy {
		pad = draw.Rect{}
	}
	d.valve(r, pad)
	if roomy {
		d.buttons(pad)
	}
}

// Plain draws the valve into r with its labels and no buttons, for a figure.
func (d *Desk) Plain(r draw.Rect) {
	d.Sync()
	if !d.Model.Empty() {
		d.valve(r, draw.Rect{})
	}
}

// valve draws model, labels and the line that says what is drawn; labels keep off the rectangle given.
func (d *Desk) valve(r, off draw.Rect) {
	u, o := d.U, d.Options()
	cam := d.Model.Camera(r, d.V.Azimuth, d.V.Elevation, d.V.Zoom, u.S(48))
	if d.Near && !o.Cut {
		cam, o.Vessels = d.Model.CameraNear(r, d.V.Azimuth, d.V.Elevation, d.V.Zoom, min(u.S(nearMargin), nearShare*r.W)), false
	}
	u.List.PushClip(r)
	u.List.Solid(r, cam, d.Model.Pose(d.Open, u.T, o))
	p := d.Placer(r, cam)
	if off.W > 0 {
		p.Block(off)
	}
	stamp := d.W().T(d.stamp())
	sw := u.Wide(stamp, theme.Small, false)
	sr := draw.Rect{X: r.X + u.S(8), Y: r.Y + u.S(6), W: r.W - u.S(16), H: u.Height(stamp, theme.Small, false, r.W-u.S(16))}
	p.Block(draw.Rect{X: sr.X, Y: sr.Y, W: min(sw, sr.W), H: sr.H})
	d.Model.Labels(p, d.W(), d.Open, o)
	u.Para(sr.X, sr.Y, sr.W, stamp, theme.Small, false, u.T.Soft)
	d.mark(r)
	d.legend(r, o)
	u.List.PopClip()
}

// TurnButtons draws the buttons that turn the picture and returns their height.
func (d *Desk) TurnButtons(x, y float64) float64 {
	pad := d.pad(draw.Rect{})
	pad.X, pad.Y = x, y
	d.buttons(pad)
	return pad.H
}

// Options are those of the view in use.
func (d *Desk) Options() relief.Options {
	o := relief.Options{Vessels: true, Contact: true, Areas: true, Jet: d.Jet, Quiet: d.Quiet,
		Shell: d.V.Engine == valve.ShellEngine, Field: relief.Field(d.V.Field)}
	if v, ok := relief.FindView(d.V.Named); ok && v.Cut {
		o.Cut, o.CutX = true, d.Model.JunctionAt(d.V.Station).X+0.01
	}
	return o
}

func (d *Desk) stamp() string {
	switch {
	case d.Open == 0:
		return "mode.solved.systole"
	case d.Open == 1:
		return "mode.solved.diastole"
	}
	return "mode.between"
}

// nearMargin keeps room for the commissures' names beside a valve that fills the picture.
const nearMargin, nearShare = 96.0, 0.16

const padColumns, padRows, padButton = 3, 2, 28

func (d *Desk) pad(r draw.Rect) draw.Rect {
	s := d.U.S(padButton)
	w, h := padColumns*s+2*d.U.S(4), padRows*s+d.U.S(4)
	return draw.Rect{X: r.X + r.W - w - d.U.S(8), Y: r.Y + r.H - h - d.U.S(8), W: w, H: h}
}

func (d *Desk) buttons(pad draw.Rect) {
	u, w := d.U, d.W()
	s, gap := u.S(padButton), u.S(4)
	for i, b := range [...]struct{ id, sign string }{{"in", "+"}, {"up", "↑"}, {"out", "−"}, {"left", "←"}, {"down", "↓"}, {"right", "→"}} {
		x, y := pad.X+float64(i%padColumns)*(s+gap), pad.Y+float64(i/padColumns)*(s+gap)
		u.Button("turn/"+b.id, draw.Rect{X: x, Y: y, W: s, H: s}, b.sign, w.T("view."+b.id), 0, false)
	}
}

// ViewChoice draws the named views and the modes of the beat in rows and returns their height.
func (d *Desk) ViewChoice(x, y, width float64) float64 {
	u, w := d.U, d.W()
	var names []string
	at := -1
	for i, v := range relief.Views() {
		names = append(names, w.T("view."+v.Name))
		if v.Name == d.V.Named {
			at = i
		}
	}
	h := u.Options("views", x, y, width, w.T("view.all"), names, at)
	return h + u.S(6) + d.ModeChoice(x, y+h+u.S(6), width)
}

// ModeChoice draws the modes of the beat.
func (d *Desk) ModeChoice(x, y, width float64) float64 {
	w, mode := d.W(), -1
	for i, m := range Modes() {
		if m == d.V.Mode {
			mode = i
		}
	}
	return d.U.Options("mode", x, y, width, w.T("mode.all"), []string{w.T("mode.systole"), w.T("mode.beat"), w.T("mode.diastole")}, mode)
}

package strip

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// rods draws the rods: a button to try them; while they are on trial, leak and artery without and with them, and the
// choice to keep or withdraw them. It returns the y below.
func (v *View) rods(x, y, width float64) float64 {
	d := v.d
	u, w := d.U, d.W()
	if !d.S.Placed(string(repair.SinusRods)) {
		y += u.Para(x, y, width, w.T("strip.rods"), theme.Body, true, u.T.Ink) + u.S(4)
		return y + v.row(x, y, width, "rods/try")
	}
	y += u.Switch("place/sinus-rods", x, y, width, w.T("strip.rods"), true, true) + u.S(2)
	for _, key := range []string{"proximal_mm", "distal_mm", "stiffness_n_mm2"} {
		y += d.Knob(x, y, width, "repair/sinus-rods/"+key)
	}
	if k, ok := d.S.Knob("repair/sinus-rods/trial"); !ok || k.Value == 0 {
		return y
	}
	if t := d.S.Report.Trial; t != nil && !d.S.Updating() {
		y += v.sides(x, y, width, t) + u.S(6)
	} else {
		y += u.Para(x, y, width, w.T("state.updating"), theme.Body, false, u.T.Soft) + u.S(6)
	}
	return y + v.row(x, y, width, "rods/keep", "rods/withdraw")
}

// sides is the table of a trial: without and with.
func (v *View) sides(x, y, width float64, t *valve.Trial) float64 {
	u, w := v.d.U, v.d.W()
	number := width * 0.24
	line := func(dy float64, name, a, b string, bold bool) float64 {
		h := u.Height(name, theme.Small, false, width-2*number)
		u.Para(x, y+dy, width-2*number, name, theme.Small, false, u.T.Ink)
		u.Text(draw.Rect{X: x + width - 2*number, Y: y + dy, W: number, H: h}, a, theme.Small, false, draw.End, u.T.Soft)
		u.Text(draw.Rect{X: x + width - number, Y: y + dy, W: number, H: h}, b, theme.Small, bold, draw.End, u.T.Ink)
		u.Info("trial/"+name, draw.Rect{X: x, Y: y + dy, W: width, H: h}, name, w.F("strip.trial.row", "without", a, "with", b))
		return dy + h + u.S(4)
	}
	a, b := &t.Without, &t.With
	dy := line(0, w.T("strip.trial"), w.T("strip.trial.without"), w.T("strip.trial.with"), false)
	dy = line(dy, w.T("strip.trial.width"), w.Num(a.SeptalLateralMM, 1), w.Num(b.SeptalLateralMM, 1), true)
	dy = line(dy, w.T("strip.trial.leak"), w.Num(a.OrificeCM2, 2), w.Num(b.OrificeCM2, 2), true)
	return line(dy, w.T("strip.trial.artery"), w.Num(a.NarrowingPct, 0), w.Num(b.NarrowingPct, 0), true)
}

// row draws buttons beside or below each other and returns the height.
func (v *View) row(x, y, width float64, ids ...string) float64 {
	u, w := v.d.U, v.d.W()
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	for _, id := range ids {
		label := w.T("strip." + id)
		u.Button(id, f.Next(label), label, "", widget.Quiet, false)
	}
	return f.Height() + u.S(8)
}

// decide does what a button of the rods says and tells whether it was one.
func (v *View) decide(id string) bool {
	s := v.d.S
	switch id {
	case "rods/try":
		v.d.Refuse(s.Add(repair.Must(repair.SinusRods).With("trial", 1)))
	case "rods/keep":
		v.d.Refuse(s.Turn("repair/sinus-rods/trial", 0, false))
	case "rods/withdraw":
		v.d.Refuse(s.Place(string(repair.SinusRods), false))
	default:
		return false
	}
	return true
}

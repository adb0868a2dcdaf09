package desk

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// Leaflets draws the choice of what closes the leaflets and of what colours them, how it stands, and how far the two
// differ; it returns the y below.
func (d *Desk) Leaflets(x, y, width float64) float64 {
	u, w := d.U, d.W()
	if y = d.Engine(x, y, width); d.V.Engine != valve.ShellEngine {
		return y
	}
	at := 0
	var names []string
	for i, f := range relief.Fields() {
		names = append(names, w.T("shell.field."+string(f)))
		if string(f) == d.V.Field {
			at = i
		}
	}
	y += u.Options("field", x, y, width, w.T("shell.field"), names, at) + u.S(6)
	e := d.S.Report.Engines
	switch {
	case d.S.Settling():
		return y + u.Para(x, y, width, w.T("shell.settling"), theme.Small, false, u.T.Soft) + u.S(4)
	case e == nil:
		return y
	case e.Status != "settled":
		return y + u.Para(x, y, width, w.T("shell.failed"), theme.Small, false, u.T.Ink) + u.S(4)
	}
	y += u.Para(x, y, width, w.T("shell.differences"), theme.Small, true, u.T.Ink) + u.S(2)
	for _, c := range e.After {
		q, _ := valve.FindQuantity(c.Path)
		text := w.F("shell.difference", "name", w.Table("quantity."+c.Path, q.Label), "sections", w.Num(c.Sections, q.Decimals),
			"shell", w.With(c.Shell, q.Decimals, q.Unit))
		y += u.Para(x, y, width, text, theme.Small, false, u.T.Ink)
	}
	slot := w.F("shell.slot", "slot", w.With(e.SlotMM2[1], 0, "mm²"), "seen", w.With(e.ProjectedMM2[1], 0, "mm²"))
	return y + u.Para(x, y, width, slot, theme.Small, false, u.T.Ink) + u.S(4)
}

// Engine draws the choice of what closes the leaflets and returns the y below.
func (d *Desk) Engine(x, y, width float64) float64 {
	u, w := d.U, d.W()
	y += u.Para(x, y, width, w.T("shell.heading"), theme.Body, true, u.T.Ink) + u.S(4)
	at := 0
	if d.V.Engine == valve.ShellEngine {
		at = 1
	}
	return y + u.Options("engine", x, y, width, w.T("shell.engine"), []string{w.T("shell.sections"), w.T("shell.shell")}, at) + u.S(6)
}

// legend draws the colours of the field in the picture's lower left corner, or says that the shell is on its way.
func (d *Desk) legend(r draw.Rect, o relief.Options) {
	u, w := d.U, d.W()
	if !o.Shell {
		return
	}
	lh := u.LineHeight(theme.Small)
	low, high, unit := o.Field.Range()
	if d.Model.Shapes.Shell == nil || high == low {
		if d.S.Settling() {
			u.Text(draw.Rect{X: r.X + u.S(8), Y: r.Y + r.H - lh - u.S(6), W: r.W / 2, H: lh}, w.T("shell.settling.short"), theme.Small, false, draw.Start, u.T.Soft)
		}
		return
	}
	const steps = 24
	bar := draw.Rect{X: r.X + u.S(10), Y: r.Y + r.H - lh - u.S(18), W: min(u.S(150), r.W/3), H: u.S(10)}
	title := w.F("shell.legend", "field", w.T("shell.field."+string(o.Field)), "unit", unit)
	if d.S.Settling() {
		title += ", " + w.T("shell.settling.short")
	}
	back := draw.Rect{X: bar.X - u.S(4), Y: bar.Y - lh - u.S(4), W: max(bar.W, u.Wide(title, theme.Small, true)) + u.S(8), H: 2*lh + bar.H + u.S(10)}
	u.Fill(back, u.S(4), theme.Fade(u.T.Paper, 0.85))
	u.Text(draw.Rect{X: bar.X, Y: bar.Y - lh - u.S(2), W: back.W, H: lh}, title, theme.Small, true, draw.Start, u.T.Ink)
	for k := range steps {
		u.Fill(draw.Rect{X: bar.X + bar.W*float64(k)/steps, Y: bar.Y, W: bar.W/steps + 0.5, H: bar.H}, 0, theme.Cividis((float64(k)+0.5)/steps))
	}
	at := draw.Rect{X: bar.X, Y: bar.Y + bar.H + u.S(2), W: bar.W, H: lh}
	u.Text(at, w.Num(low, 0), theme.Small, false, draw.Start, u.T.Ink)
	u.Text(at, w.Num((low+high)/2, 0), theme.Small, false, draw.Middle, u.T.Ink)
	u.Text(at, "≥ "+w.Num(high, 0), theme.Small, false, draw.End, u.T.Ink)
}

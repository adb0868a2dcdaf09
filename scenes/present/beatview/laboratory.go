package beatview

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// laboratory sets what each method reads beside what is true, with its error and why it errs.
func (v *View) laboratory(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	if l := v.d.S.Report.After.Laboratory; l != nil { // the quick answer has none: the last stays until the circulation is there
		v.lab = l
	}
	y += u.Para(x, y, width, w.T("lab.title"), theme.Body, true, u.T.Ink) + u.S(2)
	y += u.Para(x, y, width, w.T("lab.intro"), theme.Small, false, u.T.Soft) + u.S(8)
	if v.lab == nil || v.d.Beat() == nil {
		return y + u.Para(x, y, width, w.T("beat.wait"), theme.Body, false, u.T.Soft)
	}
	of := ""
	for _, r := range v.lab.Readings {
		if r.Of != of {
			of = r.Of
			y += u.S(4) + u.Para(x, y+u.S(4), width, w.T("lab.of."+of), theme.Body, true, u.T.Ink) + u.S(2)
			u.Rule(x, y, width)
		}
		y = v.reading(&r, x, y, width)
	}
	if len(v.lab.Leaks) == 0 {
		return y + u.Para(x, y+u.S(6), width, w.T("lab.tight"), theme.Body, false, u.T.Soft) + u.S(12)
	}
	y += u.S(8)
	for _, k := range v.lab.Leaks {
		text := w.F("lab.slit", "length", w.Num(k.LengthMM, 1), "width", w.With(k.WidthMM, 1, "mm"), "radius", w.With(k.RadiusMM, 1, "mm"), "alias", w.With(v.lab.AliasCMPS, 0, "cm/s"))
		y += u.Para(x, y, width, text, theme.Small, false, u.T.Soft) + u.S(4)
	}
	return y + u.S(8)
}

// reading is one method: its name, what it reads, what is true, by how much it errs and why.
func (v *View) reading(r *valve.Reading, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	decimals := 2
	if r.Unit == "mL" {
		decimals = 0
	}
	name := w.Table("lab."+r.Code, r.Method)
	value := w.F("lab.reads", "value", w.With(r.Value, decimals, r.Unit), "true", w.With(r.True, decimals, r.Unit), "error", w.Signed(r.ErrorPct, 0))
	why := w.Table("labwhy."+r.Code, r.Why)
	h := u.S(6) + u.Height(name, theme.Body, false, width) + u.Height(value, theme.Body, true, width) + u.Height(why, theme.Small, false, width) + u.S(6)
	u.Info("lab/"+r.Code, draw.Rect{X: x - u.S(4), Y: y + 1, W: width + u.S(8), H: h - 1}, name, value)
	top := y + u.S(6)
	top += u.Para(x, top, width, name, theme.Body, false, u.T.Ink)
	top += u.Para(x, top, width, value, theme.Body, true, u.T.Ink)
	u.Para(x, top, width, why, theme.Small, false, u.T.Soft)
	y += h
	u.Rule(x, y, width)
	return y
}

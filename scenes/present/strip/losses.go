package strip

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// losses draws where the shortening went: what the band would do with nothing in the way, what each cause takes, and what
// reaches the annulus, one bar below the other, each beginning where the last one ends.
func (v *View) losses(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	y := r.Y + u.Para(r.X, r.Y, r.W, w.T("attribution.title"), theme.Body, true, u.T.Ink) + u.S(2)
	a := v.d.S.Report.Attribution
	if a == nil {
		why := "attribution.none"
		if v.d.S.Updating() {
			why = "state.updating"
		}
		u.Para(r.X, y, r.W, w.T(why), theme.Body, false, u.T.Soft)
		return
	}
	type row struct {
		name     string
		from, to float64 // mm
		color    draw.Color
		bold     bool
	}
	rows := []row{{w.T("attribution.ideal"), 0, a.IdealMM, u.T.Edge, true}}
	at, helps := a.IdealMM, false
	for _, c := range a.Causes {
		color := u.T.Worse
		if c.MM < 0 {
			color, helps = u.T.Better, helps || c.MM < -0.05
		}
		rows = append(rows, row{w.T("cause." + c.Code), at, at - c.MM, color, false})
		at -= c.MM
	}
	rows = append(rows, row{w.T("attribution.actual"), 0, a.ActualMM, u.T.Annulus, true})

	note := w.T("attribution.order")
	if helps {
		note += " " + w.T("attribution.helps")
	}
	nh := u.Height(note, theme.Small, false, r.W) + u.S(4)
	lo, hi := 0.0, 0.0
	labels, values := 0.0, 0.0
	text := make([]string, len(rows))
	for i, q := range rows {
		lo, hi = math.Min(lo, math.Min(q.from, q.to)), math.Max(hi, math.Max(q.from, q.to))
		text[i] = w.With(q.to, 1, "mm")
		if !q.bold {
			text[i] = w.Signed(q.to-q.from, 1) + "\u00a0mm"
		}
		values = math.Max(values, u.Wide(text[i], theme.Body, true))
		labels = math.Max(labels, u.Wide(q.name, theme.Body, q.bold))
	}
	labels = math.Min(labels+u.S(10), r.W*0.42)
	bars := draw.Rect{X: r.X + labels, Y: y, W: r.W - labels - values - u.S(10)}
	rh := (r.Y + r.H - nh - y) / float64(len(rows))
	x := func(mm float64) float64 { return bars.X + bars.W*(mm-lo)/math.Max(hi-lo, 1e-9) }
	for i, q := range rows {
		top := y + rh*float64(i)
		u.Info("attribution/"+w.T(q.name), draw.Rect{X: r.X, Y: top, W: r.W, H: rh}, q.name, text[i])
		lh := u.Height(q.name, theme.Body, q.bold, labels-u.S(8))
		u.Para(r.X, top+(rh-lh)/2, labels-u.S(8), q.name, theme.Body, q.bold, u.T.Ink)
		x0, x1 := x(math.Min(q.from, q.to)), x(math.Max(q.from, q.to))
		h := math.Min(rh*0.7, u.S(22))
		u.List.FillRect(draw.Rect{X: x0, Y: top + (rh-h)/2, W: math.Max(x1-x0, 1.5), H: h}, q.color)
		if i+1 < len(rows)-1 || i == 0 { // where the next one begins
			u.List.FillRect(draw.Rect{X: math.Round(x(q.to)), Y: top + (rh+h)/2, W: 1, H: rh - h}, u.T.Edge)
		}
		u.Text(draw.Rect{X: bars.X + bars.W + u.S(6), Y: top, W: values + u.S(4), H: rh}, text[i], theme.Body, q.bold, draw.End, u.T.Ink)
	}
	u.Para(r.X, r.Y+r.H-nh+u.S(4), r.W, note, theme.Small, false, u.T.Soft)
}

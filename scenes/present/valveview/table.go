package valveview

import (
	"fmt"
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"
)

// mainNumbers are shown first; a switch shows all.
var mainNumbers = map[string]bool{
	"annulus.septal_lateral_mm": true, "coaptation.contact_mm.mean": true, "coaptation.gap_mm.max": true, "coaptation.depth_mm": true,
	"regurgitation.effective_orifice_cm2": true, "regurgitation.volume_ml": true, "opening.anatomic_area_cm2": true,
	"opening.mean_gradient_mmhg": true, "sinus.tension_n": true, "sinus.transmitted_fraction": true,
	"artery.worst_view_narrowing_pct": true, "artery.min_clearance_mm": true,
}

func flow(u *widget.UI, x, y, width float64) *widget.Flow {
	return &widget.Flow{U: u, X: x, Y: y, W: width}
}

func (v *View) numbersCard(r draw.Rect) {
	u := v.d.U
	u.Card(r)
	in := r.Inset(u.S(12))
	x, y, width := u.BeginPanel("numbers", draw.Rect{X: in.X - u.S(4), Y: in.Y, W: in.W + u.S(8), H: in.H})
	u.EndPanel(v.numbers(x+u.S(4), y, width-u.S(8)))
}

// numbers is the table, then the grade and the findings.
func (v *View) numbers(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	col := u.S(44)
	change := u.S(72)
	for _, s := range []string{w.T("table.before"), w.T("table.after")} {
		col = math.Max(col, u.Wide(s, theme.Small, false)+u.S(6))
	}
	for _, s := range []string{w.T("table.better"), w.T("table.worse"), w.T("table.change"), w.T("table.moved")} {
		change = math.Max(change, u.Wide("▲ "+s, theme.Small, false)+u.S(8))
	}
	label := width - 2*col - change
	stacked := label < u.S(84) // too narrow for four columns: the label gets its own line
	if stacked {
		label = width
		col = (width - change) / 2
		if col < u.S(54) {
			col, change = width/3, width/3
		}
	}
	cells := func(y float64) (a, b, c draw.Rect) {
		x0 := x + width - 2*col - change
		return draw.Rect{X: x0, Y: y, W: col - u.S(6)}, draw.Rect{X: x0 + col, Y: y, W: col - u.S(6)}, draw.Rect{X: x0 + 2*col, Y: y, W: change - u.S(4)}
	}
	head := 0.0
	a, b, c := cells(y)
	for i, cell := range []draw.Rect{a, b, c} {
		text := []string{w.T("table.before"), w.T("table.after"), w.T("table.change")}[i]
		lh := u.LineHeight(theme.Small)
		for k, line := range u.Lines(text, theme.Small, false, cell.W) {
			u.Text(draw.Rect{X: cell.X, Y: y + float64(k)*lh, W: cell.W, H: lh}, line, theme.Small, false, draw.End, u.T.Soft)
			head = math.Max(head, float64(k+1)*lh)
		}
	}
	y += head + u.S(4)
	u.Rule(x, y, width)
	if v.d.S.Solved {
		for i := range v.rows {
			if v.all || mainNumbers[v.rows[i].Quantity.Path] {
				y = v.row(&v.rows[i], x, y, width, label, stacked, cells)
			}
		}
	}
	y += u.S(8)
	y += u.Switch("numbers/all", x, y, width, w.T("table.all"), v.all, false) + u.S(8)
	return v.findings(x, y, width)
}

func (v *View) row(ch *valve.Change, x, y, width, label float64, stacked bool, cells func(float64) (a, b, c draw.Rect)) float64 {
	u, w := v.d.U, v.d.W()
	q := &ch.Quantity
	name := tell.Label(w, *q)
	if unit := w.Unit(q.Unit); unit != "" {
		name += " (" + unit + ")"
	}
	lh, sh := u.LineHeight(theme.Body), u.LineHeight(theme.Small)
	nameH := u.Height(name, theme.Body, false, label-u.S(6))
	sign, word, ink := v.verdict(ch)
	wordLines := 0
	if word != "" {
		_, _, c := cells(0)
		wordLines = len(u.Lines(sign+word, theme.Small, false, c.W))
	}
	valueH := lh + float64(wordLines)*sh
	h := math.Max(nameH, valueH)
	top := y + u.S(4)
	if stacked {
		h = nameH + valueH
		top += nameH
	}
	u.Info("quantity/"+q.Path, draw.Rect{X: x - u.S(4), Y: y + 1, W: width + u.S(8), H: h + u.S(8) - 1}, tell.Label(w, *q),
		w.With(ch.Before, q.Decimals, q.Unit)+" → "+w.With(ch.After, q.Decimals, q.Unit)+" "+word)
	u.Para(x, y+u.S(4), label-u.S(6), name, theme.Body, false, u.T.Ink)
	a, b, c := cells(top)
	a.H, b.H, c.H = lh, lh, lh
	after := u.T.Ink
	if v.d.S.Stale() {
		after = u.T.Soft
	}
	u.Text(a, w.Num(ch.Before, q.Decimals), theme.Body, false, draw.End, u.T.Soft)
	u.Text(b, w.Num(ch.After, q.Decimals), theme.Body, true, draw.End, after)
	if !math.IsNaN(ch.Before) && !math.IsNaN(ch.After) {
		u.Text(c, w.Signed(ch.After-ch.Before, q.Decimals), theme.Body, false, draw.End, ink)
	}
	if word != "" {
		for i, line := range u.Lines(sign+word, theme.Small, false, c.W) {
			u.Text(draw.Rect{X: c.X, Y: c.Y + lh + float64(i)*sh, W: c.W, H: sh}, line, theme.Small, false, draw.End, ink)
		}
	}
	y += h + u.S(8)
	u.Rule(x, y, width)
	return y
}

// verdict gives a change its sign, word and colour. The triangle points the way the number went.
func (v *View) verdict(ch *valve.Change) (sign, word string, ink draw.Color) {
	u, w := v.d.U, v.d.W()
	sign = "▲ "
	if ch.After < ch.Before {
		sign = "▼ "
	}
	switch {
	case ch.Improved > 0:
		return sign, w.T("table.better"), u.T.Better
	case ch.Improved < 0:
		return sign, w.T("table.worse"), u.T.Worse
	}
	return "", "", u.T.Soft
}

// findings are the grade and what is worth noticing, each with a word for its weight.
func (v *View) findings(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	if !v.d.S.Solved {
		return y
	}
	r := &v.d.S.Report
	y += u.Para(x, y, width, w.T("heading.grade"), theme.Body, true, u.T.Ink) + u.S(2)
	graded := v.grade(&r.Before.Regurgitation.Grade, &r.After.Regurgitation.Grade)
	gh := u.Height(graded, theme.Body, false, width)
	u.Info("grade", draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(8), H: gh}, w.T("heading.grade"), graded)
	y += u.Para(x, y, width, graded, theme.Body, false, u.T.Ink) + u.S(8)
	if len(r.Findings) == 0 {
		return y
	}
	y += u.Para(x, y, width, w.T("heading.findings"), theme.Body, true, u.T.Ink) + u.S(2)
	for i, f := range r.Findings {
		text := tell.Finding(w, f)
		ink, mark := u.T.Ink, "● "
		switch f.Severity {
		case "caution":
			ink, mark = u.T.Warn, "◆ "
		case "failure":
			ink, mark = u.T.Worse, "■ "
		}
		h := u.LineHeight(theme.Small) + u.Height(text, theme.Body, false, width)
		u.Info(fmt.Sprintf("finding/%d", i), draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(8), H: h}, w.T("severity."+f.Severity), text)
		y += u.Para(x, y, width, mark+w.T("severity."+f.Severity), theme.Small, true, ink)
		y += u.Para(x, y, width, text, theme.Body, false, u.T.Ink) + u.S(6)
	}
	return y
}

func (v *View) grade(before, after *valve.Grade) string {
	w := v.d.W()
	name := func(g *valve.Grade) string {
		if g.Class == "" {
			return w.T("grade.none")
		}
		s := w.Table("class."+g.Class, g.Class)
		if g.Discordant {
			s += " (" + w.T("grade.split") + ")"
		}
		return s
	}
	text := name(before) + " → " + name(after)
	if after.Scheme != "" {
		text += "\n" + w.Table("scheme."+after.Scheme, after.Scheme)
	}
	if after.Note != "" {
		text += "\n" + w.GradeNote(after.Note)
	}
	return text
}

package beatview

import (
	"strconv"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// rules are the grades by every scheme, the flags after a repair, the historical selection rules and what the repairs close
// off later. Nothing is added up.
func (v *View) rules(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	r := &v.d.S.Report
	g := &r.After.Regurgitation
	y = v.heading(x, y, width, w.T("rules.grades"))
	if g.SchemesDisagree {
		y += u.Para(x, y, width, "◆ "+w.T("rules.disagree"), theme.Body, true, u.T.Warn) + u.S(4)
	}
	for i := range g.Grades {
		y = v.scheme(&g.Grades[i], x, y, width)
	}
	if len(g.Grades) == 0 {
		y += u.Para(x, y, width, w.T("grade.none"), theme.Body, false, u.T.Soft) + u.S(8)
	}
	if r.After.Opening.StenosisGrade.Scheme != "" {
		y = v.heading(x, y+u.S(4), width, w.T("rules.opening"))
		y = v.scheme(&r.After.Opening.StenosisGrade, x, y, width)
	}
	if len(r.AfterRepair) > 0 {
		y = v.heading(x, y+u.S(8), width, w.T("rules.after"))
		y = v.criteria("after", r.AfterRepair, x, y, width)
	}
	if len(r.Selection) > 0 {
		y = v.heading(x, y+u.S(8), width, w.T("rules.selection"))
		y += u.Para(x, y, width, w.T("rules.selection.note"), theme.Small, false, u.T.Soft) + u.S(4)
		y = v.criteria("rule", r.Selection, x, y, width)
	}
	for i, l := range r.Later {
		if i == 0 {
			y = v.heading(x, y+u.S(8), width, w.T("rules.later"))
		}
		y += u.Para(x, y, width, tell.RepairName(w, l.Kind), theme.Body, true, u.T.Ink)
		y += u.Para(x, y, width, w.Table("later."+l.Kind, l.Text), theme.Body, false, u.T.Ink)
		y += u.Para(x, y, width, w.Table("source."+l.Source, l.Source), theme.Small, false, u.T.Soft) + u.S(6)
	}
	return y + u.S(8)
}

func (v *View) heading(x, y, width float64, text string) float64 {
	y += v.d.U.Para(x, y, width, text, theme.Body, true, v.d.U.T.Ink) + v.d.U.S(4)
	v.d.U.Rule(x, y, width)
	return y + v.d.U.S(4)
}

// scheme is one scheme: its name, what it says, and each criterion.
func (v *View) scheme(g *valve.Grade, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	class := w.T("grade.none")
	if g.Class != "" {
		class = w.Table("class."+g.Class, g.Class)
	}
	if g.Discordant {
		class += " (" + w.T("grade.split") + ")"
	}
	name := w.Table("scheme."+g.Scheme, g.Scheme)
	h := u.Height(name, theme.Small, false, width) + u.Height(class, theme.Body, true, width)
	u.Info("scheme/"+g.Scheme, draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(8), H: h}, name, class)
	y += u.Para(x, y, width, name, theme.Small, false, u.T.Soft)
	y += u.Para(x, y, width, class, theme.Body, true, u.T.Ink)
	if g.Note != "" && g.Class == "" {
		y += u.Para(x, y, width, w.GradeNote(g.Note), theme.Small, false, u.T.Soft)
	}
	for _, c := range g.Criteria {
		text := w.Table("criterion."+c.Name, c.Name) + " " + w.With(c.Value, places(c.Unit), c.Unit) + ": " + w.Table("class."+c.Says, c.Says)
		y += u.Para(x+u.S(12), y, width-u.S(12), text, theme.Small, false, u.T.Ink)
	}
	return y + u.S(8)
}

// criteria are rules with a value each: met, within 10 %, outside, told by a sign and a word.
func (v *View) criteria(id string, list []valve.Criterion, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	for i, c := range list {
		name := w.Table("criterion."+c.Name, c.Name)
		says := w.Table("says."+c.Says, c.Says)
		ink, sign := u.T.Ink, "○ "
		switch c.Says {
		case "within 10 %":
			ink, sign = u.T.Warn, "◆ "
		case "outside":
			ink, sign = u.T.Worse, "■ "
		}
		says = sign + says
		room := u.Wide(says, theme.Body, true) + u.S(10)
		value := w.With(c.Value, places(c.Unit), unit(c.Unit)) + " (" + w.Rule(c.Rule) + ")"
		h := u.Height(name, theme.Body, false, width-room) + u.Height(value, theme.Small, false, width-room) + u.S(8)
		u.Info(id+"/"+strconv.Itoa(i), draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(8), H: h}, name, value+": "+says)
		u.Text(draw.Rect{X: x + width - room, Y: y + u.S(2), W: room, H: u.LineHeight(theme.Body)}, says, theme.Body, true, draw.End, ink)
		top := y + u.S(2)
		top += u.Para(x, top, width-room, name, theme.Body, false, u.T.Ink)
		u.Para(x, top, width-room, value, theme.Small, false, u.T.Soft)
		y += h
		u.Rule(x, y, width)
	}
	return y + u.S(4)
}

// unit leaves out one that the rule's words already say.
func unit(u string) string {
	if u == "of the half line" {
		return ""
	}
	return u
}

// places are the decimals of a criterion by its unit.
func places(unit string) int {
	switch unit {
	case "cm²", "cm", "of the half line":
		return 2
	case "m/s", "mmHg":
		return 1
	}
	return study.Decimals(1)
}

package cohortview

import (
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/cohort"
)

// patient draws the picked patient and the buttons to go to the next and to open it; it returns the y below.
func (v *View) patient(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	if len(v.g.members) == 0 {
		return y
	}
	y += u.Para(x, y, width, v.told(), theme.Body, false, u.T.Ink) + u.S(4)
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	for _, b := range []struct {
		id   string
		look widget.Look
		off  bool
	}{{"back", widget.Quiet, false}, {"next", widget.Quiet, false}, {"open", widget.Loud, v.picked < 0}} {
		label := w.T("cohort.button." + b.id)
		u.Button("cohort/"+b.id, f.Next(label), label, "", b.look, b.off)
	}
	return y + f.Height() + u.S(4)
}

// told says who is picked and how it went.
func (v *View) told() string {
	w := v.d.W()
	if v.picked < 0 || v.picked >= len(v.g.members) {
		return w.T("cohort.pick")
	}
	m := &v.g.members[v.picked]
	text := w.F("cohort.picked", "n", m.Index+1, "group", w.T("cohort.group."+m.Group.String()))
	for k := range v.axis {
		a := &measures[v.axis[k]]
		text += " " + w.F("cohort.value", "name", w.T("cohort.m."+a.name), "value", w.With(a.value(m), a.decimals, a.unit))
	}
	return text + " " + v.how(m)
}

func (v *View) how(m *cohort.Member) string {
	w := v.d.W()
	switch {
	case m.Failure != "":
		return w.T("cohort.unsolved")
	case !m.Fits:
		why := "cohort.unfit." + m.Unfit
		if !w.Has(why) {
			why = "cohort.unfit.size"
			if !m.Solved { // the case itself cannot hold it
				why = "cohort.unfit.place"
			}
		}
		return w.F("cohort.unfit", "why", w.T(why))
	}
	class := m.After.Regurgitation.Grade.Class
	if class == "" {
		return w.F("cohort.fitted", "class", w.T("grade.none"))
	}
	return w.F("cohort.fitted", "class", w.Table("class."+class, class))
}

// Sentence is the line on top.
func (v *View) Sentence() string {
	w := v.d.W()
	if len(v.g.members) == 0 {
		return w.T("cohort.wait")
	}
	v.count()
	a := total(v.all)
	return w.F("cohort.sentence", "n", len(v.g.members), "fits", v.share(a.Fits, a.N), "seen", v.share(a.Narrowed, a.Fits), "rule", v.share(a.Risk, a.Fits))
}

// Describe tells the scene in words.
func (v *View) Describe() string {
	w := v.d.W()
	text := v.Sentence()
	if len(v.g.members) == 0 {
		return text
	}
	text += " " + w.F("cohort.tell", "x", v.label(&measures[v.axis[0]]), "y", v.label(&measures[v.axis[1]]))
	if v.moved() {
		text += " " + w.F("cohort.shares.within", "n", v.within, "all", len(v.g.members)) + "."
	}
	return text + " " + v.told()
}

package desk

import (
	"strconv"
	"strings"

	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
)

// verdictTip explains a grade by its criteria and a finding by its source.
func (d *Desk) verdictTip(id string) (widget.Tip, bool) {
	w, r := d.W(), &d.S.Report
	if id == "grade" {
		g := &r.After.Regurgitation.Grade
		t := widget.Tip{Title: w.T("heading.grade")}
		for _, c := range g.Criteria {
			t.Rows = append(t.Rows, widget.TipRow{Head: w.Table("criterion."+c.Name, c.Name),
				Text: w.With(c.Value, decimals(c.Unit), c.Unit) + ": " + w.Table("class."+c.Says, c.Says) + " (" + w.Rule(c.Rule) + ")"})
		}
		if len(g.Criteria) > 0 {
			t.Rows = append(t.Rows, widget.TipRow{Head: w.T("tip.source"), Text: g.Criteria[0].Source})
		}
		t.Rows = append(t.Rows, widget.TipRow{Head: w.T("tip.limits"), Text: w.T("tip.grade.limits")})
		return t, true
	}
	rest, ok := strings.CutPrefix(id, "finding/")
	i, err := strconv.Atoi(rest)
	if !ok || err != nil || i >= len(r.Findings) {
		return widget.Tip{}, false
	}
	f := r.Findings[i]
	return widget.Tip{Title: w.T("severity." + f.Severity), Rows: []widget.TipRow{{Head: w.T("tip.meaning"), Text: tell.Finding(w, f)},
		{Head: w.T("tip.source"), Text: source(w, f.Source)}, {Head: w.T("tip.limits"), Text: w.T("tip.limits.none")}}}, true
}

// decimals of a criterion by its unit.
func decimals(unit string) int {
	switch unit {
	case "cm²", "cm":
		return 2
	case "m/s":
		return 1
	}
	return 0
}

// source is where a number comes from, or that it follows from its definition.
func source(w *words.Words, text string) string {
	if text == "" {
		return w.T("tip.source.none")
	}
	return w.Source(text)
}

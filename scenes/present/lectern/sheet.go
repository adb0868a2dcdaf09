package lectern

import (
	"fmt"
	"strings"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/sim/valve"
)

// Sheet is the running order as plain text to be printed: questions, notes, and the numbers as the model gives them now.
func (v *View) Sheet() string {
	w := v.d.W()
	var b strings.Builder
	title := v.order.Title
	if title == "" {
		title = w.T("lectern.sheet.title")
	}
	fmt.Fprintf(&b, "%s\n%s\n", title, w.T("app.caution"))
	for i, s := range v.order.Steps {
		fmt.Fprintf(&b, "\n%d. %s\n", i+1, v.titleOf(s))
		for _, line := range []string{s.Ask, s.Note} {
			if line != "" {
				fmt.Fprintf(&b, "   %s\n", line)
			}
		}
		solved := study.New(study.NewSync(study.NewFull()), s.State.Open)
		solved.Settle()
		fmt.Fprintf(&b, "   %s\n", tell.Told(w, solved))
		if q, ok := valve.FindQuantity(s.Number); ok && solved.Solved {
			fmt.Fprintf(&b, "   %s: %s → %s\n", tell.Label(w, q), w.With(q.Of(&solved.Report.Before), q.Decimals, q.Unit), w.With(q.Of(&solved.Report.After), q.Decimals, q.Unit))
		}
	}
	return b.String()
}

package plain

import (
	"fmt"
	"io"
	"strings"

	"annuloscope/sim/grade"
	"annuloscope/sim/valve"
)

// Judged writes the grades by every scheme, the flags after a repair, the historical selection rules and what the repairs
// close off later.
func Judged(w io.Writer, r *valve.Report) error {
	var b strings.Builder
	for _, st := range []struct {
		name string
		g    *valve.Regurgitation
	}{{"before", &r.Before.Regurgitation}, {"after", &r.After.Regurgitation}} {
		for i := range st.g.Grades {
			fmt.Fprintf(&b, "Leak %s, %s: %s.\n", st.name, st.g.Grades[i].Scheme, class(&st.g.Grades[i]))
		}
		if st.g.SchemesDisagree {
			fmt.Fprintf(&b, "Leak %s: one scheme calls it severe, another does not.\n", st.name)
		}
	}
	if len(r.Before.Regurgitation.Grades) > 0 {
		fmt.Fprintf(&b, "Graded is the %s orifice; over systole it is %.2f to a peak of %.2f cm² before, %.2f to %.2f after (time mean, peak).\n", r.Before.Regurgitation.Graded,
			r.Before.Regurgitation.EffectiveOrificeMeanCM2, r.Before.Regurgitation.EffectiveOrificePeakCM2, r.After.Regurgitation.EffectiveOrificeMeanCM2, r.After.Regurgitation.EffectiveOrificePeakCM2)
	}
	if r.After.Opening.StenosisGrade.Scheme != "" {
		fmt.Fprintf(&b, "Opening, %s: before %s, after %s.\n", r.After.Opening.StenosisGrade.Scheme, class(&r.Before.Opening.StenosisGrade), class(&r.After.Opening.StenosisGrade))
	}
	if _, err := io.WriteString(w, b.String()); err != nil {
		return err
	}
	if err := criteria(w, "After clip or stitch, published flags", r.AfterRepair); err != nil {
		return err
	}
	if err := criteria(w, grade.SelectionTitle, r.Selection); err != nil {
		return err
	}
	b.Reset()
	for i, l := range r.Later {
		if i == 0 {
			b.WriteString("\nWhat the repairs close off later:\n")
		}
		fmt.Fprintf(&b, "%s: %s (%s)\n", l.Title, l.Text, l.Source)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func class(g *valve.Grade) string {
	switch {
	case g.Class == "":
		return g.Note
	case g.Discordant:
		return g.Class + " (criteria disagree)"
	}
	return g.Class
}

func criteria(w io.Writer, title string, list []valve.Criterion) error {
	if len(list) == 0 {
		return nil
	}
	var b strings.Builder
	fmt.Fprintf(&b, "\n%s:\n", title)
	for _, c := range list {
		decimals := 1
		if c.Unit == "cm²" || c.Unit == "of the half line" {
			decimals = 2
		}
		unit := " " + c.Unit
		if c.Unit == "of the half line" {
			unit = ""
		}
		fmt.Fprintf(&b, "  %-11s %s %s%s; rule: %s (%s)\n", c.Says, c.Name, Number(c.Value, decimals), unit, c.Rule, c.Source)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

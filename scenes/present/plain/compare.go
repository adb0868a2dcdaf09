package plain

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/valve"
)

var marks = map[tell.Mark]string{tell.Best: "best", tell.BetterThan: "better", tell.WorseThan: "worse", tell.Moved: "changed"}

var directions = [...]string{"–", "lower", "higher"}

// names of the columns of a comparison, the untreated valve first.
func columnNames(c *study.Comparison) []string {
	out := []string{"untreated"}
	for _, k := range c.Columns[1:] {
		out = append(out, k.Plan.Name)
	}
	return out
}

// Comparison writes the plans, a table of every quantity that applies with its change and what that means, the sentence
// that says what differs and why, and the notice.
func Comparison(w io.Writer, c *study.Comparison, notice string) error {
	var b strings.Builder
	for i, name := range columnNames(c) {
		k := &c.Columns[i]
		fmt.Fprintf(&b, "%s: %s\n", name, tell.Repairs(words.For(words.English), k.Plan.Repairs))
		if k.Failure != nil {
			fmt.Fprintf(&b, "  not solved: %v\n", k.Failure)
		}
	}
	if _, err := io.WriteString(w, b.String()+"\n"); err != nil {
		return err
	}
	rows := [][]string{append([]string{"quantity", "unit", "better"}, columnNames(c)...)}
	for _, q := range valve.Quantities() {
		r := tell.Rank(q, c)
		if !r.Applies {
			continue
		}
		row := []string{q.Label, q.Unit, directions[q.Better]}
		for i, v := range r.Values {
			cell := Number(v, q.Decimals)
			if i > 0 && cell != Number(r.Values[0], q.Decimals) && !math.IsNaN(v-r.Values[0]) {
				cell += " (" + signed(v-r.Values[0], q.Decimals) + ")"
			}
			if m := marks[r.Marks[i]]; m != "" && r.Marks[i] != tell.Moved {
				cell += " " + m
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	if err := Table(w, rows); err != nil {
		return err
	}
	_, err := fmt.Fprintf(w, "\n%s\n%s\n\n%s\n", tell.Comparison(words.For(words.English), c.Base(), tell.Solved(c)), comparedBy(c), notice)
	return err
}

// comparedBy says which engine's numbers these are, and where the other was asked for in vain.
func comparedBy(c *study.Comparison) string {
	text := Engine(c.Columns[0].Report.Provenance.Engine)
	for _, i := range c.Refused() {
		text += fmt.Sprintf(" In three dimensions the leaflets of %q did not settle, so that all columns show the sections.", columnNames(c)[i])
	}
	return text
}

// ComparisonCSV writes the same as comma-separated values in full precision, with the provenance in lines that begin
// with #.
func ComparisonCSV(w io.Writer, c *study.Comparison, notice string) error {
	p := &c.Columns[0].Report.Provenance
	if _, err := fmt.Fprintf(w, "# %s\n# annuloscope %s, case %s, sha256 %s, schema %s, engine %s\n", notice, valve.Version, p.CaseName, p.CaseSHA256, p.Schema, p.Engine); err != nil {
		return err
	}
	for _, k := range c.Columns[1:] {
		if _, err := fmt.Fprintf(w, "# plan %s; %s\n", k.Plan.String(), k.Report.Provenance.Status); err != nil {
			return err
		}
	}
	if _, err := fmt.Fprintf(w, "# %s\n", tell.Comparison(words.For(words.English), c.Base(), tell.Solved(c))); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	head := []string{"path", "unit", "better"}
	for i, name := range columnNames(c) {
		head = append(head, name)
		if i > 0 {
			head = append(head, name+" change", name+" verdict")
		}
	}
	out.Write(head)
	number := func(v float64) string {
		if math.IsNaN(v) {
			return ""
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	for _, q := range valve.Quantities() {
		r := tell.Rank(q, c)
		if !r.Applies {
			continue
		}
		row := []string{q.Path, q.Unit, directions[q.Better]}
		for i, v := range r.Values {
			row = append(row, number(v))
			if i > 0 {
				row = append(row, number(v-r.Values[0]), marks[r.Marks[i]])
			}
		}
		out.Write(row)
	}
	out.Flush()
	return out.Error()
}

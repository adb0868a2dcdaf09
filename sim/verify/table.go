package verify

import (
	"fmt"
	"io"
	"math"
	"strings"
)

// String writes a number of the table with five significant digits, or a dash.
func (n Number) String() string {
	if math.IsNaN(float64(n)) || math.IsInf(float64(n), 0) {
		return "–"
	}
	return fmt.Sprintf("%.5g", float64(n))
}

// Header names the columns of Cells.
func Header() []string {
	return []string{"quantity", "unit", "expected", "ours", "error", "tolerance", "order", "verdict", "source", "kind"}
}

// Cells writes a row as text, in the order of Header.
func (r Row) Cells() []string {
	e := r.Error.String()
	if r.Error == 0 {
		e = "0"
	} else if !strings.HasPrefix(e, "–") {
		e = fmt.Sprintf("%+.2g", float64(r.Error))
	}
	return []string{r.Quantity, r.Unit, r.Expected.String(), r.Ours.String(), e, fmt.Sprintf("%.2g", float64(r.Tolerance)), r.Order.String(), string(r.Verdict), r.Source, string(r.Kind)}
}

// Summary counts the verdicts in one line.
func Summary(rows []Row) string {
	n := Count(rows)
	exact := 0
	for _, r := range rows {
		if r.Kind == Exact {
			exact++
		}
	}
	return fmt.Sprintf("%d rows (%d exact): %d PASS, %d FAIL, %d GAP, %d not in asymptotic range",
		len(rows), exact, n[Pass], n[Fail], n[Gap], n[NotAsymptotic])
}

// Markdown writes the rows as one table per group.
func Markdown(w io.Writer, rows []Row) error {
	group := ""
	for _, r := range rows {
		if r.Group != group {
			group = r.Group
			line := strings.Join(Header(), " | ")
			if _, err := fmt.Fprintf(w, "\n### %s\n\n| %s |\n|%s\n", group, line, strings.Repeat("---|", len(Header()))); err != nil {
				return err
			}
		}
		cells := r.Cells()
		for i, c := range cells {
			cells[i] = strings.ReplaceAll(c, "|", "\\|")
		}
		if _, err := fmt.Fprintf(w, "| %s |\n", strings.Join(cells, " | ")); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(w, "\n%s.\n", Summary(rows))
	return err
}

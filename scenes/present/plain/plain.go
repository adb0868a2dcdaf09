// Package plain tells a report as plain text for a terminal or a file: aligned tables, no colour, no window.
package plain

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"annuloscope/sim/valve"
)

// Table writes aligned columns: the first to the left, the others to the right. rows[0] is the heading.
func Table(w io.Writer, rows [][]string) error {
	var width []int
	for _, row := range rows {
		for i, cell := range row {
			if i >= len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	for n, row := range rows {
		var b strings.Builder
		for i, cell := range row {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				b.WriteString(cell + pad)
			} else {
				b.WriteString("  " + pad + cell)
			}
		}
		if _, err := fmt.Fprintln(w, strings.TrimRight(b.String(), " ")); err != nil {
			return err
		}
		if n == 0 {
			total := 0
			for _, x := range width {
				total += x + 2
			}
			if _, err := fmt.Fprintln(w, strings.Repeat("-", total-2)); err != nil {
				return err
			}
		}
	}
	return nil
}

// Number writes a value with so many decimals; a dash where it does not apply, no minus on a rounded zero.
func Number(v float64, decimals int) string {
	if math.IsNaN(v) {
		return "-"
	}
	if unit := math.Pow(10, -float64(decimals)); math.Abs(v) < unit/2 {
		v = 0
	}
	return fmt.Sprintf("%.*f", decimals, v)
}

// Report writes before, after and change of every quantity, then the grades and findings.
func Report(w io.Writer, r *valve.Report) error {
	rows := [][]string{{"quantity", "before", "after", "change", "unit", ""}}
	for _, c := range r.Changes() {
		verdict := ""
		switch c.Improved {
		case 1:
			verdict = "better"
		case -1:
			verdict = "worse"
		}
		change := math.NaN()
		if !math.IsNaN(c.Before) && !math.IsNaN(c.After) {
			change = c.After - c.Before
		}
		q := c.Quantity
		rows = append(rows, []string{q.Label, Number(c.Before, q.Decimals), Number(c.After, q.Decimals), signed(change, q.Decimals), q.Unit, verdict})
	}
	if err := Table(w, rows); err != nil {
		return err
	}
	if err := Attribution(w, r.Attribution); err != nil {
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "\nLeak before: %s. After: %s.\n", gradeWords(r.Before), gradeWords(r.After))
	if err := Judged(&b, r); err != nil {
		return err
	}
	fmt.Fprintf(&b, "\nOpenings after: %s. Artery risk after: %s.\n", orificeWords(r.After.Opening), r.After.Artery.Risk)
	for _, f := range r.Findings {
		fmt.Fprintf(&b, "%s: %s\n", strings.ToUpper(f.Severity[:1])+f.Severity[1:], f.Text)
	}
	fmt.Fprintf(&b, "%s\n\n%s\n", Leaflets(r), r.Notice)
	_, err := io.WriteString(w, b.String())
	return err
}

func signed(v float64, decimals int) string {
	s := Number(v, decimals)
	if v > 0 && s != Number(0, decimals) {
		return "+" + s
	}
	return s
}

func gradeWords(s valve.State) string {
	g := s.Regurgitation.Grade
	switch {
	case g.Class == "" && g.Note == "":
		return "no grade"
	case g.Class == "":
		return "no grade, " + g.Note
	case g.Discordant:
		return g.Class + " (criteria disagree)"
	}
	return g.Class
}

func orificeWords(o valve.Opening) string {
	parts := make([]string, len(o.OrificesCM2))
	for i, a := range o.OrificesCM2 {
		parts[i] = fmt.Sprintf("%.2f", float64(a))
	}
	return fmt.Sprintf("%d (%s cm²)", len(parts), strings.Join(parts, " + "))
}

package plain

import (
	"fmt"
	"io"
	"strings"

	"annuloscope/sim/valve"
)

// Attribution writes where the shortening of a sinus device went, as a table that adds up and the order it was made in.
// Nothing is written for nil.
func Attribution(w io.Writer, a *valve.Attribution) error {
	if a == nil {
		return nil
	}
	rows := [][]string{{"where did the shortening go?", "septal-lateral mm", "share %"}}
	row := func(name string, mm float64) {
		rows = append(rows, []string{name, Number(mm, 2), Number(100*mm/a.IdealMM, 0)})
	}
	row("with nothing in the way", a.IdealMM)
	for _, c := range a.Causes {
		row("lost to "+c.Name, -c.MM)
	}
	row("reached the annulus", a.ActualMM)
	if _, err := io.WriteString(w, "\n"); err != nil {
		return err
	}
	if err := Table(w, rows); err != nil {
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Order: %s. A loss above zero is a cause that helps: a short stretch about P2 acts where it counts.\n", a.Order)
	_, err := io.WriteString(w, b.String())
	return err
}

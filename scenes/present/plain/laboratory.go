package plain

import (
	"fmt"
	"io"
	"math"

	"annuloscope/sim/valve"
)

// Laboratory writes what a laboratory would read off a state beside what is true; nothing without the closed loop.
func Laboratory(w io.Writer, title string, l *valve.Laboratory) error {
	if l == nil {
		return nil
	}
	rows := [][]string{{title, "reads", "true", "error %", "unit", "of"}}
	for _, r := range l.Readings {
		decimals := 2
		if r.Unit == "mL" {
			decimals = 0
		}
		rows = append(rows, []string{r.Method, Number(r.Value, decimals), Number(r.True, decimals), signed(r.ErrorPct, 0), r.Unit, r.Of})
	}
	if err := Table(w, rows); err != nil {
		return err
	}
	for _, k := range l.Leaks {
		if _, err := fmt.Fprintf(w, "Leak at %+.2f in mid-systole: %.1f × %.1f mm; the blood passes %.0f cm/s %.1f mm before it (near field %.1f mm).\n",
			math.Round(100*k.Position)/100+0, k.LengthMM, k.WidthMM, l.AliasCMPS, k.RadiusMM, k.NearMM); err != nil {
			return err
		}
	}
	return nil
}

// Methods says why each method of a laboratory errs, with its source.
func Methods(w io.Writer, l *valve.Laboratory) error {
	for _, r := range l.Readings {
		if _, err := fmt.Fprintf(w, "%s: %s (%s).\n", r.Method, r.Why, r.Source); err != nil {
			return err
		}
	}
	return nil
}

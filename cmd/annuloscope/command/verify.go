package command

import (
	"encoding/json"
	"fmt"

	"annuloscope/scenes/present/plain"
	"annuloscope/sim/valve"
	"annuloscope/sim/verify"
)

type verifyCmd struct {
	JSON     bool `help:"Print the rows as JSON." xor:"form"`
	Markdown bool `help:"Print the rows as Markdown tables." xor:"form"`
}

// Run makes every check.
func (c *verifyCmd) Run(s *Streams) error { return c.write(s, verify.Run()) }

// write exits with 1 after the whole table when an exact row fails.
func (c *verifyCmd) write(s *Streams, rows []verify.Row) error {
	var err error
	switch {
	case c.JSON:
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		err = e.Encode(struct {
			Notice  string       `json:"notice"`
			Summary string       `json:"summary"`
			Failed  int          `json:"failed"`
			Rows    []verify.Row `json:"rows"`
		}{valve.Notice, verify.Summary(rows), verify.Failed(rows), rows})
	case c.Markdown:
		if err = verify.Markdown(s.Out, rows); err == nil {
			_, err = fmt.Fprintln(s.Out, "\n"+valve.Notice)
		}
	default:
		cells := [][]string{append([]string{"group"}, verify.Header()...)}
		for _, r := range rows {
			cells = append(cells, append([]string{r.Group}, r.Cells()...))
		}
		if err = plain.Table(s.Out, cells); err == nil {
			_, err = fmt.Fprintf(s.Out, "\n%s\n%s\n", verify.Summary(rows), valve.Notice)
		}
	}
	if n := verify.Failed(rows); err == nil && n > 0 {
		if b, ok := s.Out.(*buffered); ok { // the table is the answer, also when the code is 1
			err = b.flush()
		}
		if err == nil {
			err = failWith(Failed, "%d exact rows failed", n)
		}
	}
	return err
}

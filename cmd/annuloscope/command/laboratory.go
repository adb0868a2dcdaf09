package command

import (
	"encoding/json"
	"fmt"
	"io"

	"annuloscope/scenes/present/plain"
	"annuloscope/sim/valve"
)

type laboratoryCmd struct {
	caseFlags
	engineFlag
	JSON bool `help:"Print both states' readings as JSON."`
}

// Run prints what a laboratory would read before and after, each beside the true value with its error.
func (c *laboratoryCmd) Run(s *Streams) error {
	cs, err := c.load()
	if err != nil {
		return err
	}
	r, err := valve.Solve(cs, c.options(valve.Options{Circulation: true}))
	if err != nil {
		return err
	}
	c.warn(s, &r)
	if c.JSON {
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		err = e.Encode(map[string]any{"notice": r.Notice, "before": r.Before.Laboratory, "after": r.After.Laboratory, "provenance": r.Provenance})
	} else {
		err = laboratoryWords(s.Out, &r)
	}
	if err == nil && !r.Provenance.Converged {
		return failWith(NotConverged, "not converged: %s", r.Provenance.Status)
	}
	return err
}

func laboratoryWords(w io.Writer, r *valve.Report) error {
	if err := plain.Laboratory(w, "before", r.Before.Laboratory); err != nil {
		return err
	}
	if len(r.Later) > 0 {
		fmt.Fprintln(w)
		if err := plain.Laboratory(w, "after", r.After.Laboratory); err != nil {
			return err
		}
	}
	fmt.Fprintln(w, "\nWhy they err:")
	if err := plain.Methods(w, r.Before.Laboratory); err != nil {
		return err
	}
	fmt.Fprintln(w, "\n"+plain.Leaflets(r)+"\n\n"+r.Notice)
	return nil
}

package command

import (
	"encoding/json"

	"annuloscope/scenes/present/plain"
	"annuloscope/sim/valve"
)

type solveCmd struct {
	caseFlags
	engineFlag
	JSON bool `help:"Print the whole report as JSON."`
}

func (c *solveCmd) Run(s *Streams) error {
	cs, err := c.load()
	if err != nil {
		return err
	}
	r, err := valve.Solve(cs, c.options(valve.Options{Circulation: true, Attribution: true}))
	if err != nil {
		return err
	}
	c.warn(s, &r)
	if c.JSON {
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		err = e.Encode(&r)
	} else {
		err = plain.Report(s.Out, &r)
	}
	if err == nil && !r.Provenance.Converged {
		return failWith(NotConverged, "not converged: %s", r.Provenance.Status)
	}
	return err
}

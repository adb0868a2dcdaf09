package command

import (
	"fmt"

	"annuloscope/scenes/present/plain"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// demonstration is the case that opens first.
const demonstration = "functional"

type openCmd struct {
	Case  string `arg:"" optional:"" help:"A built-in case or a file; the functional leak when left out."`
	Words bool   `help:"Do the main job in words and open no window."`
}

func (c *openCmd) Run(s *Streams) error { return c.inWords(s) }

// inWords does the main job without a display: the patient untreated, with the sinus band and with the edge clip.
func (c *openCmd) inWords(s *Streams) error {
	name := c.Case
	if name == "" {
		name = demonstration
	}
	base, err := Load(name)
	if err != nil {
		return err
	}
	solver := valve.NewSolver()
	for i, kind := range []repair.Kind{repair.SinusBand, repair.EdgeClip} {
		cs := base.Clone()
		cs.Repairs = []repair.Step{repair.Must(kind)}
		r, err := solver.Solve(cs, valve.Options{Circulation: true})
		if err != nil {
			return err
		}
		spec, _ := repair.Find(kind)
		if i == 0 {
			fmt.Fprintf(s.Out, "%s. %s\n", base.Title, base.Note)
		}
		fmt.Fprintf(s.Out, "\n== %s ==\n%s\n\n", spec.Title, spec.Meaning)
		if err := plain.Report(s.Out, &r); err != nil {
			return err
		}
	}
	fmt.Fprintln(s.Out, "\nThe pictures: `annuloscope serve` shows the same program as a page; `annuloscope figure functional -o valve.png` draws without a display.")
	return nil
}

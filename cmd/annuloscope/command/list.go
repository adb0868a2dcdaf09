package command

import (
	"fmt"
	"math"
	"strings"

	"annuloscope/assets"
	"annuloscope/scenes/present/plain"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

type casesCmd struct{}

func (casesCmd) Run(s *Streams) error {
	for _, name := range assets.CaseNames() {
		c, err := Load(name)
		if err != nil {
			return err
		}
		fmt.Fprintf(s.Out, "%-14s %s\n", name, c.Note)
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

type parametersCmd struct{}

func (parametersCmd) Run(s *Streams) error {
	rows := [][]string{{"path", "range", "default", "meaning (source)"}}
	for _, p := range anatomy.Parameters() {
		value := "may be left out"
		if !math.IsNaN(p.Default) {
			value = fmt.Sprint(p.Default)
		}
		rows = append(rows, []string{p.Path, p.Range(), value, p.Meaning + " (" + p.Source + ")"})
	}
	for _, c := range anatomy.Choices() {
		rows = append(rows, []string{c.Path, strings.Join(c.Options, ", "), c.Default, c.Meaning + " (" + c.Source + ")"})
	}
	if err := plain.Table(s.Out, rows); err != nil {
		return err
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

type repairsCmd struct{}

func (repairsCmd) Run(s *Streams) error {
	for _, spec := range repair.Specs() {
		fmt.Fprintf(s.Out, "%s: %s\n  %s\n  Later: %s (%s)\n", spec.Kind, spec.Title, spec.Meaning, spec.ClosesOff, spec.Source)
		for _, p := range spec.Parameters {
			fmt.Fprintf(s.Out, "    %-20s %g to %g %s, default %g: %s\n", p.Key, p.Min, p.Max, p.Unit, p.Default, p.Meaning)
		}
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

type glossaryCmd struct{}

func (glossaryCmd) Run(s *Streams) error {
	for _, q := range valve.Quantities() {
		fmt.Fprintf(s.Out, "%s (%s)\n  %s. When: %s.", q.Label, q.Path, q.Meaning, q.Phase)
		for _, part := range []struct{ name, text string }{{"How", q.Formula}, {"Limits", q.Limits}, {"Source", q.Source}} {
			if part.text != "" {
				fmt.Fprintf(s.Out, " %s: %s.", part.name, part.text)
			}
		}
		fmt.Fprintf(s.Out, " Unit: %s.\n", q.Unit)
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

type versionCmd struct{}

func (versionCmd) Run(s *Streams) error {
	fmt.Fprintf(s.Out, "annuloscope %s\n%s\n", valve.Version, valve.Notice)
	return nil
}

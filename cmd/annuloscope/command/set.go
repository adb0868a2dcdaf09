package command

import (
	"fmt"
	"io"
	"slices"

	"annuloscope/assets"
	"annuloscope/scenes/save"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

type setCmd struct {
	Case    string   `arg:"" help:"A built-in case (see cases) or a file."`
	Changes []string `arg:"" optional:"" help:"Numbers to change: path=value, such as annulus.septal_lateral_mm=34 or repair.1.shortening_mm=25." placeholder:"PATH=VALUE"`
	Repair  []string `help:"Add a repair: kind,key=value,…" placeholder:"KIND,KEY=VALUE" sep:"none"`
	Output  string   `short:"o" help:"The case file to write; it may be the same. Without it the case goes to standard output." placeholder:"CASE.yaml"`
}

// Run changes numbers of a case file in place: comments, order and untouched numbers stay, an older file becomes one of
// this version.
func (c *setCmd) Run(s *Streams) error {
	f := caseFlags{Case: c.Case, Set: c.Changes, Repair: c.Repair}
	cs, err := f.load()
	if err != nil {
		return err
	}
	old, err := textOf(c.Case)
	if err != nil {
		return failWith(Failed, "reading %s: %w", c.Case, err)
	}
	text, err := write(old, &cs, c.Output)
	if err != nil {
		return err
	}
	if c.Output == "" {
		fmt.Fprintln(s.Err, valve.NoticeFor(&cs.Patient)) // JSON has no comments
		_, err = s.Out.Write(text)
		return err
	}
	if err := save.File(c.Output, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return failWith(Failed, "writing %s: %w", c.Output, err)
	}
	fmt.Fprintf(s.Out, "%s: %d changes, %d repairs added\n%s\n", c.Output, len(c.Changes), len(c.Repair), valve.NoticeFor(&cs.Patient))
	return nil
}

func textOf(name string) ([]byte, error) {
	if slices.Contains(assets.CaseNames(), name) {
		return assets.Cases.ReadFile("cases/" + name + ".yaml")
	}
	return readFile(name, casefile.MaxBytes+1)
}

package command

import (
	"fmt"
	"slices"

	"annuloscope/assets"
	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/present/program"
	"annuloscope/sim/valve"
)

// sharedFile returns what is in a file that holds a shared state, a saved link or a running order; nil for everything
// else, which is then read as a case and refused with a reason where it is none.
func sharedFile(name string) []byte {
	if name == "" || slices.Contains(assets.CaseNames(), name) {
		return nil
	}
	data, err := readFile(name, mostKept+1)
	if err != nil || len(data) > mostKept || !program.IsShared(data) {
		return nil
	}
	return data
}

// sharedInWords solves a shared state as it is.
func sharedInWords(s *Streams, data []byte, f engineFlag) error {
	cs, err := program.SharedCase(data)
	if err != nil {
		return err
	}
	r, err := valve.NewSolver().Solve(cs, f.options(valve.Options{Circulation: true}))
	if err != nil {
		return err
	}
	f.warn(s, &r)
	fmt.Fprintf(s.Out, "%s. %s\n\n", cs.Title, cs.Note)
	return plain.Report(s.Out, &r)
}

package command

import (
	"fmt"
	"runtime"
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

// pageAddress is the address that links begin with: in the page its own, which the browser fills in.
func pageAddress() string {
	if runtime.GOOS == "js" {
		return program.PageAddress
	}
	return ""
}

// sharedInWords solves a shared state as it is.
func sharedInWords(s *Streams, data []byte) error {
	cs, err := program.SharedCase(data)
	if err != nil {
		return err
	}
	r, err := valve.NewSolver().Solve(cs, valve.Options{Circulation: true})
	if err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "%s. %s\n\n", cs.Title, cs.Note)
	return plain.Report(s.Out, &r)
}

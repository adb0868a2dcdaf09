package command

import (
	"fmt"

	"annuloscope/scenes/present/program"
	"annuloscope/sim/valve"
)

// engineFlag chooses what closes and opens the leaflets.
type engineFlag struct {
	Engine string `enum:"sections,shell" default:"sections" help:"What closes and opens the leaflets: sections answer in milliseconds, the shell in three dimensions in seconds (${enum})."`
}

// shellFlags are the engine and how its leaflets are coloured, for a picture.
type shellFlags struct {
	engineFlag
	Field string `enum:"none,contact,gap,tension" default:"none" help:"What colours the leaflets of the shell (${enum})."`
}

// settle brings the program to the engine and field chosen.
func (f shellFlags) settle(s *Streams, p *program.Program) {
	d := p.Desk()
	d.V.Engine, d.V.Field = f.Engine, f.Field
	d.Sync()
	d.S.Settle()
	f.warn(s, &d.S.Report)
}

// warn says on standard error when the shell was asked for and the sections' numbers stand.
func (f engineFlag) warn(s *Streams, r *valve.Report) {
	if f.Engine == valve.ShellEngine && r.Provenance.Engine != valve.ShellEngine && r.Engines != nil {
		fmt.Fprintln(s.Err, "annuloscope: the shell did not settle ("+r.Engines.Status+"); the numbers are those of the sections")
	}
}

// named is what the header of a file adds about the engine.
func (f engineFlag) named() string {
	if f.Engine == valve.ShellEngine {
		return "; engine shell"
	}
	return ""
}

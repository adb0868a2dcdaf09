package command

import (
	"fmt"
	"slices"

	"annuloscope/scenes/present/program"
	"annuloscope/sim/valve"
)

// engineFlag is the one choice of what closes and opens the leaflets. Every command that closes or opens a valve embeds it
// (engine_test.go lists the others), and hands it on by options or settle.
type engineFlag struct {
	Engine engineName `default:"" placeholder:"NAME" help:"What closes and opens the leaflets: sections (also when left out) answer in milliseconds; shell, the leaflets in three dimensions, in seconds."`
}

// engineName is sections, shell, or empty where it was left out.
type engineName string

// UnmarshalText takes the names alone.
func (n *engineName) UnmarshalText(text []byte) error {
	switch name := string(text); name {
	case "", valve.SectionsEngine, valve.ShellEngine:
		*n = engineName(name)
		return nil
	}
	return fmt.Errorf("%q is no engine; allowed: %s, %s; leave --engine out for the sections", text, valve.SectionsEngine, valve.ShellEngine)
}

// options chooses the engine for how a case is solved.
func (f engineFlag) options(o valve.Options) valve.Options {
	o.Engine = f.name()
	return o
}

// name is the engine that was asked for.
func (f engineFlag) name() string {
	if f.Engine == "" {
		return valve.SectionsEngine
	}
	return string(f.Engine)
}

func (f engineFlag) shell() bool { return f.Engine == valve.ShellEngine }

// shellFlags are the engine and how its leaflets are coloured, for a picture.
type shellFlags struct {
	engineFlag
	Field string `enum:"none,contact,gap,tension" default:"none" help:"What colours the leaflets of the shell (${enum})."`
}

// settle brings the program to the engine and field chosen.
func (f shellFlags) settle(s *Streams, p *program.Program) {
	d := p.Desk()
	d.V.Engine, d.V.Field = f.name(), f.Field
	d.Sync()
	d.S.Settle()
	f.warn(s, &d.S.Report)
}

// warn says on standard error when the shell was asked for and the sections' numbers stand.
func (f engineFlag) warn(s *Streams, r *valve.Report) {
	if f.shell() && r.Provenance.Engine != valve.ShellEngine && r.Engines != nil {
		fmt.Fprintln(s.Err, "annuloscope: the shell did not settle ("+r.Engines.Status+"); the numbers are those of the sections")
	}
}

// warnAny is the same for answers that each name their engine.
func (f engineFlag) warnAny(s *Streams, of ...string) {
	if f.shell() && slices.Contains(of, valve.SectionsEngine) {
		fmt.Fprintln(s.Err, "annuloscope: the shell did not settle everywhere; where it did not, the numbers are those of the sections")
	}
}

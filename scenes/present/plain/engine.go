package plain

import (
	"fmt"

	"annuloscope/sim/valve"
)

// Leaflets is the sentence that says which engine closed and opened the leaflets of a report.
func Leaflets(r *valve.Report) string {
	switch {
	case r.Provenance.Engine == valve.ShellEngine:
		return Engine(valve.ShellEngine)
	case r.Engines != nil:
		return fmt.Sprintf("%s In three dimensions they did not settle (%s).", Engine(valve.SectionsEngine), r.Engines.Status)
	}
	return Engine(valve.SectionsEngine)
}

// Engine is the same for many answers of one engine.
func Engine(name string) string {
	if name == valve.ShellEngine {
		return "Leaflets: in three dimensions (engine shell)."
	}
	return "Leaflets: as sections (engine sections)."
}

// Engines is the same for answers of which each names its engine: where the shell was asked for, some may be the sections'.
func Engines(asked string, of ...string) string {
	shell := 0
	for _, name := range of {
		if name == valve.ShellEngine {
			shell++
		}
	}
	if asked != valve.ShellEngine || shell == len(of) {
		return Engine(asked)
	}
	return fmt.Sprintf("%s In %d of %d they did not settle: the sections' numbers stand there.", Engine(asked), len(of)-shell, len(of))
}

package main_test

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"testing"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/scenestest"
)

// bench --window moves the slider at three sizes with the engine chosen in the window, names the engine, and times each
// stage; the leaflets in three dimensions come last, and only where they were asked for.
func TestBenchInWindow(t *testing.T) {
	display := scenestest.StartXvfb(t, 1920, 1200)
	program := scenestest.Build(t, "annuloscope/cmd/annuloscope")
	t.Setenv("HOME", t.TempDir())
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	const moves = 2
	for _, engine := range []string{"sections", "shell"} {
		cmd := exec.Command(program, "bench", "--window", "--json", "--moves", "2", "--engine", engine)
		cmd.Env = display.Env()
		var errs bytes.Buffer
		cmd.Stderr = &errs
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("%s: %v: %s", engine, err, errs.String())
		}
		var run struct {
			Engine string
			Sizes  []struct {
				First    pace.Summary  `json:"first_picture"`
				Geometry pace.Summary  `json:"geometry_in_picture"`
				Numbers  pace.Summary  `json:"circulation_in_picture"`
				Causes   pace.Summary  `json:"causes_in_picture"`
				Shell    *pace.Summary `json:"three_dimensions_in_picture"`
			}
		}
		if err := json.Unmarshal(out, &run); err != nil {
			t.Fatalf("%s: %v in %s", engine, err, out)
		}
		if run.Engine != engine || len(run.Sizes) != 3 {
			t.Errorf("%s: engine %q at %d sizes", engine, run.Engine, len(run.Sizes))
		}
		for _, s := range run.Sizes {
			if s.First.Count != moves || s.Geometry.Count != moves || s.Causes.Count != moves {
				t.Errorf("%s: first %d, geometry %d, causes %d of %d moves", engine, s.First.Count, s.Geometry.Count, s.Causes.Count, moves)
			}
			if !(s.First.P50 > 0) || s.Geometry.P50 < s.First.P50 || s.Numbers.P50 < s.Geometry.P50 || s.Causes.P50 < s.Numbers.P50 {
				t.Errorf("%s: not in order: %+v", engine, s)
			}
			if (engine == "shell") != (s.Shell != nil) || s.Shell != nil && (s.Shell.Count != moves || s.Shell.P50 < s.Causes.P50) {
				t.Errorf("%s: three dimensions: %+v", engine, s.Shell)
			}
		}
	}
}

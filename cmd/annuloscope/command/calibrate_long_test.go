//go:build long

package command_test

import (
	"encoding/json"
	"testing"

	"annuloscope/cmd/annuloscope/command"
)

// The fit tells its four singular values, the sensitivity both of its tables.
func TestCalibrateTables(t *testing.T) {
	var fit struct{ Fit struct{ Singular []float64 } }
	code, out, errs := run("calibrate", "fit", "--json")
	if err := json.Unmarshal([]byte(out), &fit); code != command.Done || err != nil || len(fit.Fit.Singular) != 4 {
		t.Errorf("exit %d, %v, %d singular values, %s", code, err, len(fit.Fit.Singular), errs)
	}
	var tables struct {
		Ring, Valve []struct{ Status any }
	}
	code, out, errs = run("calibrate", "sensitivity", "--json")
	if err := json.Unmarshal([]byte(out), &tables); code != command.Done || err != nil || len(tables.Ring) < 15 || len(tables.Valve) < 12 {
		t.Errorf("exit %d, %v, %d and %d rows, %s", code, err, len(tables.Ring), len(tables.Valve), errs)
	}
}

package command_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// The whole of verify from the command line. Under the race detector it takes a minute: .ci/run runs it without.
func TestVerify(t *testing.T) {
	if code, out, _ := run("verify", "--json", "--markdown"); code != 2 || out != "" {
		t.Errorf("both forms: code %d, %.100q", code, out)
	}
	if raceDetector {
		return
	}
	code, out, errs := run("verify", "--json")
	var v struct {
		Notice string
		Failed int
		Rows   []map[string]any
	}
	if err := json.Unmarshal([]byte(out), &v); err != nil || len(v.Rows) < 60 || !strings.Contains(v.Notice, "Educational only") {
		t.Fatalf("%v, %d rows, notice %q", err, len(v.Rows), v.Notice)
	}
	failed := 0
	for _, r := range v.Rows {
		if r["verdict"] == "FAIL" {
			failed++
		}
	}
	if failed != v.Failed || (code == 1) != (failed > 0) || (code == 1) != strings.Contains(errs, fmt.Sprint(failed, " exact rows failed")) {
		t.Errorf("code %d with %d failed rows (%d said): %s", code, failed, v.Failed, errs)
	}
}

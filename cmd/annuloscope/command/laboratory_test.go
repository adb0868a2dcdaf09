package command_test

import (
	"encoding/json"
	"strings"
	"testing"

	"annuloscope/cmd/annuloscope/command"
)

// The laboratory's readings stand beside what is true, in words and as JSON.
func TestLaboratory(t *testing.T) {
	code, out, errs := run("laboratory", "functional")
	if code != command.Done {
		t.Fatalf("code %d: %s", code, errs)
	}
	for _, want := range []string{"reads", "true", "error", "Gorlin", "half-time", "Continuity", "Volumetric", "Flow convergence", "Educational only"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	code, out, _ = run("laboratory", "flail-p2", "--repair", "edge-clip", "--json")
	var got struct {
		Notice        string
		Before, After struct {
			Readings []struct {
				Code        string
				Value, True float64
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &got); code != command.Done || err != nil || got.Notice == "" {
		t.Fatalf("code %d, %v, notice %q", code, err, got.Notice)
	}
	if b, a := len(got.Before.Readings), len(got.After.Readings); b < 9 || a < 4 || a >= b {
		t.Errorf("%d readings before, %d after a clip that takes the leak", b, a)
	}
}

// A circulation without a steady beat: the numbers come with the status, and the exit code is 4.
func TestNoSteadyBeatIsExitCodeFour(t *testing.T) {
	code, out, errs := run("solve", "functional", "--set", "annulus.dilation_mm=10", "--set", "papillary.posteromedial.apical_mm=12",
		"--set", "papillary.anterolateral.apical_mm=12")
	if code != command.NotConverged || !strings.Contains(errs, "no steady beat") || !strings.Contains(out, "Do not use the numbers") {
		t.Errorf("code %d, %q, %s", code, errs, out)
	}
}

// Solve says the schemes, the historical rules and what the repairs close off.
func TestSolveSaysRulesAndLater(t *testing.T) {
	code, out, errs := run("solve", "functional", "--repair", "edge-clip", "--repair", "full-ring")
	if code != command.Done {
		t.Fatalf("code %d: %s", code, errs)
	}
	for _, want := range []string{"secondary, American", "secondary, European 2021, severe or not (from memory)", "Historical selection rules, often exceeded in practice",
		"published flags", "close off later", "Edge clip:", "Full ring:", "Graded is the mid-systolic orifice", "Bond: annulus left too wide"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

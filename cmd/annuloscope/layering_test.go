package main_test

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// layers lists the folders from the bottom up; a package may import only its own folder and those before it.
var layers = []string{"geometry", "sim", "scenes/present", "scenes", "cmd"}

func layer(path string) int {
	found := -1
	for i, l := range layers {
		p := "annuloscope/" + l
		if path == p || strings.HasPrefix(path, p+"/") {
			if found < 0 || len(l) > len(layers[found]) {
				found = i
			}
		}
	}
	return found
}

// Dependencies point downwards only, assets is a leaf, and geometry, sim and scenes/present reach neither Ebitengine,
// nor files, nor the network (DEVELOPERS.md, "The shape of the program"). sim/ccxtest is for tests.
func TestDependenciesPointDownwards(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "annuloscope/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		fields := strings.Fields(line)
		pkg, imports := fields[0], fields[1:]
		from := layer(pkg)
		if strings.HasPrefix(pkg, "annuloscope/assets") {
			for _, i := range imports {
				if strings.HasPrefix(i, "annuloscope/") && !strings.HasPrefix(i, "annuloscope/assets") {
					t.Errorf("%s imports %s: assets is a leaf", pkg, i)
				}
			}
			continue
		}
		if from < 0 {
			t.Errorf("%s lies in no known folder", pkg)
			continue
		}
		checked++
		for _, i := range imports {
			if to := layer(i); to > from {
				t.Errorf("%s imports %s, which lies above it", pkg, i)
			}
			if from <= 1 && pkg != "annuloscope/sim/ccxtest" && slices.Contains([]string{"os", "net", "net/http", "math/rand", "embed", "annuloscope/assets"}, i) {
				t.Errorf("%s imports %s: geometry and sim know no files, network or global random source", pkg, i)
			}
		}
	}
	if checked < 20 {
		t.Errorf("only %d packages were checked", checked)
	}
	deps, err := exec.Command("go", "list", "-deps", "annuloscope/geometry/...", "annuloscope/sim/...", "annuloscope/scenes/present/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(deps), "hajimehoshi/ebiten") {
		t.Error("geometry, sim or scenes/present reaches Ebitengine")
	}
}

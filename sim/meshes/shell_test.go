package meshes_test

import (
	"math"
	"strings"
	"testing"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/meshes"
	"annuloscope/sim/valve"
)

// The shell's leaflets are sound in both phases, lie on the annulus, and carry its fields.
func TestShellParts(t *testing.T) {
	r, err := valve.Solve(casefile.Case{Patient: anatomy.Normal()}, valve.Options{Engine: valve.ShellEngine, Coarse: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, diastole := range []bool{false, true} {
		found := 0
		for _, p := range meshes.Parts(&r.Scene.After, &r.Scene.Before, meshes.Options{Diastole: diastole}) {
			if !strings.HasSuffix(p.Name, "-shell") {
				continue
			}
			found++
			if err := p.Mesh.Check(); err != nil {
				t.Errorf("%s: %v", p.Name, err)
			}
			if top := p.Mesh.Topology(); top.NonManifoldEdges != 0 || len(p.Mesh.Fields) != 5 {
				t.Errorf("%s: %+v, %d fields", p.Name, top, len(p.Mesh.Fields))
			}
			for _, f := range p.Mesh.Fields {
				for _, v := range f.Values {
					if math.IsNaN(v) || math.IsInf(v, 0) {
						t.Fatalf("%s, field %s: %g", p.Name, f.Name, v)
					}
				}
			}
		}
		if found != 2 {
			t.Errorf("diastole %v: %d leaflets of the shell, want 2", diastole, found)
		}
	}
}

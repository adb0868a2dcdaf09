//go:build long

package leaflet

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Runs CalculiX on the skirt and compares with the stored displacements, which it writes when there are none.
func TestSkirtStoredResult(t *testing.T) {
	ccx, err := exec.LookPath("ccx")
	if err != nil {
		t.Skip("ccx is not installed")
	}
	_, s := skirt()
	var b bytes.Buffer
	fmt.Fprintln(&b, "*NODE,NSET=ALL")
	for i, p := range s.rest {
		fmt.Fprintf(&b, "%d,%.9f,%.9f,%.9f\n", i+1, p.X, p.Y, p.Z)
	}
	next := len(s.rest) + 1
	mid := map[[2]int32]int{}
	var held []int
	for i := range s.fixed {
		held = append(held, i+1)
	}
	between := func(p, q int32) int {
		key := [2]int32{min(p, q), max(p, q)}
		if n, ok := mid[key]; ok {
			return n
		}
		m := r3.Scale(0.5, r3.Add(s.rest[p], s.rest[q]))
		fmt.Fprintf(&b, "%d,%.9f,%.9f,%.9f\n", next, m.X, m.Y, m.Z)
		mid[key] = next
		if int(p) < s.fixed && int(q) < s.fixed {
			held = append(held, next)
		}
		next++
		return next - 1
	}
	var elements strings.Builder
	for i, v := range s.tris {
		fmt.Fprintf(&elements, "%d,%d,%d,%d,%d,%d,%d\n", i+1, v[0]+1, v[1]+1, v[2]+1, between(v[0], v[1]), between(v[1], v[2]), between(v[2], v[0]))
	}
	fmt.Fprintf(&b, "*ELEMENT,TYPE=S6,ELSET=SKIRT\n%s*BOUNDARY\n", elements.String())
	for _, n := range held {
		fmt.Fprintf(&b, "%d,1,3\n", n)
	}
	fmt.Fprintf(&b, "*MATERIAL,NAME=M\n*ELASTIC\n0.6666667,0.3333333\n*SHELL SECTION,ELSET=SKIRT,MATERIAL=M\n1.0\n")
	// Here a positive pressure acts along the element normal (seen in the run: it closed the skirt, which has no
	// equilibrium without contact); the normals point into the lumen, so opening is negative.
	fmt.Fprintf(&b, "*STEP,NLGEOM,INC=1000\n*STATIC\n0.02,1.,1e-6,0.05\n*DLOAD\nSKIRT,P,%g\n*NODE PRINT,NSET=ALL,FREQUENCY=10000\nU\n*END STEP\n", -skirtPressure)
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "skirt.inp"), b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	run := exec.Command(ccx, "skirt")
	run.Dir = dir
	if out, err := run.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out[max(0, len(out)-1500):])
	}
	data, err := os.ReadFile(filepath.Join(dir, "skirt.dat"))
	if err != nil {
		t.Fatal(err)
	}
	got := make([]r3.Vec, len(s.rest))
	seen := 0
	for in := bufio.NewScanner(bytes.NewReader(data)); in.Scan(); {
		var n int
		var u r3.Vec
		if k, _ := fmt.Sscan(in.Text(), &n, &u.X, &u.Y, &u.Z); k == 4 && n >= 1 && n <= len(got) {
			got[n-1] = u
			seen++
		}
	}
	if seen < len(got) {
		t.Fatalf("CalculiX gave %d displacements for %d vertices:\n%s", seen, len(got), data[:min(len(data), 500)])
	}
	stored, err := os.ReadFile(skirtFile)
	if err != nil {
		var out bytes.Buffer
		for _, u := range got {
			fmt.Fprintf(&out, "%.6f %.6f %.6f\n", u.X, u.Y, u.Z)
		}
		if err := os.WriteFile(skirtFile, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for i, line := range strings.Split(strings.TrimSpace(string(stored)), "\n") {
		var u r3.Vec
		fmt.Sscan(line, &u.X, &u.Y, &u.Z)
		if r3.Norm(r3.Sub(u, got[i])) > 0.02 {
			t.Fatalf("vertex %d: stored %v, CalculiX now %v", i, u, got[i])
		}
	}
}

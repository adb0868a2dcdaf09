// Package ccxtest runs CalculiX for tests and keeps its answers beside them. Only tests import it.
package ccxtest

import (
	"bufio"
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Update tells whether stored answers are to be written anew.
var Update = flag.Bool("update", false, "write the stored answers of CalculiX anew, with ccx installed")

// same is the share by which an answer of today may differ from the stored one: another compiler, another solver.
const same = 1e-4

// Model is one calculation whose answer is kept.
type Model struct {
	File string // with the answer: x, y, z displacement of each node in mm, a line each
	Slow bool   // run again with -tags long only (Again) or -update
	// Deck writes the input file, which must print U of every node named, and names the nodes whose displacement is kept.
	Deck func(b *bytes.Buffer) (nodes []int)
}

// Print is the end of every deck: the displacements of a set at the end of the step.
const Print = "*NODE PRINT,NSET=ALL,FREQUENCY=100000\nU\n*END STEP\n"

// Displacements returns the stored answer. Where ccx is installed it is computed again and the test fails when it has
// changed; with -update it is written anew. again says whether slow ones are computed as well.
func (m Model) Displacements(t *testing.T, again bool) []r3.Vec {
	t.Helper()
	stored := read(m.File)
	ccx, err := exec.LookPath("ccx")
	switch {
	case err != nil:
		t.Log("ccx is not installed (Debian package calculix-ccx): the stored answer is used as it is")
		return stored
	case m.Slow && !again && !*Update:
		t.Log("the stored answer is used; -tags long runs CalculiX again")
		return stored
	}
	now := m.run(t, ccx)
	if *Update {
		var out bytes.Buffer
		fmt.Fprintf(&out, "# displacements by CalculiX, mm; made by go test -run '^%s$' -update\n", t.Name())
		for _, u := range now {
			fmt.Fprintf(&out, "%.7g %.7g %.7g\n", u.X, u.Y, u.Z)
		}
		if err := os.WriteFile(m.File, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return now
	}
	if len(now) != len(stored) || Apart(now, stored) > same {
		t.Fatalf("CalculiX today gives something else than %s", m.File)
	}
	return stored
}

// Apart is the root mean square of the difference over that of b.
func Apart(a, b []r3.Vec) float64 {
	d, s := 0.0, 0.0
	for i := range a {
		d += r3.Norm2(r3.Sub(a[i], b[i]))
		s += r3.Norm2(b[i])
	}
	return math.Sqrt(d / s)
}

func read(file string) (out []r3.Vec) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil
	}
	for s := bufio.NewScanner(bytes.NewReader(data)); s.Scan(); {
		var u r3.Vec
		if k, _ := fmt.Sscan(s.Text(), &u.X, &u.Y, &u.Z); k == 3 {
			out = append(out, u)
		}
	}
	return out
}

// run computes the model in a folder of its own.
func (m Model) run(t *testing.T, ccx string) []r3.Vec {
	t.Helper()
	var b bytes.Buffer
	nodes := m.Deck(&b)
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "model.inp"), b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(ccx, "model")
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "OMP_NUM_THREADS=1")
	said, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, said[max(0, len(said)-1500):])
	}
	data, err := os.ReadFile(filepath.Join(dir, "model.dat"))
	if err != nil {
		t.Fatal(err)
	}
	byNode := map[int]r3.Vec{}
	for s := bufio.NewScanner(bytes.NewReader(data)); s.Scan(); {
		var n int
		var u r3.Vec
		if k, _ := fmt.Sscan(s.Text(), &n, &u.X, &u.Y, &u.Z); k == 4 {
			byNode[n] = u
		}
	}
	out := make([]r3.Vec, len(nodes))
	for i, n := range nodes {
		u, ok := byNode[n]
		if !ok {
			t.Fatalf("CalculiX gave no displacement of node %d:\n%s", n, said[max(0, len(said)-1500):])
		}
		out[i] = u
	}
	return out
}

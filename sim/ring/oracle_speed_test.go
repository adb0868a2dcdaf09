//go:build long

package ring

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"annuloscope/sim/ccxtest"
	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/mat"
)

// equalError is how near to the exact equilibrium both sides must come, mm: the package's own residual tolerance gives
// better than that (oracle_test.go).
const equalError = 1e-5

func median(v []float64) float64 {
	slices.Sort(v)
	return v[len(v)/2]
}

// seconds is the median time of one call of f, over a tenth of a second.
func seconds(f func()) float64 {
	var all []float64
	for begin := time.Now(); time.Since(begin) < 100*time.Millisecond || len(all) < 5; {
		at := time.Now()
		f()
		all = append(all, time.Since(at).Seconds())
	}
	return median(all)
}

// warn compares ratios with the stored ones and says so when one has become half as large again; it never fails.
func warn(t *testing.T, file string, now map[string]float64) {
	t.Helper()
	was := map[string]float64{}
	if data, err := os.ReadFile(file); err == nil {
		if err := json.Unmarshal(data, &was); err != nil {
			t.Fatal(err)
		}
	}
	for name, r := range now {
		t.Logf("%s: ours takes %.4g of the other's time", name, r)
		if w, ok := was[name]; ok && r > 1.5*w {
			t.Logf("WARNING: %s: %.4g, stored %.4g: slower by more than half", name, r, w)
		}
	}
	if *ccxtest.Update || len(was) == 0 {
		data, err := json.MarshalIndent(now, "", " ")
		if err == nil {
			err = os.WriteFile(file, append(data, '\n'), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// Against general tools in one run: the ring's equilibrium against the quickest of scipy's minimisers that comes as near,
// and one step's factorisation against gonum's dense Cholesky. Interleaved rounds, medians; nothing timed fails.
func TestSpeedAgainstGeneralTools(t *testing.T) {
	const python, rounds = "/usr/bin/python3", 3
	if exec.Command(python, "-c", "import scipy").Run() != nil {
		t.Skip("skipped: no scipy (Debian package python3-scipy)")
	}
	job := map[string]any{"error": equalError}
	var list []map[string]any
	for name, in := range oracleCases() {
		list = append(list, oracleJSON(name, in))
	}
	job["cases"] = list
	data, err := json.Marshal(job)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "job.json")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	mine, theirs := map[string][]float64{}, map[string][]float64{}
	for range rounds {
		for name, in := range oracleCases() {
			mine[name] = append(mine[name], seconds(func() { Solve(in) }))
		}
		cmd := exec.Command(python, filepath.Join("testdata", "speed.py"), file)
		cmd.Env, cmd.Stderr = append(os.Environ(), "OMP_NUM_THREADS=1", "OPENBLAS_NUM_THREADS=1"), os.Stderr
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		var answers []struct {
			Name, Method   string
			Seconds, Error float64
		}
		if err := json.Unmarshal(out, &answers); err != nil {
			t.Fatal(err)
		}
		for _, a := range answers {
			t.Logf("%s: %s, %.3f s, error %.1g mm", a.Name, a.Method, a.Seconds, a.Error)
			theirs[a.Name] = append(theirs[a.Name], a.Seconds)
		}
	}
	ratios := map[string]float64{}
	for name, v := range theirs {
		m := median(mine[name])
		t.Logf("%s: ours %.3f ms", name, 1e3*m)
		ratios["equilibrium, "+name+", against scipy"] = m / median(v)
	}

	small := oracleCases()["band"]
	full := banded(inputFrom(specimen.Functional()), 15)
	for name, in := range map[string]*Input{"small ring": small, "whole ring": full} {
		var s Solver
		var r Result
		s.Solve(in, &r)
		n := s.tangent.size
		dense := mat.NewSymDense(n, nil)
		for i := range n {
			for j := max(0, i-s.tangent.width); j <= i; j++ {
				dense.SetSym(i, j, s.tangent.data[i*(s.tangent.width+1)+s.tangent.width+j-i])
			}
		}
		var banded, general []float64
		for range rounds {
			banded = append(banded, seconds(func() { s.chol.factor(&s.tangent) }))
			general = append(general, seconds(func() { new(mat.Cholesky).Factorize(dense) }))
		}
		ratios["factorisation, "+name+", against gonum dense Cholesky"] = median(banded) / median(general)
	}
	warn(t, filepath.Join("testdata", "speed.json"), ratios)
}

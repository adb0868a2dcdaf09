package ring

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/spatial/r3"
)

// oracleAnswer is what testdata/oracle.py writes for one case.
type oracleAnswer struct {
	Name     string
	Energy   float64
	Residual float64
	Points   [][3]float64
}

// oracleCases are small models, between them using every term of the energy but the full ring.
func oracleCases() map[string]*Input {
	small := func() *Input {
		sp := specimen.Functional()
		sp.Points, sp.VeinPoints = 24, 16
		return inputFrom(sp)
	}
	band := banded(small(), 15)
	band.Band.SlackMM = 2
	held := banded(small(), 0)
	held.Band.TensionN = 1.5
	held.Loads = []Load{{Point: 18, Force: r3.Vec{X: 0.05, Y: 0.3, Z: 0.1}}}
	tie := small()
	tie.Ties = []Tie{{A: 6, B: 18, ShorteningMM: 5}}
	rods := small()
	rods.Rods = &Rods{ProximalMM: 10, DistalMM: 75, Count: 2, BendingNMM2: 400}
	return map[string]*Input{"band": band, "held band with load": held, "tie": tie, "rods": rods}
}

// oracleJSON writes an input in the plain terms oracle.py reads.
func oracleJSON(name string, in *Input) map[string]any {
	list := func(p []r3.Vec) [][3]float64 {
		out := [][3]float64{}
		for _, v := range p {
			out = append(out, [3]float64{v.X, v.Y, v.Z})
		}
		return out
	}
	m := map[string]any{"name": name, "constants": in.Constants, "annulus": list(in.Annulus.Rest), "fibrous": in.Annulus.Fibrous,
		"vein": list(in.Vein.Rest), "station": in.Vein.Station, "on_atrium": in.Vein.OnAtrium, "partner": in.Vein.Partner,
		"band": nil, "rods": nil, "ties": []any{}, "loads": []any{}}
	if b := in.Band; b != nil {
		m["band"] = map[string]any{"proximal": b.ProximalMM, "distal": b.DistalMM, "shortening": b.ShorteningMM, "slack": b.SlackMM, "tension": b.TensionN}
	}
	if r := in.Rods; r != nil {
		m["rods"] = map[string]any{"proximal": r.ProximalMM, "distal": r.DistalMM, "stiffness": float64(r.Count) * r.BendingNMM2}
	}
	for _, t := range in.Ties {
		m["ties"] = []any{map[string]any{"a": t.A, "b": t.B, "shortening": t.ShorteningMM}}
	}
	for _, l := range in.Loads {
		m["loads"] = []any{map[string]any{"point": l.Point, "force": [3]float64{l.Force.X, l.Force.Y, l.Force.Z}}}
	}
	return m
}

// compare checks our equilibria against an oracle's: points within 1e-5 mm, energy within 1e-8.
func compare(t *testing.T, source string, answers []oracleAnswer, want int) {
	t.Helper()
	cases := oracleCases()
	if len(answers) != want {
		t.Fatalf("%s: %d answers for %d cases", source, len(answers), want)
	}
	for _, a := range answers {
		r := solved(t, cases[a.Name])
		worst := 0.0
		for i, p := range append(append([]r3.Vec(nil), r.Annulus...), r.Vein...) {
			q := a.Points[i]
			worst = math.Max(worst, r3.Norm(r3.Sub(p, r3.Vec{X: q[0], Y: q[1], Z: q[2]})))
		}
		t.Logf("%s, %s: points differ by %.2g mm, energy by %.2g of %.4g N·mm, its residual %.2g N", source, a.Name, worst, r.EnergyNMM-a.Energy, a.Energy, a.Residual)
		if worst > 1e-5 || math.Abs(r.EnergyNMM-a.Energy) > 1e-8*(1+math.Abs(a.Energy)) {
			t.Errorf("%s, %s: differs", source, a.Name)
		}
	}
}

// runOracle runs the script on the cases with the system's Python.
func runOracle(t *testing.T, names []string) (out []byte, seconds float64) {
	t.Helper()
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import scipy, numpy").Run(); err != nil {
		t.Skipf("%s with numpy and scipy not found: %v", python, err)
	}
	var cases []map[string]any
	for _, name := range names {
		cases = append(cases, oracleJSON(name, oracleCases()[name]))
	}
	data, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "cases.json")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	cmd := exec.Command(python, filepath.Join("testdata", "oracle.py"), file)
	cmd.Stderr = os.Stderr
	if out, err = cmd.Output(); err != nil {
		t.Fatal(err)
	}
	return out, time.Since(start).Seconds()
}

// The stored answers of the independent minimiser. They hold for the constants in them; rerun with
// RING_ORACLE_WRITE=1 go test -run TestOracleRerun ./sim/ring after changing constants.
func TestOracleStored(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("testdata", "oracle.json"))
	if err != nil {
		t.Fatal(err)
	}
	var answers []oracleAnswer
	if err := json.Unmarshal(data, &answers); err != nil {
		t.Fatal(err)
	}
	compare(t, "stored scipy", answers, len(oracleCases()))
}

// The same, minimised again now by scipy: one case ordinarily (about 1 s), all when the stored file is to be written.
func TestOracleRerun(t *testing.T) {
	names := []string{"band"}
	if os.Getenv("RING_ORACLE_WRITE") != "" {
		names = []string{"band", "held band with load", "tie", "rods"}
	}
	out, seconds := runOracle(t, names)
	var answers []oracleAnswer
	if err := json.Unmarshal(out, &answers); err != nil {
		t.Fatal(err)
	}
	t.Logf("scipy took %.2f s for %d cases", seconds, len(answers))
	compare(t, "scipy", answers, len(names))
	if os.Getenv("RING_ORACLE_WRITE") != "" {
		if err := os.WriteFile(filepath.Join("testdata", "oracle.json"), out, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

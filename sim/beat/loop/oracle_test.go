package loop

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// oracle is what testdata/oracle.py says of the last beat of one case: mL, mmHg; samples at i/8 of the beat.
type oracle struct {
	EDV        float64   `json:"edv"`
	ESV        float64   `json:"esv"`
	LVMax      float64   `json:"lv_max"`
	ArteryMean float64   `json:"artery_mean"`
	LeakML     float64   `json:"leak_ml"`
	LVVolume   []float64 `json:"lv_volume"`
	LVPressure []float64 `json:"lv_pressure"`
}

func (o oracle) values() []float64 {
	return append(append([]float64{o.EDV, o.ESV, o.LVMax, o.ArteryMean, o.LeakML}, o.LVVolume...), o.LVPressure...)
}

func stored(t *testing.T) map[string]oracle {
	t.Helper()
	data, err := os.ReadFile("testdata/oracle.json")
	if err != nil {
		t.Fatal(err)
	}
	m := map[string]oracle{}
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

func ours(s *Solver, artery, leak int) oracle {
	var o oracle
	o.ESV, o.EDV, _ = span(s.V[0])
	_, o.LVMax, _ = span(s.P[0])
	_, _, o.ArteryMean = span(s.P[artery])
	o.LeakML = s.Backward[leak]
	for i := range 8 {
		at := i * s.Ring.Steps / 8
		o.LVVolume, o.LVPressure = append(o.LVVolume, s.V[0][at]), append(o.LVPressure, s.P[0][at])
	}
	return o
}

// Both published loops against scipy's solve_ivp (LSODA, relative tolerance 1e-9; issue 7): every volume and pressure
// within 0.02 mL or mmHg at 3200 steps.
func TestAgainstScipy(t *testing.T) {
	want := stored(t)
	if len(want) != 5 {
		t.Fatalf("%d stored cases, want 5", len(want))
	}
	const n = 3200
	for name, w := range want {
		var o oracle
		switch name {
		case "three":
			o = ours(periodic(t, Three(n, 0), StartThree), 1, 2)
		case "three_leak10":
			o = ours(periodic(t, Three(n, 10), StartThree), 1, 2)
		case "four":
			o = ours(periodic(t, Four(n, 400, 0), StartFour), FourArtery, FourLA)
		case "four_leak20":
			o = ours(periodic(t, Four(n, 400, 20), StartFour), FourArtery, FourLA)
		case "four_both":
			o = ours(periodic(t, Four(n, 100, 5), StartFour), FourArtery, FourLA)
		default:
			t.Fatalf("unknown case %q", name)
		}
		a, b := o.values(), w.values()
		if len(a) != len(b) {
			t.Fatalf("%s: %d values, want %d", name, len(a), len(b))
		}
		worst := 0.0
		for i := range a {
			worst = max(worst, math.Abs(a[i]-b[i]))
		}
		t.Logf("%s: largest departure %.2g (mL, mmHg)", name, worst)
		if !(worst < 0.02) {
			t.Errorf("%s departs from scipy by %g: ours %.4f, scipy %.4f", name, worst, a, b)
		}
	}
}

// rerunOracle runs the script for the named cases (all when none) and compares with the stored file.
func rerunOracle(t *testing.T, names ...string) {
	t.Helper()
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import scipy").Run(); err != nil {
		t.Skipf("the scipy oracle was not rerun: %s has no scipy (%v)", python, err)
	}
	var out, notes bytes.Buffer
	c := exec.Command(python, append([]string{"testdata/oracle.py"}, names...)...)
	c.Stdout, c.Stderr = &out, &notes
	if err := c.Run(); err != nil {
		t.Fatalf("%v: %s", err, notes.String())
	}
	got := map[string]oracle{}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	want := stored(t)
	if len(names) > 0 && len(got) != len(names) || len(names) == 0 && len(got) != len(want) {
		t.Fatalf("the script answered %d cases", len(got))
	}
	for name, g := range got {
		a, b := g.values(), want[name].values()
		if len(a) != len(b) {
			t.Fatalf("%s: %d values, stored %d", name, len(a), len(b))
		}
		for i := range a {
			if math.Abs(a[i]-b[i]) > 1e-4*(1+math.Abs(b[i])) {
				t.Errorf("%s: value %d is %.8g, stored %.8g", name, i, a[i], b[i])
			}
		}
	}
	s := New(Four(400, 400, 0))
	StartFour(s)
	start := time.Now()
	for range 20 {
		s.Beat(false)
		s.Advance()
	}
	t.Logf("scipy %s; here four %.6f at 400 steps", strings.TrimSpace(notes.String()), time.Since(start).Seconds()/20)
}

func TestScipyRerun(t *testing.T) { rerunOracle(t, "three", "three_leak10") }

//go:build long

package loop

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"testing"
	"time"
)

const speedFile = "testdata/speed.json"

// Against scipy's integrators in one run at equal error: our beat at 400 steps (the program's own number), and the
// quickest of scipy's methods and tolerances that departs from the exact beat no more. Interleaved rounds, medians.
// A ratio half as large again as the stored one is warned of; nothing timed fails. WRITE=1 stores the ratios anew.
func TestSpeedAgainstScipy(t *testing.T) {
	const python, rounds, steps = "/usr/bin/python3", 3, 400
	if exec.Command(python, "-c", "import scipy").Run() != nil {
		t.Skip("skipped: no scipy (Debian package python3-scipy)")
	}
	want := stored(t)
	was, ratios := map[string]float64{}, map[string]float64{}
	if data, err := os.ReadFile(speedFile); err == nil {
		if err := json.Unmarshal(data, &was); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"three_leak10", "four"} {
		var s *Solver
		var o oracle
		if name == "four" {
			s = periodic(t, Four(steps, 400, 0), StartFour)
			o = ours(s, FourArtery, FourLA)
		} else {
			s = periodic(t, Three(steps, 10), StartThree)
			o = ours(s, 1, 2)
		}
		departure := 0.0
		for i, v := range o.values() {
			departure = max(departure, math.Abs(v-want[name].values()[i]))
		}
		var mine, theirs []float64
		for range rounds {
			begin := time.Now()
			for range 50 {
				s.Beat(false)
				s.Advance()
			}
			mine = append(mine, time.Since(begin).Seconds()/50)
			out, err := exec.Command(python, "testdata/speed.py", name, strconv.FormatFloat(departure, 'g', -1, 64)).Output()
			if err != nil {
				t.Fatal(err)
			}
			var a *struct {
				Method                   string
				Rtol, Seconds, Departure float64
			}
			if err := json.Unmarshal(out, &a); err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			if a == nil {
				t.Fatalf("%s: no method of scipy departs by less than %g", name, departure)
			}
			t.Logf("%s: ours %.3f ms a beat, departs by %.2g; scipy %s at %g: %.1f ms, departs by %.2g", name, 1e3*mine[len(mine)-1], departure, a.Method, a.Rtol, 1e3*a.Seconds, a.Departure)
			theirs = append(theirs, a.Seconds)
		}
		slices.Sort(mine)
		slices.Sort(theirs)
		ratios[name] = mine[rounds/2] / theirs[rounds/2]
		t.Logf("%s: ours takes %.4g of scipy's time", name, ratios[name])
		if w, ok := was[name]; ok && ratios[name] > 1.5*w {
			t.Logf("WARNING: %s: %.4g, stored %.4g: slower by more than half", name, ratios[name], w)
		}
	}
	if os.Getenv("WRITE") != "" || len(was) == 0 {
		data, err := json.MarshalIndent(ratios, "", " ")
		if err == nil {
			err = os.WriteFile(speedFile, append(data, '\n'), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

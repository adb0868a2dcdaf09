package valve_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// state is everything that is computed of the valve after its repairs, as bytes: equal bytes are equal to the last bit.
func state(t *testing.T, s *valve.Solver, c casefile.Case, o valve.Options) string {
	t.Helper()
	r, err := s.Solve(c, o)
	if err != nil {
		t.Fatalf("%v: %v", c.Repairs, err)
	}
	st := r.After
	st.Clips = nil // a clip that does nothing is still listed
	data, err := json.Marshal(st)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// mild are the repairs with numbers that leave every patient a solution, and none that does nothing.
func mild() []repair.Step {
	return []repair.Step{
		repair.Must(repair.SinusBand).With("shortening_mm", 12), repair.Must(repair.SinusRods).With("count", 1),
		repair.Must(repair.EdgeClip).With("position", 0.3), repair.Must(repair.EdgeStitch).With("position", -0.4),
		repair.Must(repair.PosteriorBand).With("downsizing_pct", 8), repair.Must(repair.Papillary).With("anterolateral_mm", 2),
		repair.Must(repair.Ventricle).With("reduction_pct", 6), repair.Must(repair.Unloading),
	}
}

// Zero strength: the numbers at which a repair does nothing give the untreated valve to the last bit, cold.
func TestRepairsOfZeroStrength(t *testing.T) {
	c := load(t, "functional")
	zero := []repair.Step{
		repair.Must(repair.SinusBand).With("shortening_mm", 0).With("radial_n_per_mm", 0),
		repair.Must(repair.EdgeClip).With("detached", 1),
		repair.Must(repair.PosteriorBand).With("downsizing_pct", 0),
		repair.Must(repair.Papillary).With("anterolateral_mm", 0).With("posteromedial_mm", 0),
		repair.Must(repair.Ventricle).With("reduction_pct", 0),
		repair.Must(repair.Unloading).With("resistance_pct", 0).With("volume_pct", 0).With("papillary_mm", 0),
	}
	want, err := valve.Solve(c, valve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, z := range zero {
		d := c.Clone()
		d.Repairs = []repair.Step{z}
		got, err := valve.Solve(d, valve.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range valve.Quantities() {
			a, b := q.Of(&got.After), q.Of(&want.After)
			if math.Float64bits(a) != math.Float64bits(b) && !math.IsNaN(b) {
				t.Errorf("%s: %s is %v, untreated %v", z.Kind, q.Path, a, b)
			}
		}
	}
}

// Undone: after any repair, the untreated valve and every earlier combination come back to the last bit, cold.
func TestUndoneRepairsReturnExactly(t *testing.T) {
	c := load(t, "functional")
	s := valve.NewSolver()
	all := mild()
	var path []string
	for n := 0; n <= 3; n++ { // nothing, one, two, three repairs
		d := c.Clone()
		d.Repairs = append(d.Repairs, all[:n]...)
		path = append(path, state(t, s, d, valve.Options{}))
	}
	for _, step := range all[3:] { // and each other one on top
		d := c.Clone()
		d.Repairs = append(append(d.Repairs, all[:3]...), step)
		state(t, s, d, valve.Options{})
	}
	for n := 3; n >= 0; n-- {
		d := c.Clone()
		d.Repairs = append(d.Repairs, all[:n]...)
		if got := state(t, s, d, valve.Options{}); got != path[n] {
			t.Errorf("back at %d repairs the valve is another:\n%s\n%s", n, got, path[n])
		}
	}
}

// Commuting repairs. The model has no order of placement: all repairs of a case act at once (sim/valve/doc.go), so every
// pair commutes. To the last bit, except where both orders add to the same papillary tips or multiply the same volume
// (papillary relocation, ventricular reshaping, unloading): there to 1e-9 of the value, since sums of floats depend on
// their order.
func TestRepairsCommute(t *testing.T) {
	t.Parallel()
	c := load(t, "functional")
	adds := map[repair.Kind]bool{repair.Papillary: true, repair.Ventricle: true, repair.Unloading: true}
	all := mild()
	pairs := 0
	for i, a := range all {
		for j, b := range all[:i] {
			if raceDetector && (i+j)%4 > 0 { // some ten times slower
				continue
			}
			pairs++
			name := fmt.Sprintf("%s and %s", a.Kind, b.Kind)
			var st [2]valve.State
			for k, order := range [][]repair.Step{{a, b}, {b, a}} {
				d := c.Clone()
				d.Repairs = order
				r, err := valve.Solve(d, valve.Options{})
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				st[k] = r.After
			}
			for _, q := range valve.Quantities() {
				x, y := q.Of(&st[0]), q.Of(&st[1])
				exact := !(adds[a.Kind] && adds[b.Kind])
				if same := math.Float64bits(x) == math.Float64bits(y); !same && (exact || !(math.Abs(x-y) <= 1e-9*math.Max(1, math.Abs(x)))) && !(math.IsNaN(x) && math.IsNaN(y)) {
					t.Errorf("%s: %s is %v, the other way round %v", name, q.Path, x, y)
				}
			}
		}
	}
	t.Logf("%d pairs", pairs)
}

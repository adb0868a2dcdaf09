package valve

import (
	"math"
	"strings"
	"testing"

	"annuloscope/sim/repair"
)

// Issue 3: what does not fit is found for every kind of device, with the number, the allowed range and the consequence;
// what fits is not mentioned. Each case changes one size across its limit.
func TestDoesNotFit(t *testing.T) {
	band, rods := repair.Must(repair.SinusBand), repair.Must(repair.SinusRods)
	clip := repair.Must(repair.EdgeClip)
	s := NewSolver()
	for _, c := range []struct {
		code  string
		path  string // patient number, or empty
		value float64
		steps []repair.Step
		want  float64 // Fit.Value
	}{
		{"vein-length", "sinus.length_mm", 95, []repair.Step{band.With("distal_mm", 92)}, 95},
		{"vein-mouth", "", 0, []repair.Step{band.With("proximal_mm", 3)}, 3},
		{"anchor-wide", "sinus.diameter.mouth_mm", 18, []repair.Step{band}, math.NaN()},
		{"anchor-narrow", "sinus.diameter.distal_mm", 2, []repair.Step{band.With("distal_mm", 98)}, math.NaN()},
		{"vein-bend", "sinus.bend_deg", 80, []repair.Step{band}, 80},
		{"vein-bend", "sinus.bend_deg", 80, []repair.Step{rods}, 80},
		{"band-short", "", 0, []repair.Step{band.With("proximal_mm", 50).With("shortening_mm", 10)}, 34},
		{"band-shortening", "", 0, []repair.Step{band.With("proximal_mm", 40).With("shortening_mm", 25)}, 25},
		{"rods-wide", "sinus.diameter.distal_mm", 2, []repair.Step{rods.With("distal_mm", 98)}, math.NaN()},
		{"posterior-downsizing", "", 0, []repair.Step{repair.Must(repair.PosteriorBand).With("downsizing_pct", 38)}, 38},
		{"ring-size", "", 0, []repair.Step{repair.Must(repair.FullRing).With("size_mm", 22)}, 22},
		{"clip-not-grasped", "", 0, []repair.Step{clip.With("reach_mm", 1)}, math.NaN()},
		{"clip-poor-grip", "", 0, []repair.Step{clip.With("leaflet_held_mm", 2)}, 2},
		{"clip-room", "", 0, []repair.Step{clip, clip.With("position", 0.05)}, math.NaN()},
		{"clip-calcium", "leaflet.calcified_to", 0.4, []repair.Step{clip}, math.NaN()},
	} {
		find := func(steps []repair.Step) *Finding {
			cs := caseOf(t, "functional", steps...)
			if c.path != "" {
				if err := cs.Patient.Set(c.path, c.value); err != nil {
					t.Fatal(err)
				}
			}
			r, err := s.Solve(cs, Options{Warm: true})
			if err != nil {
				t.Fatalf("%s: %v", c.code, err)
			}
			for i := range r.Findings {
				if r.Findings[i].Code == c.code {
					return &r.Findings[i]
				}
			}
			return nil
		}
		f := find(c.steps)
		if f == nil || f.Fit == nil {
			t.Errorf("%s: not found, or without numbers: %+v", c.code, f)
			continue
		}
		q := f.Fit
		if q.Value >= q.Low && q.Value <= q.High || q.Consequence == "" || q.Unit == "" {
			t.Errorf("%s: %+v", c.code, q)
		}
		if !math.IsNaN(c.want) && math.Abs(q.Value-c.want) > 1e-9 {
			t.Errorf("%s: value %g, want %g", c.code, q.Value, c.want)
		}
		if strings.HasPrefix(f.Text, "Does not fit") && (!strings.Contains(f.Text, "allowed") || !strings.Contains(f.Text, q.Consequence)) {
			t.Errorf("%s: %s", c.code, f.Text)
		}
	}
	// Every device with its default sizes fits the patient with functional leak.
	for _, k := range []repair.Kind{repair.SinusBand, repair.SinusRods, repair.PosteriorBand, repair.FullRing, repair.EdgeStitch} {
		r, err := s.Solve(caseOf(t, "functional", repair.Must(k)), Options{Warm: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.Findings {
			if f.Fit != nil {
				t.Errorf("%s: %s", k, f.Text)
			}
		}
	}
}

// Touching circles: 1, 2 and 1 + 2/√3 = 2.1547 diameters hold one, two and three (geometry).
func TestBundle(t *testing.T) {
	for n, want := range []float64{0, 1.2, 2.4, 2.5856} {
		if got := bundleMM(n); math.Abs(got-want) > 1e-4 {
			t.Errorf("%d rods: %g mm, want %g", n, got, want)
		}
	}
}

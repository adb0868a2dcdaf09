package valve_test

import (
	"math"
	"testing"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

func with(t *testing.T, c casefile.Case, path string, v float64) casefile.Case {
	t.Helper()
	d := c.Clone()
	if err := d.Set(path, v); err != nil {
		t.Fatal(err)
	}
	return d
}

// Acute to chronic (physics.md C3, S32; H, S51): the grown heart ejects more in all and forward, and the atrial pressure and
// its v wave fall back although the leak stays.
func TestAcuteToChronicDirections(t *testing.T) {
	c := load(t, "flail-p2")
	acute := once(t, c).Before
	last := acute
	for _, share := range []float64{0.5, 1} {
		s := once(t, with(t, c, "heart.adaptation", share)).Before
		if !(s.Beat.EDVML > last.Beat.EDVML && s.Beat.ForwardSVML > last.Beat.ForwardSVML && s.Beat.LAMeanMMHg < last.Beat.LAMeanMMHg &&
			s.Beat.LAVMMHg < last.Beat.LAVMMHg) {
			t.Errorf("adapted by %g: %+v after %+v", share, s.Beat, last.Beat)
		}
		last = s
	}
	if d := last.Regurgitation.VolumeML - acute.Regurgitation.VolumeML; d < -5 || d > 15 {
		t.Errorf("leak %.0f → %.0f mL", acute.Regurgitation.VolumeML, last.Regurgitation.VolumeML)
	}
	t.Logf("EDV %.0f → %.0f, forward %.0f → %.0f mL, atrium %.0f → %.0f, v %.0f → %.0f mmHg", acute.Beat.EDVML, last.Beat.EDVML, acute.Beat.ForwardSVML,
		last.Beat.ForwardSVML, acute.Beat.LAMeanMMHg, last.Beat.LAMeanMMHg, acute.Beat.LAVMMHg, last.Beat.LAVMMHg)
}

// The gradient over a clipped valve rises with rate and with effort in both tiers; unloading turns leak into forward flow
// (from memory of textbooks; physics.md B2 gives 60 to 80 a minute for the gradient for that reason).
func TestRateEffortAndUnloading(t *testing.T) {
	c := load(t, "functional", repair.EdgeClip)
	for _, o := range []valve.Options{{}, {Circulation: true}} {
		gradient := func(path string, v float64) float64 {
			r, err := valve.Solve(with(t, c, path, v), o)
			if err != nil {
				t.Fatal(err)
			}
			return r.After.Opening.MeanGradientMMHg
		}
		rest, faster, effort := gradient("heart.exercise", 0), gradient("heart.rate_change_per_min", 30), gradient("heart.exercise", 0.5)
		if faster <= rest || effort <= rest {
			t.Errorf("circulation %v: gradient %.2f at rest, %.2f at 30 a minute more, %.2f in effort", o.Circulation, rest, faster, effort)
		}
	}
	r := once(t, load(t, "functional", repair.Unloading))
	if !(r.After.Regurgitation.VolumeML < r.Before.Regurgitation.VolumeML && r.After.Beat.ForwardSVML > r.Before.Beat.ForwardSVML &&
		r.After.Beat.LAMeanMMHg < r.Before.Beat.LAMeanMMHg) {
		t.Errorf("unloading: %+v → %+v", r.Before.Beat, r.After.Beat)
	}
}

// The gradient hangs on the flow and on the sum of the effective areas, not on how the bonds split it (physics.md A1, A2):
// gradient × area² ÷ flow² is one number for every split.
func TestGradientDoesNotDependOnTheSplit(t *testing.T) {
	c := load(t, "functional", repair.EdgeClip)
	one, splits := 0.0, 0
	s := valve.NewSolver()
	for _, at := range [][]float64{{0}, {0.2}, {0.5}, {-0.7}, {-0.2, 0.2}, {-0.5, 0.6}, {-0.5, 0, 0.5}} {
		c.Repairs = nil
		for _, p := range at {
			c.Repairs = append(c.Repairs, repair.Must(repair.EdgeClip).With("position", p))
		}
		r, err := s.Solve(c, valve.Options{})
		if err != nil {
			t.Fatal(err)
		}
		o := r.After.Opening
		if len(o.OrificesCM2) != len(at)+1 {
			t.Errorf("clips at %v: orifices %v", at, o.OrificesCM2)
		}
		flow := r.After.Beat.ForwardSVML + r.After.Regurgitation.VolumeML
		k := o.MeanGradientMMHg * float64(o.EffectiveAreaCM2*o.EffectiveAreaCM2) / (flow * flow)
		if splits++; splits == 1 {
			one = k
		}
		if math.Abs(k/one-1) > 1e-9 {
			t.Errorf("clips at %v, orifices %.2f: gradient × area² ÷ flow² is %g, with one central clip %g", at, o.OrificesCM2, k, one)
		}
	}
}

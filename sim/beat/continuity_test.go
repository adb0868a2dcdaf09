package beat

import (
	"math"
	"testing"

	"annuloscope/sim/units"
)

// Mid-systole and what is read there move smoothly with rate, leak and filling: the pressures of atrium and ventricle may
// touch anywhere in late diastole, and nothing may hang on where.
func TestMidSystoleDoesNotJump(t *testing.T) {
	w := NewWorkspace()
	for _, sweep := range []struct {
		what string
		at   func(i int) Params
	}{
		{"late leak", func(i int) Params {
			p := Resting().Leaking(units.EffectiveCM2(0.02 * float64(i)))
			p.Leak.Course = Course{0.03, 0.02, 0.1, 0.4, 1}
			return p
		}},
		{"atrium", func(i int) Params {
			p := Resting().Leaking(0.5)
			p.StressedVolumeML = 1500
			p.LA.ComplianceMLPMMHg = 4 + 0.25*float64(i)
			return p
		}},
	} {
		var last, step [3]float64
		for i := 1; i <= 40; i++ {
			p := sweep.at(i)
			r, err := w.Solve(&p)
			if err != nil || r.Status != Converged {
				t.Fatalf("%s %d: %v %v", sweep.what, i, err, r.Status)
			}
			now := [3]float64{r.MidSystolicDropMMHg, r.MeanSystolicDropMMHg, 1000 * r.Phases.MidSystole}
			for k, v := range now {
				d := v - last[k]
				if i > 2 && math.Abs(d-step[k]) > [3]float64{0.5, 0.5, 2}[k] { // mmHg, mmHg, ms
					t.Errorf("%s, step %d: number %d jumps from %.2f to %.2f, a step after one of %.2f", sweep.what, i, k, last[k], v, step[k])
				}
				step[k] = d
			}
			last = now
		}
	}
}

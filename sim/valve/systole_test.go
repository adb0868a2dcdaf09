package valve_test

import (
	"math"
	"testing"

	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// The leak over systole (anatomy.md S01: tenting volume 6.4 early, 5.2 mid, 4.6 at its least at 78 %, 5.3 mL at the end in
// functional leak): a tethered valve leaks more early and late than in the middle, a torn chord all
// through systole, a long one late (from memory of echo teaching).
func TestLeakOverSystole(t *testing.T) {
	for _, circulation := range []bool{false, true} {
		r, err := valve.Solve(load(t, "functional", repair.SinusBand), valve.Options{Circulation: circulation})
		if err != nil {
			t.Fatal(err)
		}
		for name, st := range map[string]*valve.State{"before": &r.Before, "after": &r.After} {
			g := &st.Regurgitation
			o, n := g.Course.EffectiveOrificeCM2, len(g.Course.Phase)
			mid := float64(g.EffectiveOrificeCM2)
			if math.Abs(float64(o[n/2])-mid) > 1e-6 || g.Course.Phase[n/2] != 0.5 {
				t.Errorf("%s: the course has %v at %v, mid-systole has %v", name, o[n/2], g.Course.Phase[n/2], mid)
			}
			least := 0
			for i := range o {
				if o[i] < o[least] {
					least = i
				}
			}
			if float64(o[0]) < 1.1*mid || float64(o[n-1]) < 1.1*mid || g.Course.Phase[least] < 0.25 || g.Course.Phase[least] > 0.7 {
				t.Errorf("%s: tethered leak over systole %.3f", name, o)
			}
			if g.EffectiveOrificeMeanCM2 <= o[least] || g.EffectiveOrificeMeanCM2 >= g.EffectiveOrificePeakCM2 || g.Graded == "" {
				t.Errorf("%s: mean %v, peak %v, graded %q", name, g.EffectiveOrificeMeanCM2, g.EffectiveOrificePeakCM2, g.Graded)
			}
		}
		v := r.Before.Regurgitation.Course.TentingVolumeML
		for i, want := range map[int]float64{0: 6.4 / 5.2, 6: 4.6 / 5.2, 8: 5.3 / 5.2} {
			t.Logf("tenting volume at %.2f of systole over mid-systole: %.2f, S01 %.2f", r.Before.Regurgitation.Course.Phase[i], v[i]/v[4], want)
			if math.Abs(v[i]/v[4]-want) > 0.05 {
				t.Errorf("tenting volume at phase %d: %.3f of mid-systole, want %.3f", i, v[i]/v[4], want)
			}
		}
		for _, c := range []struct {
			torn, long float64
			holds      func(early, mid, late float64) bool
		}{
			{17, 2, func(early, mid, late float64) bool { return early > 0.3*mid && late > mid }},
			{0, 9, func(early, mid, late float64) bool { return early < 0.3*mid && late > mid }},
		} {
			f, err := valve.Solve(with(t, with(t, load(t, "flail-p2"), "chord.ruptured_mm", c.torn), "chord.elongated_mm", c.long), valve.Options{Circulation: circulation})
			if err != nil {
				t.Fatal(err)
			}
			g := f.Before.Regurgitation
			early, late := math.Inf(1), 0.0
			for i, x := range g.Course.Phase {
				if x < 0.5 {
					early = math.Min(early, float64(g.Course.EffectiveOrificeCM2[i]))
				} else if x > 0.5 {
					late = math.Max(late, float64(g.Course.EffectiveOrificeCM2[i]))
				}
			}
			if mid := float64(g.EffectiveOrificeCM2); !c.holds(early, mid, late) {
				t.Errorf("%g mm torn, %g mm longer: leak %.3f early, %.3f mid, %.3f cm² late", c.torn, c.long, early, mid, late)
			}
		}
	}
}

// The volume is the integral of the orifice times the speed of the jet over the beat, to the inertia of the blood and the
// samples; a constant orifice of the mid-systolic size would miss it.
func TestLeakVolumeIsTheIntegral(t *testing.T) {
	for _, name := range []string{"functional", "flail-p2"} {
		r := once(t, load(t, name))
		b := r.Scene.Before.Beat
		w := &b.Waves
		dt := w.Time[1] - w.Time[0]
		course, constant, flow := 0.0, 0.0, 0.0
		for i := range w.Time {
			if d := w.LV[i] - w.LA[i]; d > 0 {
				course += 50.155 * w.LeakArea[i] * math.Sqrt(d) * dt
				constant += 50.155 * float64(r.Before.Regurgitation.EffectiveOrificeCM2) * math.Sqrt(d) * dt
			}
			flow += w.LeakFlow[i] * dt
		}
		v := r.Before.Regurgitation.VolumeML
		t.Logf("%s: volume %.1f mL, flow %.1f, course %.1f, mid-systolic orifice throughout %.1f", name, v, flow, course, constant)
		if math.Abs(flow-v) > 0.01*v || math.Abs(course-v) > 0.05*v {
			t.Errorf("%s: volume %.2f mL, integral of the flow %.2f, of the course %.2f", name, v, flow, course)
		}
	}
}

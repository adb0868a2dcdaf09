package ring

import (
	"math"
	"testing"

	"annuloscope/sim/ring/specimen"

	"gonum.org/v1/gonum/spatial/r3"
)

// The harder a ring holds the more the diameter falls, and a ring that hardly holds does less than half of a rigid one. The
// ring's own shape stays rigid: a ring that bends is not modelled.
func TestRingStiffness(t *testing.T) {
	in := inputFrom(specimen.Functional())
	untreated := solved(t, in).After.SeptalLateralMM
	fall := map[float64]float64{}
	for _, s := range []float64{0.0003, 0.05, 0.5, 0} { // 0 stands for 1
		in.FullRing = &FullRing{SizeMM: 32, HeightShare: 0.5, Stiffness: s}
		fall[s] = untreated - solved(t, in).After.SeptalLateralMM
		t.Logf("stiffness %g: septal-lateral falls by %.2f mm", s, fall[s])
	}
	if !(fall[0.0003] > 0 && fall[0.0003] < fall[0]/2) || !(fall[0.0003] < fall[0.05] && fall[0.05] < fall[0.5] && fall[0.5] < fall[0]) {
		t.Errorf("falls %v", fall)
	}
	in.FullRing.Stiffness = 1
	if whole := untreated - solved(t, in).After.SeptalLateralMM; whole != fall[0] {
		t.Errorf("1 gives %g mm, 0 gives %g", whole, fall[0])
	}
	in.FullRing.Stiffness = 1.5
	if in.Check() == nil {
		t.Error("stiffness 1.5 accepted")
	}
}

// A ring not much narrower than the trigones lie apart (29.4 mm here) gathers the posterior annulus without folding it: every
// piece keeps its direction within 60°, and the septal-lateral diameter has no jump. Before the annulus was spread along the
// ring it folded back on itself beside the trigones from 34 mm down, and the diameter jumped by 0.35 mm at 30.7 and by 0.41
// mm at 27.2 mm. A ring of 27 mm still folds it, and the result says so.
func TestSmallRingFoldsNothing(t *testing.T) {
	in := inputFrom(specimen.Functional())
	var last, step float64
	for size := 42.0; size > 27.9; size -= 0.25 {
		in.FullRing = &FullRing{SizeMM: size, HeightShare: 0.5}
		r := solved(t, in)
		for i, p := range r.Annulus {
			j := (i + 1) % len(r.Annulus)
			a, b := r3.Sub(in.Annulus.Rest[j], in.Annulus.Rest[i]), r3.Sub(r.Annulus[j], p)
			if cos := r3.Dot(r3.Unit(a), r3.Unit(b)); cos < 0.5 {
				t.Errorf("ring of %g mm: the piece from point %d turns to a cosine of %.2f", size, i, cos)
			}
		}
		if now := r.After.SeptalLateralMM - last; last > 0 && step != 0 && math.Abs(now-step) > 0.05 {
			t.Errorf("ring of %g mm: the diameter changes by %.3f mm after %.3f", size, now, step)
		}
		if last > 0 {
			step = r.After.SeptalLateralMM - last
		}
		last = r.After.SeptalLateralMM
		if r.Folds != 0 {
			t.Errorf("ring of %g mm: %d folds", size, r.Folds)
		}
	}
	in.FullRing.SizeMM = 27
	if r := solved(t, in); r.Folds != 2 {
		t.Errorf("ring of 27 mm: %d folds, seen are 2", r.Folds)
	}
}

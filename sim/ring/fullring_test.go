package ring

import (
	"testing"

	"annuloscope/sim/ring/specimen"
)

// A ring that hardly holds does less than half of a rigid one. Between, the diameter is not monotone: held hard, the annulus
// beside the trigones pushes the fibrous part forward (24.5 mm at a twentieth of the hold, 26.0 mm at the whole). The ring's
// own shape stays rigid: a ring that bends is not modelled.
func TestRingStiffness(t *testing.T) {
	in := inputFrom(specimen.Functional())
	untreated := solved(t, in).After.SeptalLateralMM
	fall := map[float64]float64{}
	for _, s := range []float64{0.0003, 0.05, 0.5, 0} { // 0 stands for 1
		in.FullRing = &FullRing{SizeMM: 32, HeightShare: 0.5, Stiffness: s}
		fall[s] = untreated - solved(t, in).After.SeptalLateralMM
		t.Logf("stiffness %g: septal-lateral falls by %.2f mm", s, fall[s])
	}
	if !(fall[0.0003] > 0 && fall[0.0003] < fall[0]/2) || fall[0.05] < fall[0] || fall[0.5] < fall[0] {
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

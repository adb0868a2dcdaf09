package valve

import (
	"testing"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
)

// The chosen view of the vein's distance reaches the ring, and a larger body has a larger annulus but the same vein.
func TestDisputedChoicesReachTheModel(t *testing.T) {
	c := caseOf(t, "functional", repair.Must(repair.SinusBand))
	s := NewSolver()
	plain, err := s.Solve(c, Options{Warm: true})
	if err != nil {
		t.Fatal(err)
	}
	far := c.Clone()
	far.Patient.LeakDistance = anatomy.DistanceRaised
	raised, err := s.Solve(far, Options{Warm: true})
	if err != nil {
		t.Fatal(err)
	}
	added := far.Patient.LeakDistanceMM()
	a, b := plain.Scene.Before.VeinDistance, raised.Scene.Before.VeinDistance
	if d := b[len(b)/2] - a[len(a)/2]; added <= 0 || d < 0.9*added || d > 1.1*added {
		t.Errorf("the vein moved by %g mm, chosen view says %g", d, added)
	}
	if raised.After.Annulus == plain.After.Annulus {
		t.Error("the band does the same at another distance: the same baseline was kept")
	}
	large := c.Clone()
	large.Patient.Scaling, large.Patient.BodySurfaceM2 = anatomy.BySurface, 1.98
	big, err := s.Solve(large, Options{Warm: true})
	if err != nil {
		t.Fatal(err)
	}
	if k := big.Before.Annulus.SeptalLateralMM / plain.Before.Annulus.SeptalLateralMM; k < 1.099 || k > 1.101 {
		t.Errorf("septal-lateral diameter grew by %g, want 1.1", k)
	}
}

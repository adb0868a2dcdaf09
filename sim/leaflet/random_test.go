package leaflet

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// randomStates draws an anatomy within published spreads (anatomy.md sections 1-3: annulus, leaflet lengths, tips) and
// its five states: closed, dilated and tethered, open, open with one bond, P2 chords cut.
func randomStates(rng *rand.Rand) [5]Input {
	in := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	sl, ic, height := in(25, 33), in(34, 42), in(3, 9)
	a := NewAnatomy(EllipseAnnulus(sl, ic, height, 128))
	a.AnteriorMM *= sl / 28 * in(0.92, 1.08)
	a.PosteriorMM *= sl / 28 * in(0.92, 1.08)
	a.CommissureMM *= in(0.9, 1.15)
	a.ChordSlackMM = in(0, 1.5)
	a.Growth = in(1, 1.1)
	for i := range a.RestTips {
		a.RestTips[i] = r3.Add(a.RestTips[i], r3.Vec{X: in(-1.5, 1.5), Y: in(-1.5, 1.5), Z: in(-2, 2)})
	}
	closed := NewInput(a)
	dilated := closed
	dilated.Annulus = EllipseAnnulus(sl*in(1.05, 1.2), ic*in(1, 1.08), height*in(0.5, 1), 128)
	for i := range dilated.Tips {
		dilated.Tips[i] = r3.Add(dilated.Tips[i], r3.Vec{X: math.Copysign(in(0, 3), dilated.Tips[i].X), Y: in(-3, 0), Z: in(-3, 0)})
	}
	open := closed
	open.Phase, open.PressureNMM2 = Diastole, in(2, 6)*133.322e-6
	bonded := open
	bonded.Bonds = []Bond{{S: in(-0.5, 0.5), WidthMM: in(4, 6), ReachMM: in(5, 9), Hold: 1}}
	flail := closed
	flail.Chords = []ChordChange{{Leaflet: Posterior, S: in(-0.3, 0.3), WidthMM: in(10, 28), Ruptured: true}}
	return [5]Input{closed, dilated, open, bonded, flail}
}

var stateNames = [5]string{"closed", "dilated", "open", "bonded", "flail"}

// soak solves n anatomies × 5 states cold and counts what goes wrong.
func soak(t *testing.T, columns, rows, n int) (failed [5]int, nonFinite int) {
	for k := range n {
		rng := rand.New(rand.NewPCG(uint64(k), 77))
		s := New(columns, rows)
		for i, in := range randomStates(rng) {
			s.Reset()
			st, err := s.Solve(in)
			if err != nil {
				t.Fatal(err)
			}
			r := s.Result()
			for _, v := range []float64{r.ContactMeanMM, r.DepthMM, r.SlotMM2, r.ProjectedGapMM2, r.OpenMM2, r.TentingVolumeMM3, r.StrainEnergyMJ} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					nonFinite++
				}
			}
			if st != Converged {
				failed[i]++
				t.Logf("anatomy %d %s: %v after %d iterations, %d crossings, rms %.4f mm", k, stateNames[i], st, r.Iterations, r.Crossings, r.ResidualMM)
			}
		}
	}
	return failed, nonFinite
}

// A small sample in every run; the 150 × 5 of the long test are the proof.
func TestRandomAnatomiesSample(t *testing.T) {
	failed, nonFinite := soak(t, DragColumns, DragRows, 3)
	if nonFinite > 0 {
		t.Errorf("%d non-finite numbers", nonFinite)
	}
	total := 0
	for _, f := range failed {
		total += f
	}
	if total > 1 {
		t.Errorf("%d of 15 states not converged: %v", total, failed)
	}
}

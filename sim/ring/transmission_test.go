package ring

import (
	"math"
	"testing"

	"annuloscope/sim/ring/specimen"
)

// Issue 3: rigid wall, zero elevation, full cover and fixed anchors transmit 1.00 ± 0.02, at any distance.
func TestNothingLostWithoutCauses(t *testing.T) {
	for _, distance := range []float64{0.5, 5, 8, 14} {
		for _, pulled := range []float64{1, 10, 20} {
			sp := specimen.Functional()
			sp.Distance = distance
			in := banded(inputFrom(sp), pulled)
			full, _ := coverPosterior(in)
			full.Vein = lowered(&full.Annulus, &full.Vein)
			full.Constants.WallRigid = true
			var s Solver
			var r Result
			s.Solve(&full, &r)
			got, status := s.TransmittedFraction(&full, &r)
			if !status.OK() || math.Abs(got-1) > 0.02 {
				t.Errorf("%g mm at distance %g: transmitted %.4f (%v), want 1.00 ± 0.02", pulled, distance, got, status)
			}
		}
	}
}

// Issue 2: a close band at annular level reduces the septal-lateral diameter much more than the same shortening far
// above. "Much" is taken as twice.
func TestElevationCostsEffect(t *testing.T) {
	loss := func(distance, elevation float64) float64 {
		sp := specimen.Functional()
		sp.Distance, sp.Elevation = distance, elevation
		r := solved(t, banded(inputFrom(sp), 20))
		return r.SeptalLateralLoss()
	}
	last := math.Inf(1)
	for _, e := range []float64{0, 3, 6, 9, 12, 15} {
		l := loss(5, e)
		t.Logf("20 mm at distance 5, elevation %g mm: −%.2f mm", e, l)
		if l >= last {
			t.Errorf("elevation %g mm: loss %g mm, not below %g", e, l, last)
		}
		last = l
	}
	if near, far := loss(5, 0), loss(5, 12); near < 2*far {
		t.Errorf("level band %g mm, far above %g mm", near, far)
	}
}

// The parts add to the whole without remainder, and a cause that is absent gets exactly nothing.
func TestAttributionAdds(t *testing.T) {
	check := func(name string, in *Input, absent ...Cause) {
		a := Attribute(in)
		sum := a.ActualMM
		for _, p := range a.Parts {
			sum += p
		}
		t.Logf("%s: actual %.3f, ideal %.3f, parts %.3f (%v, %d solves)", name, a.ActualMM, a.IdealMM, a.Parts, a.Status, a.Solves)
		if math.Abs(sum-a.IdealMM) > 1e-6 || !a.Status.OK() {
			t.Errorf("%s: parts add to %g of %g mm, %v", name, sum, a.IdealMM, a.Status)
		}
		for _, c := range absent {
			if a.Parts[c] != 0 {
				t.Errorf("%s: %v is absent but gets %g mm", name, c, a.Parts[c])
			}
		}
	}
	small := specimen.Functional()
	small.Points, small.VeinPoints = 64, 40
	in := banded(inputFrom(small), 20)
	check("plain", in, Slack, Slip)
	in.Band.SlackMM, in.Band.DistalGripN = 3, 1.2
	check("slack and slip", in)
	in.Constants.WallRigid = true
	check("rigid wall", in, WallGive)
	in.Constants.WallRigid = false
	small.Elevation = 0
	level := banded(inputFrom(small), 20)
	check("level", level, Slack, Slip, Elevation)
	full, _ := coverPosterior(level)
	check("full cover", &full, Slack, Slip, Elevation, Uncovered)
	held := banded(inputFrom(small), 0)
	held.Band.TensionN = 1.5
	check("held at 1.5 N", held, Slack, Slip, Elevation)
}

// Rods lose to the wall and to their height alone; beside another device the parts still add up, and a band that is
// slack adds nothing.
func TestAttributionOfRodsAndBesideOthers(t *testing.T) {
	small := specimen.Functional()
	small.Points, small.VeinPoints = 64, 40
	in := inputFrom(small)
	in.Rods = &Rods{ProximalMM: 12, DistalMM: 80, Count: 2, BendingNMM2: 300}
	own := Attribute(in)
	t.Logf("rods: %+v", own)
	if r := solved(t, in); math.Abs(own.ActualMM-r.SeptalLateralLoss()) > WarmColdMM {
		t.Errorf("rods act %g mm, attribution says %g", r.SeptalLateralLoss(), own.ActualMM)
	}
	if own.Parts[Slack] != 0 || own.Parts[Slip] != 0 || own.Parts[Uncovered] != 0 || own.Parts[WallGive] <= 0 {
		t.Errorf("parts %v", own.Parts)
	}
	in.Rods = nil
	in.Posterior = &PosteriorBand{DownsizingPercent: 10}
	without := solved(t, in)
	in.Band = &Band{ProximalMM: 12, DistalMM: 80, ShorteningMM: 12, SlackMM: 2}
	with := solved(t, in)
	beside := Attribute(in)
	t.Logf("band beside a posterior band: %+v", beside)
	sum := beside.ActualMM
	for _, p := range beside.Parts {
		sum += p
	}
	if added := with.SeptalLateralLoss() - without.SeptalLateralLoss(); math.Abs(beside.ActualMM-added) > 2*WarmColdMM || math.Abs(sum-beside.IdealMM) > 1e-6 {
		t.Errorf("the band adds %g mm, attribution says %g; parts add to %g of %g", added, beside.ActualMM, sum, beside.IdealMM)
	}
	in.Band.ShorteningMM = 0
	if idle := Attribute(in); math.Abs(idle.ActualMM) > WarmColdMM || math.Abs(idle.IdealMM) > WarmColdMM {
		t.Errorf("an idle band: %+v", idle)
	}
}

package ring

import (
	"math"
	"testing"

	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/spatial/r3"
)

// solved solves and fails the test unless an equilibrium was found.
func solved(t *testing.T, in *Input) Result {
	t.Helper()
	if err := in.Check(); err != nil {
		t.Fatal(err)
	}
	r := Solve(in)
	if !r.Status.OK() {
		t.Fatalf("%v, residual %g N", r.Status, r.ResidualN)
	}
	return r
}

// What is pulled out of the band is accounted for, and contact and anchor forces are in balance with each other:
// the band is a free body.
func TestBandBookkeeping(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 20)
	in.Band.SlackMM, in.Band.DistalGripN = 3, 1.2
	in.Band.State.ProximalShiftMM = 1.5
	r := solved(t, in)
	b := r.Band
	sum := b.AchievedMM + b.SlackTakenMM + b.SlipMM + b.StretchMM
	if math.Abs(sum-20) > 1e-7 {
		t.Errorf("achieved %g + slack %g + slip %g + stretch %g = %g mm, want 20", b.AchievedMM, b.SlackTakenMM, b.SlipMM, b.StretchMM, sum)
	}
	force := r3.Add(b.ProximalAnchorN, b.DistalAnchorN)
	var moment r3.Vec
	for j, c := range b.ContactNPerMM {
		length := 0.0
		if j > 0 {
			length += r3.Norm(r3.Sub(r.Vein[j], r.Vein[j-1])) / 2
		}
		if j+1 < len(r.Vein) {
			length += r3.Norm(r3.Sub(r.Vein[j+1], r.Vein[j])) / 2
		}
		force = r3.Add(force, r3.Scale(length, c))
		moment = r3.Add(moment, r3.Cross(r.Vein[j], r3.Scale(length, c)))
	}
	if f := r3.Norm(force); f > 1e-9 {
		t.Errorf("contact and anchor forces leave %g N", f)
	}
	if a := r3.Norm(b.ProximalAnchorN); a > b.TensionN || a < 0.9*b.TensionN {
		t.Errorf("anchor force %g N at tension %g N", a, b.TensionN)
	}
	_ = moment // the anchors' lever arms are spread over their length: only the force balance is exact
}

// On a circle of radius R a cable at tension T presses with T/R (capstan geometry without friction, physics.md D6).
func TestContactIsTensionOverRadius(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 0)
	in.Band.TensionN = 1e-6 // shape stays at rest
	const radius = 30.0
	for j := range in.Vein.Rest {
		a := -float64(j) * 1.3 / radius
		in.Vein.Rest[j] = r3.Vec{X: radius * math.Cos(a), Y: radius * math.Sin(a)}
		in.Vein.Station[j] = 1.3 * float64(j)
	}
	in.Band.ProximalMM, in.Band.DistalMM = 10, 90
	r := solved(t, in)
	for j := 25; j < 50; j++ {
		c, p := r.Band.ContactNPerMM[j], in.Vein.Rest[j]
		if want := 1e-6 / radius; math.Abs(r3.Norm(c)-want) > 1e-3*want || r3.Dot(c, p) > 0 {
			t.Fatalf("point %d: %v N/mm, want %g N/mm inward", j, c, want)
		}
	}
}

// Slip: the tension ends at the grip, the history goes out, solving again with it slips no more, and a band that holds
// less than its grip has not slipped at all.
func TestAnchorSlip(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 20)
	free := solved(t, in)
	in.Band.ProximalGripN, in.Band.DistalGripN = 0.8*free.Band.TensionN, 0.6*free.Band.TensionN
	r := solved(t, in)
	if d := math.Abs(r.Band.TensionN - in.Band.DistalGripN); d > 1e-8 {
		t.Errorf("tension %g N, grip %g N", r.Band.TensionN, in.Band.DistalGripN)
	}
	if r.Band.State.DistalShiftMM <= 0 || r.Band.State.ProximalShiftMM != 0 {
		t.Errorf("the weaker, distal anchor should have slipped alone: %+v", r.Band.State)
	}
	if r.SeptalLateralLoss() >= free.SeptalLateralLoss() {
		t.Errorf("slip did not cost effect: %g against %g mm", r.SeptalLateralLoss(), free.SeptalLateralLoss())
	}
	again := *in
	band := *in.Band
	band.State = r.Band.State
	again.Band = &band
	second := solved(t, &again)
	if d := math.Abs(second.Band.State.DistalShiftMM - r.Band.State.DistalShiftMM); d > 1e-6 {
		t.Errorf("a second solve slipped %g mm more", d)
	}
	if d := math.Abs(second.After.SeptalLateralMM - r.After.SeptalLateralMM); d > WarmColdMM {
		t.Errorf("solving from the history differs by %g mm", d)
	}
	// Letting the band out again does not bring the anchor back.
	band.ShorteningMM = 5
	if out := solved(t, &again); out.Band.State != band.State {
		t.Errorf("state changed on letting out: %+v", out.Band.State)
	}
	in.Band.ProximalGripN, in.Band.DistalGripN = 1.1*free.Band.TensionN, 1.2*free.Band.TensionN
	if held := solved(t, in); held.Band.State != (BandState{}) {
		t.Errorf("slipped below its grip: %+v", held.Band.State)
	}
	in.Band.TensionN = 5
	if held := solved(t, in); math.Abs(held.Band.TensionN-in.Band.ProximalGripN) > 1e-12 {
		t.Errorf("tension control: %g N, the grip is %g N", held.Band.TensionN, in.Band.ProximalGripN)
	}
}

// Anchors that have migrated until they touch hold nothing, and the status says so; more shortening than there is vein
// between the anchors is refused.
func TestAnchorsMeet(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 14)
	in.Band.ProximalMM, in.Band.DistalMM = 20, 45
	in.Band.State = BandState{ProximalShiftMM: 7, DistalShiftMM: 8}
	if r := solved(t, in); r.Status != AnchorsMet {
		t.Errorf("status %v", r.Status)
	}
	in.Band.ShorteningMM = 20
	if err := in.Check(); err == nil {
		t.Error("20 mm out of 25 mm were accepted")
	}
}

// Separation ends the pull, migration costs effect.
func TestSeparationAndMigration(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 20)
	whole := solved(t, in)
	in.Band.State = BandState{ProximalShiftMM: 4}
	if r := solved(t, in); r.SeptalLateralLoss() >= whole.SeptalLateralLoss() || r.Band.SlipMM < 3.5 {
		t.Errorf("4 mm of migration: loss %g of %g mm, slip %g mm", r.SeptalLateralLoss(), whole.SeptalLateralLoss(), r.Band.SlipMM)
	}
	in.Band.State = BandState{Separated: true}
	if r := solved(t, in); r.SeptalLateralLoss() != 0 || r.Band.TensionN != 0 {
		t.Errorf("a separated band still pulls %g N", r.Band.TensionN)
	}
}

// Issue 3: rods' forces and moments on the vein sum to zero to 1e-9; ends press outward, the middle forward (towards
// the aorta); the commissural diameter does not fall.
func TestRods(t *testing.T) {
	for _, stiff := range []float64{100, 1000, 4000} {
		in := inputFrom(specimen.Functional())
		in.Rods = &Rods{ProximalMM: 8, DistalMM: 75, Count: 3, BendingNMM2: stiff}
		r := solved(t, in)
		var force, moment, first, middle, last r3.Vec
		total := 0.0
		for j, f := range r.Rods.ForceN {
			force, moment = r3.Add(force, f), r3.Add(moment, r3.Cross(r.Vein[j], f))
			total += r3.Norm(f)
			switch s := in.Vein.Station[j]; {
			case s < 20:
				first = r3.Add(first, f)
			case s > 63:
				last = r3.Add(last, f)
			case s > 30 && s < 53:
				middle = r3.Add(middle, f)
			}
		}
		t.Logf("EI 3 × %g: forces %.2f N in all, septal-lateral −%.2f mm, commissural %+.2f mm", stiff, total, r.SeptalLateralLoss(), -r.CommissuralLoss())
		if r3.Norm(force) > 1e-9 || r3.Norm(moment) > 1e-9*30 {
			t.Errorf("EI %g: force %g N, moment %g N·mm left", stiff, r3.Norm(force), r3.Norm(moment))
		}
		if total < 0.01 {
			t.Fatalf("EI %g: the rods do nothing", stiff)
		}
		// Outward at the ends: away from the middle of the annulus at that place.
		a, b := r.Vein[5], r.Vein[len(r.Vein)-15]
		if r3.Dot(first, a) <= 0 || r3.Dot(last, b) <= 0 || middle.Y <= 0 {
			t.Errorf("EI %g: ends %v and %v should press outward, middle %v forward", stiff, first, last, middle)
		}
		if r.CommissuralLoss() > 0 || r.SeptalLateralLoss() <= 0 {
			t.Errorf("EI %g: commissural loss %g, septal-lateral loss %g mm", stiff, r.CommissuralLoss(), r.SeptalLateralLoss())
		}
	}
}

// A full ring of a size gives the annulus that size, the septal-lateral diameter up to 1.5 mm more because the fibrous
// part is not gathered to it; a posterior band takes its percentage off the arc under it.
func TestFullRingAndPosteriorBand(t *testing.T) {
	in := inputFrom(specimen.Functional())
	in.FullRing = &FullRing{SizeMM: 34, HeightShare: 0.8}
	r := solved(t, in)
	t.Logf("ring 34 × %.1f mm: annulus %.2f × %.2f mm, greatest force %.2f N/mm, halves pulled apart by %.2f N",
		0.75*34, r.After.CommissuralMM, r.After.SeptalLateralMM, r.FullRing.MaxNPerMM, r.FullRing.SeptalLateralN)
	if math.Abs(r.After.CommissuralMM-34) > 0.5 || math.Abs(r.After.SeptalLateralMM-0.75*34) > 1.5 {
		t.Errorf("annulus %g × %g mm on a ring of 34 × 25.5 mm", r.After.CommissuralMM, r.After.SeptalLateralMM)
	}
	in.FullRing = nil
	last := 0.0
	for _, p := range []float64{5, 10, 20, 30} {
		in.Posterior = &PosteriorBand{DownsizingPercent: p}
		r := solved(t, in)
		from, to := PosteriorArc(&in.Annulus)
		arc := (to - from) / 128 * r.Before.PerimeterMM
		if got := 100 * (r.Posterior.AchievedMM + r.Posterior.StretchMM) / arc; math.Abs(got-p) > 1e-3*p+0.05 {
			t.Errorf("downsizing %g %%: achieved %g %%", p, got)
		}
		if r.SeptalLateralLoss() <= last {
			t.Errorf("downsizing %g %%: septal-lateral loss %g mm not above %g", p, r.SeptalLateralLoss(), last)
		}
		last = r.SeptalLateralLoss()
	}
}

// A pull on the posterior annulus towards the septum brings it forward, and reshaping the ventricle does the same.
func TestLoadsAndReshaping(t *testing.T) {
	in := inputFrom(specimen.Functional())
	in.Loads = []Load{{Point: 96, Force: r3.Vec{Y: 0.5}}}
	if r := solved(t, in); r.SeptalLateralLoss() <= 0.5 {
		t.Errorf("0.5 N at P2 brings %g mm", r.SeptalLateralLoss())
	}
	in.Loads = nil
	in.Annulus.Shift = make([]r3.Vec, 128)
	for i, p := range in.Annulus.Rest {
		if p.Y < 0 {
			in.Annulus.Shift[i].Y = -0.2 * p.Y
		}
	}
	if r := solved(t, in); r.SeptalLateralLoss() <= 0.5 || r.SeptalLateralLoss() > 0.2*21.1 {
		t.Errorf("foundation brought in by a fifth: %g mm", r.SeptalLateralLoss())
	}
}

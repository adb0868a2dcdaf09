package ring

import (
	"math"
	"math/rand/v2"
	"testing"

	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/spatial/r3"
)

// areaMargin is by how many points the area loss in % may exceed the septal-lateral loss in %. Published means are 21.3
// and 24.2 % (anatomy.md S45, sheep); their spread (5.6 and 5.3) allows 7.7 points between two means, and the model's
// constants are known to about that. Chosen from the source's spread, not from the model.
const areaMargin = 5.6 + 5.3 - (24.2 - 21.3)

// randomCase draws an annulus, a vein, constants (half to double the default) and a band from the allowed range.
func randomCase(rng *rand.Rand) *Input {
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	sp := specimen.Functional()
	sp.Points, sp.VeinPoints, sp.Fine = 32, 20, 400
	sp.SeptalLateral = between(24, 42)
	sp.Commissural = sp.SeptalLateral * between(1.1, 1.5)
	sp.Height, sp.AnteriorShare = between(0, 10), between(0.3, 0.45)
	sp.FibrousShare, sp.FibrousBlend = between(0.2, 0.3), between(2, 8)
	sp.VeinFromDeg, sp.VeinToDeg = between(310, 345), between(120, 175)
	sp.LeavesDeg = sp.VeinToDeg + between(0, 40)
	sp.Distance, sp.Elevation = between(1, 20), between(-3, 18)
	in := inputFrom(sp)
	c := &in.Constants
	for _, k := range []*float64{&c.AnnulusCompression, &c.AnnulusBending, &c.FoundationSeptal, &c.FoundationCommissural,
		&c.VeinCompression, &c.VeinBending, &c.Groove, &c.GrooveTangent, &c.WallMembrane, &c.WallShear, &c.WallTransverse} {
		*k *= math.Exp(between(-1, 1) * math.Ln2)
	}
	last := in.Vein.Station[len(in.Vein.Station)-1]
	a, b := between(0, 0.3)*last, between(0.6, 1)*last
	in.Band = &Band{ProximalMM: a, DistalMM: b, SlackMM: max(0, between(-3, 5)), ShorteningMM: between(1, 0.4*(b-a))}
	if rng.IntN(3) == 0 {
		in.Band.DistalGripN = between(0.3, 4)
	}
	if rng.IntN(4) == 0 {
		in.Loads = []Load{{Point: rng.IntN(32), Force: r3.Vec{Y: between(0, 0.5), Z: between(-0.2, 0.2)}}}
	}
	return in
}

// tally counts what a random study found.
type tally struct {
	cases, failed, reversed, slipReversed, jumped, apart, area int
	worstReversal, worstSlipReversal, worstJump, worstApart    float64
	worstArea                                                  float64
	slips, met, onsets, onsetJumps                             int     // cases that slipped, whose anchors met, onsets examined, with a jump
	worstOnset                                                 float64 // mm by which septal-lateral jumps across an onset of slip
}

// try runs one random case: shortening in three steps (warm), a small step beside the last, and for every fourth case a
// cold solve.
func (c *tally) try(t *testing.T, in *Input, s *Solver, r *Result) {
	c.cases++
	const steps = 3
	whole := in.Band.ShorteningMM
	s.Reset()
	last := math.Inf(1)
	for k := range steps {
		in.Band.ShorteningMM = whole * float64(k+1) / steps
		s.Solve(in, r)
		if !r.Status.OK() || math.IsNaN(r.After.AreaMM2+r.Band.TensionN) {
			c.failed++
			t.Logf("case %d: %v at %g mm, residual %g N", c.cases, r.Status, in.Band.ShorteningMM, r.ResidualN)
			return
		}
		if up := r.After.SeptalLateralMM - last; up > 1e-6 {
			if r.Band.State != (BandState{}) {
				c.slipReversed++
				c.worstSlipReversal = math.Max(c.worstSlipReversal, up)
			} else {
				c.reversed++
				c.worstReversal = math.Max(c.worstReversal, up)
				t.Logf("case %d: %g mm of shortening lengthened septal-lateral by %.3g mm; band %.3g to %.3g of %.3g mm, distance %.3g, elevation %.3g, loads %v, partners %.3v", c.cases, in.Band.ShorteningMM, up, in.Band.ProximalMM, in.Band.DistalMM, in.Vein.Station[len(in.Vein.Station)-1], in.Vein.Distance[0], in.Vein.Elevation[0], in.Loads, in.Vein.Partner)
			}
		}
		last = r.After.SeptalLateralMM
	}
	if r.Band.State != (BandState{}) {
		if c.slips++; r.Status == AnchorsMet {
			c.met++
		}
		if c.cases%10 == 0 {
			defer c.onset(t, in, s, r, whole)
		}
	}
	sl := 100 * r.SeptalLateralLoss() / r.Before.SeptalLateralMM
	area := 100 * (1 - r.After.AreaMM2/r.Before.AreaMM2)
	if in.Loads == nil {
		c.worstArea = math.Max(c.worstArea, area-sl)
		if area-sl > areaMargin {
			c.area++
		}
	}
	in.Band.ShorteningMM = whole + 0.01
	s.Solve(in, r)
	if jump := math.Abs(r.After.SeptalLateralMM - last); jump > 0.02 { // twice the shortening added
		c.jumped++
		c.worstJump = math.Max(c.worstJump, jump)
		t.Logf("case %d: at %g mm a hundredth of a millimetre more moves septal-lateral by %.3g mm, slip %+v", c.cases, whole, jump, r.Band.State)
	}
	if c.cases%4 != 0 {
		return
	}
	warm := append([]r3.Vec(nil), r.Annulus...)
	cold := Solve(in)
	for i, p := range cold.Annulus {
		if d := r3.Norm(r3.Sub(p, warm[i])); d > WarmColdMM {
			c.worstApart = math.Max(c.worstApart, d)
			c.apart++
			break
		}
	}
}

// onset halves the shortening down to the onset of slip, the one kink of the band, and compares the two sides of it: the
// diameter bends there but does not jump.
func (c *tally) onset(t *testing.T, in *Input, s *Solver, r *Result, whole float64) {
	solve := func(mm float64) (slips bool) {
		in.Band.ShorteningMM = mm
		s.Solve(in, r)
		return r.Band.State != (BandState{})
	}
	lo, hi := 0.0, whole
	for range 16 {
		if mid := (lo + hi) / 2; solve(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	solve(lo)
	before := r.After.SeptalLateralMM
	solve(hi)
	c.onsets++
	if jump := math.Abs(r.After.SeptalLateralMM-before) - 2*(hi-lo); jump > 1e-4 {
		c.onsetJumps++
		c.worstOnset = math.Max(c.worstOnset, jump)
		t.Logf("case %d: where slip begins, at %g mm, septal-lateral jumps by %.3g mm", c.cases, hi, jump)
	}
}

// study runs n random cases and reports. Kinks that exist by design: the onset of slip, the side that slips when both
// grips are equal, anchors meeting. Slack and contact of the band are smooth.
func study(t *testing.T, n int, seed uint64) tally {
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	var c tally
	var s Solver
	var r Result
	for range n {
		c.try(t, randomCase(rng), &s, &r)
	}
	t.Logf("%d cases: %d without equilibrium; steps where more shortening lengthened septal-lateral: %d with holding anchors (worst %.2g mm), %d with a slipping one (worst %.2g mm); %d jumps (worst %.2g mm);",
		c.cases, c.failed, c.reversed, c.worstReversal, c.slipReversed, c.worstSlipReversal, c.jumped, c.worstJump)
	t.Logf("kinks: %d cases slip (%d until the anchors meet); of %d onsets of slip examined %d show a jump of the diameter (worst %.2g mm); slack and contact are smooth",
		c.slips, c.met, c.onsets, c.onsetJumps, c.worstOnset)
	t.Logf("%d where warm and cold differ by more than %g mm (worst %.2g mm); %d with area loss above septal-lateral loss by more than %.1f points (worst %.1f)",
		c.apart, WarmColdMM, c.worstApart, c.area, areaMargin, c.worstArea)
	return c
}

func TestRandomCases(t *testing.T) {
	n := 2000
	if testing.Short() || raceEnabled {
		n = 200
		t.Logf("-short or -race: %d cases instead of 2000", n)
	}
	c := study(t, n, 20)
	// With holding anchors more shortening never lengthens the septal-lateral diameter. A slipping anchor keeps the
	// tension at its grip and gives up cover as it slides, which may lose a little effect: reported, not counted as wrong.
	// Veins high above a near annulus (elevation 9 to 16 mm at a distance of 1 to 2 mm) can reverse by hundredths of a mm:
	// the linear wall then turns the pull downward. Allowed: one step in 500, each below 0.05 mm.
	if c.failed > 0 || c.jumped > 0 || c.onsets == 0 || c.onsetJumps > 0 || c.apart > 0 || c.area > 0 || 500*c.reversed > 3*c.cases || c.worstReversal > 0.05 {
		t.Error("violations; see the tally")
	}
}

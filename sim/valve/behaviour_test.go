package valve_test

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"annuloscope/assets"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

func solve(t *testing.T, c casefile.Case) valve.Report {
	t.Helper()
	r, err := valve.Solve(c, valve.Options{Circulation: true})
	if err != nil {
		t.Fatalf("%s: %v", c.Name, err)
	}
	if !r.Provenance.Converged {
		t.Fatalf("%s with %v: %s", c.Name, c.Repairs, r.Provenance.Status)
	}
	return r
}

func band(c casefile.Case, shortening float64) casefile.Case {
	d := c.Clone()
	d.Repairs = []repair.Step{repair.Must(repair.SinusBand).With("shortening_mm", shortening)}
	return d
}

func clip(c casefile.Case, position float64) casefile.Case {
	d := c.Clone()
	d.Repairs = []repair.Step{repair.Must(repair.EdgeClip).With("position", position)}
	return d
}

// What was measured comes back (issue: to 1e-6), before any repair.
func TestMeasurementsAreReproduced(t *testing.T) {
	c := load(t, "functional")
	c.Patient.Measured.ContactMM, c.Patient.Measured.EffectiveOrificeCM2 = 2.5, 0.35
	for _, c := range []casefile.Case{load(t, "normal"), load(t, "functional"), c} {
		b := solve(t, c).Before
		m := c.Patient.Measured
		for _, v := range []struct {
			name      string
			got, want float64
		}{
			{"depth", b.Coaptation.DepthMM, m.DepthMM}, {"contact", b.Coaptation.ContactMM.Mean, m.ContactMM},
			{"effective orifice", float64(b.Regurgitation.EffectiveOrificeCM2), m.EffectiveOrificeCM2},
			{"opening", float64(b.Opening.AnatomicAreaCM2), m.OpeningAreaCM2},
		} {
			if math.Abs(v.got-v.want) > 1e-6 {
				t.Errorf("%s, %s: %v, measured %v", c.Name, v.name, v.got, v.want)
			}
		}
		// The diameters are read off the 128-point ring by a cubic: good to 1e-4 mm.
		if d := math.Abs(b.Annulus.SeptalLateralMM - c.Patient.Annulus.SeptalLateralMM); d > 1e-4 {
			t.Errorf("%s: septal-lateral off by %g mm", c.Name, d)
		}
		if d := math.Abs(b.Annulus.CommissuralMM - c.Patient.Annulus.CommissuralMM); d > 1e-4 {
			t.Errorf("%s: commissural off by %g mm", c.Name, d)
		}
		h := c.Patient.Heart
		for _, v := range []struct {
			name      string
			got, want float64
		}{{"end-diastolic volume", b.Beat.EDVML, h.EndDiastolicML}, {"end-systolic volume", b.Beat.ESVML, h.EndSystolicML},
			{"atrial pressure", b.Beat.LAMeanMMHg, h.AtrialMeanMMHg}, {"arterial pressure", b.Beat.ArterialMMHg, h.MeanArterialMMHg}} {
			if math.Abs(v.got/v.want-1) > 1e-4 {
				t.Errorf("%s, %s: %v, stated %v", c.Name, v.name, v.got, v.want)
			}
		}
	}
}

// A close band at annular level narrows much more than the same shortening far above; what reaches the annulus is a
// fraction of what a band on it does.
func TestDistanceAndElevationCostEffect(t *testing.T) {
	loss := func(distance, elevation float64) (float64, float64) {
		c := load(t, "functional")
		s := &c.Patient.Sinus
		s.DistanceMM.Mouth, s.DistanceMM.Middle, s.DistanceMM.Distal = distance, distance, distance
		s.ElevationMM.Mouth, s.ElevationMM.Middle, s.ElevationMM.Distal = elevation, elevation, elevation
		s.ArchMM = 0
		r := solve(t, band(c, 20))
		return r.Before.Annulus.SeptalLateralMM - r.After.Annulus.SeptalLateralMM, r.After.Sinus.TransmittedFraction
	}
	near, nearShare := loss(5, 0)
	far, farShare := loss(5, 12)
	t.Logf("20 mm shortening, 5 mm from the annulus: %.2f mm (%.0f %%) at its level, %.2f mm (%.0f %%) 12 mm above it", near, 100*nearShare, far, 100*farShare)
	if near < 2*far || far < 0 || nearShare > 1.05 || farShare > 0.6*nearShare {
		t.Errorf("near %.2f mm (%.2f), far %.2f mm (%.2f)", near, nearShare, far, farShare)
	}
}

// More shortening never lengthens the septal-lateral diameter, raises the tension, and never opens the leak.
func TestMoreShorteningNeverLengthens(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"functional", "high-sinus", "deep-artery"} {
		last := valve.State{}
		step := 2.5
		if raceDetector {
			step = 7.5
		}
		for mm := 0.0; mm <= 30; mm += step {
			after := solve(t, band(load(t, name), mm)).After
			if mm > 0 && (after.Annulus.SeptalLateralMM > last.Annulus.SeptalLateralMM+1e-6 ||
				after.Sinus.TensionN < last.Sinus.TensionN-1e-6 ||
				after.Regurgitation.EffectiveOrificeCM2 > last.Regurgitation.EffectiveOrificeCM2+1e-3) {
				t.Errorf("%s at %v mm: septal-lateral %v after %v, tension %v after %v, leak %v after %v", name, mm, after.Annulus.SeptalLateralMM,
					last.Annulus.SeptalLateralMM, after.Sinus.TensionN, last.Sinus.TensionN, after.Regurgitation.EffectiveOrificeCM2, last.Regurgitation.EffectiveOrificeCM2)
			}
			last = after
		}
	}
}

// A central clip at the jet makes two orifices of one, with a clearly smaller total and less leak (physics.md A3: area
// ratio 0.4 to 0.7).
func TestCentralClipMakesTwoOrifices(t *testing.T) {
	r := solve(t, clip(load(t, "functional"), 0))
	ratio := float64(r.After.Opening.AnatomicAreaCM2 / r.Before.Opening.AnatomicAreaCM2)
	if len(r.Before.Opening.OrificesCM2) != 1 || len(r.After.Opening.OrificesCM2) != 2 {
		t.Fatalf("orifices %v → %v", r.Before.Opening.OrificesCM2, r.After.Opening.OrificesCM2)
	}
	if ratio < 0.4 || ratio > 0.7 {
		t.Errorf("area ratio %.2f outside the published band", ratio)
	}
	if r.After.Regurgitation.EffectiveOrificeCM2 > 0.5*r.Before.Regurgitation.EffectiveOrificeCM2 {
		t.Errorf("leak %v → %v", r.Before.Regurgitation.EffectiveOrificeCM2, r.After.Regurgitation.EffectiveOrificeCM2)
	}
	sum := 0.0
	for _, a := range r.After.Opening.OrificesCM2 {
		sum += float64(a)
	}
	if math.Abs(sum-float64(r.After.Opening.AnatomicAreaCM2)) > 1e-9 {
		t.Errorf("orifices add to %v, total says %v", sum, r.After.Opening.AnatomicAreaCM2)
	}
}

// A clip away from a P2 flail barely helps the leak yet still narrows the opening; at the flail it takes over half.
func TestClipMustSitAtTheFlail(t *testing.T) {
	c := load(t, "flail-p2")
	at, away := solve(t, clip(c, 0)), solve(t, clip(c, 0.7))
	before := float64(at.Before.Regurgitation.EffectiveOrificeCM2)
	t.Logf("leak %.3f cm²; clip at the flail %.3f, away from it %.3f", before, at.After.Regurgitation.EffectiveOrificeCM2, away.After.Regurgitation.EffectiveOrificeCM2)
	if float64(at.After.Regurgitation.EffectiveOrificeCM2) > 0.5*before {
		t.Error("a clip at the flail leaves more than half the leak")
	}
	if float64(away.After.Regurgitation.EffectiveOrificeCM2) < 0.8*before {
		t.Error("a clip away from the flail takes a fifth of the leak or more")
	}
	if away.After.Opening.AnatomicAreaCM2 > 0.97*away.Before.Opening.AnatomicAreaCM2 {
		t.Error("a clip away from the flail does not narrow the opening")
	}
}

func TestOffCentreClipGivesUnequalOrificesWithoutJumps(t *testing.T) {
	t.Parallel()
	c := load(t, "functional")
	r := solve(t, clip(c, 0.4))
	if o := r.After.Opening.OrificesCM2; len(o) != 2 || o[0] < 1.3*o[1] {
		t.Errorf("orifices %v, want the anterolateral one clearly larger", o)
	}
	s := valve.NewSolver()
	var last valve.State
	most := 60
	if raceDetector {
		most = 20
	}
	for i := 0; i <= most; i++ {
		r, err := s.Solve(clip(c, -0.3+0.01*float64(i)), valve.Options{Circulation: true})
		if err != nil {
			t.Fatal(err)
		}
		if d := float64(r.After.Regurgitation.EffectiveOrificeCM2 - last.Regurgitation.EffectiveOrificeCM2); i > 0 && math.Abs(d) > 0.02 {
			t.Errorf("clip at %.2f: leak jumps by %.3f cm²", -0.3+0.01*float64(i), d)
		}
		if d := float64(r.After.Opening.AnatomicAreaCM2 - last.Opening.AnatomicAreaCM2); i > 0 && math.Abs(d) > 0.05 {
			t.Errorf("clip at %.2f: opening jumps by %.3f cm²", -0.3+0.01*float64(i), d)
		}
		last = r.After
	}
}

func TestDilationLosesContactSmoothly(t *testing.T) {
	t.Parallel()
	c := load(t, "normal")
	var last, lastLeak float64
	from := 0.0
	if raceDetector {
		from = 7
	}
	for mm := from; mm <= 10; mm += 0.5 {
		c.Patient.Annulus.DilationMM = mm
		s := solve(t, c).Before
		contact, leak := s.Coaptation.ContactMM.Mean, float64(s.Regurgitation.EffectiveOrificeCM2)
		if mm > from && (contact > last || last-contact > 1 || leak < lastLeak-1e-9) {
			t.Errorf("dilated by %v mm: contact %.2f after %.2f mm, leak %.3f after %.3f cm²", mm, contact, last, leak, lastLeak)
		}
		last, lastLeak = contact, leak
	}
	if last > 2 || lastLeak <= 0 {
		t.Errorf("a normal valve dilated by 10 mm keeps %.2f mm contact and leaks %.3f cm²", last, lastLeak)
	}
}

// A deep artery narrows as tension rises, a superficial one hardly; half the arterial pressure needs about half the
// tension; an anchor short of the crossing spares the artery and costs effect.
func TestArteryUnderTheBand(t *testing.T) {
	deep := load(t, "deep-artery")
	deep.Patient.Artery.SeparationMM = 2
	last := -1.0
	for _, mm := range []float64{0, 5, 10, 15, 20} {
		n := solve(t, band(deep, mm)).After.Artery.WorstViewNarrowing
		if n < last-1e-9 {
			t.Errorf("narrowing falls from %.1f to %.1f %% at %v mm", last, n, mm)
		}
		last = n
	}
	superficial := deep.Clone()
	superficial.Patient.Artery.SeparationMM = superficial.Patient.Artery.SuperficialMM
	far := solve(t, band(superficial, 20)).After.Artery.WorstViewNarrowing
	t.Logf("20 mm shortening narrows the deep artery by %.0f %%, the superficial one by %.0f %%", last, far)
	if last < 2*far+5 {
		t.Errorf("deep %.1f %%, superficial %.1f %%", last, far)
	}
	// The two bands are shortened by the same fifth of the path between their anchors.
	fifth := func(distal float64) valve.Report {
		const proximal = 12
		c := band(deep, 0.2*(distal-proximal))
		c.Patient.Artery.CrossingMM, c.Patient.Artery.DeepFromMM = 72, 72
		c.Repairs[0] = c.Repairs[0].With("proximal_mm", proximal).With("distal_mm", distal)
		return solve(t, c)
	}
	r, full := fifth(62), fifth(94)
	if r.After.Artery.WorstViewNarrowing > 0.5*full.After.Artery.WorstViewNarrowing {
		t.Errorf("an anchor short of the crossing narrows by %.1f %%, beyond it by %.1f %%", r.After.Artery.WorstViewNarrowing, full.After.Artery.WorstViewNarrowing)
	}
	if r.After.Annulus.SeptalLateralMM < full.After.Annulus.SeptalLateralMM {
		t.Error("an anchor short of the crossing does not cost effect")
	}
}

// A repair of zero strength changes nothing to the last bit; taking repairs away returns exactly; same input, same bytes.
func TestZeroRepairAndRepeat(t *testing.T) {
	c := load(t, "functional")
	zero := band(c, 0)
	zero.Repairs[0] = zero.Repairs[0].With("radial_n_per_mm", 0)
	r := solve(t, zero)
	if a, b := r.After.Annulus, r.Before.Annulus; a != b {
		t.Errorf("annulus %+v after, %+v before", a, b)
	}
	if a, b := r.After.Coaptation, r.Before.Coaptation; a != b {
		t.Errorf("coaptation %+v after, %+v before", a, b)
	}
	treated := band(c, 20)
	s := valve.NewSolver()
	var out [3][]byte
	for i, cs := range []casefile.Case{treated, c, treated} {
		r, err := s.Solve(cs, valve.Options{Circulation: true})
		if err != nil {
			t.Fatal(err)
		}
		out[i], _ = json.Marshal(r)
	}
	if !bytes.Equal(out[0], out[2]) {
		t.Error("the same case gives other bytes the second time")
	}
	plain, _ := json.Marshal(solve(t, c))
	if !bytes.Equal(out[1], plain) {
		t.Error("undoing the repair does not return exactly")
	}
}

// The mirrored patient gives the mirrored answer in the leaflets. The vein stays on its own side and holds the annulus
// a little there, and the ring's 128 points begin at one commissure: 0.1 mm and 1e-3 cm² of that. The exact mirror is
// tested in sim/ring and sim/closure.
func TestMirroredClip(t *testing.T) {
	c := load(t, "functional")
	c.Patient.Jet.Position = 0.2
	d := c.Clone()
	d.Patient.Jet.Position = -0.2
	a, b := solve(t, clip(c, 0.3)).After, solve(t, clip(d, -0.3)).After
	if x, y := a.Regurgitation.EffectiveOrificeCM2, b.Regurgitation.EffectiveOrificeCM2; math.Abs(float64(x-y)) > 1e-3 {
		t.Errorf("leak %v and %v", x, y)
	}
	if x, y := a.Coaptation.ContactMM.A1P1, b.Coaptation.ContactMM.A3P3; math.Abs(x-y) > 0.1 {
		t.Errorf("contact at A1-P1 %v, mirrored at A3-P3 %v", x, y)
	}
	if x, y := a.Opening.OrificesCM2[0], b.Opening.OrificesCM2[1]; math.Abs(float64(x-y)) > 5e-3 {
		t.Errorf("orifices %v and %v", a.Opening.OrificesCM2, b.Opening.OrificesCM2)
	}
}

// Warm and cold answers agree within the stated tolerance.
func TestWarmAndColdAgree(t *testing.T) {
	c := load(t, "functional", repair.SinusBand, repair.EdgeClip)
	s := valve.NewSolver()
	for _, mm := range []float64{5, 12, 20, 18, 3} {
		c.Repairs[0] = c.Repairs[0].With("shortening_mm", mm)
		warm, err := s.Solve(c, valve.Options{Circulation: true, Warm: true})
		if err != nil {
			t.Fatal(err)
		}
		cold := solve(t, c)
		if d := math.Abs(warm.After.Annulus.SeptalLateralMM - cold.After.Annulus.SeptalLateralMM); d > valve.ToleranceMM {
			t.Errorf("%v mm: septal-lateral warm and cold differ by %g mm", mm, d)
		}
		if d := math.Abs(float64(warm.After.Regurgitation.EffectiveOrificeCM2 - cold.After.Regurgitation.EffectiveOrificeCM2)); d > 2e-4 {
			t.Errorf("%v mm: leak warm and cold differ by %g cm²", mm, d)
		}
	}
}

// No quantity of any built-in case with any repair is anything but a finite number, and every definition is complete.
func TestEveryRepairOnEveryPatientIsFinite(t *testing.T) {
	t.Parallel()
	for i, name := range assets.CaseNames() {
		if raceDetector && i != 1 { // some ten times slower
			continue
		}
		for _, spec := range repair.Specs() {
			r := solve(t, load(t, name, spec.Kind))
			for _, c := range r.Changes() {
				if math.IsInf(c.Before, 0) || math.IsInf(c.After, 0) {
					t.Errorf("%s with %s: %s is %v → %v", name, spec.Kind, c.Quantity.Path, c.Before, c.After)
				}
			}
			if _, err := json.Marshal(r); err != nil {
				t.Errorf("%s with %s: %v", name, spec.Kind, err)
			}
		}
	}
	for _, q := range valve.Quantities() {
		if q.Label == "" || q.Meaning == "" || q.Phase == "" || q.Of == nil {
			t.Errorf("%s: incomplete definition", q.Path)
		}
	}
}

// A patient that cannot be fitted fails every time, and leaves the solver good for the next one.
func TestFailureLeavesNoTrace(t *testing.T) {
	bad := load(t, "functional")
	bad.Patient.Heart.EndDiastolicML, bad.Patient.Heart.EndSystolicML = 400, 15
	s := valve.NewSolver()
	for range 2 {
		if _, err := s.Solve(bad, valve.Options{Circulation: true}); err == nil {
			t.Fatal("a heart with an impossible stroke is solved")
		}
	}
	good := load(t, "functional")
	r, err := s.Solve(good, valve.Options{Circulation: true})
	if err != nil {
		t.Fatal(err)
	}
	if want := solve(t, good); want.Before.Annulus != r.Before.Annulus || want.Before.Coaptation != r.Before.Coaptation {
		t.Error("a failure before changes the answer after")
	}
}

package closure

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func clipAt(pos float64) []Clip { return []Clip{{Position: pos, WidthMM: 5, ReachMM: 8, Hold: 1}} }

// The trend table of the sections sheet beside this model's numbers; asserted are the directions and the shares left by a
// clip at the jet ("about 13 %") and away from it ("94 %").
func TestTrends(t *testing.T) {
	sheet := map[float64][3]float64{40: {.692, .132, .556}, 39: {.530, .083, .447}, 38: {.398, .054, .354}, 37: {.300, .036, .281},
		36: {.238, .024, .227}, 35: {.188, .015, .182}, 34: {.149, .008, .144}, 33: {.113, .003, .110}, 32: {.084, .001, .082},
		31: {.061, 0, .059}, 30: {.043, 0, .042}}
	f, rep := Fit(testInput(37, 0), functional)
	t.Logf("fit %+v", rep)
	var w, w0, w5, w2 Workspace
	var r, r0, r5, r2 Result
	var last Result
	for ap := 40.0; ap >= 30; ap-- {
		in := testInput(ap, 0)
		w.Solve(f, in, nil, &r)
		w0.Solve(f, in, clipAt(0), &r0)
		w5.Solve(f, in, clipAt(0.5), &r5)
		w2.Solve(f, in, append(clipAt(0.15), clipAt(-0.15)...), &r2)
		s := sheet[ap]
		t.Logf("AP %g: orifice %.3f (sheet %.3f), clip at jet %.3f (%.3f), at 0.5 %.3f (%.3f), two %.3f; contact %.2f mm, depth %.2f, tenting %.2f cm² %.2f mL",
			ap, r.EffectiveOrifice, s[0], r0.EffectiveOrifice, s[1], r5.EffectiveOrifice, s[2], r2.EffectiveOrifice,
			r.Contact.Mean, r.DepthMM, r.TentingAreaCM2, r.TentingVolumeML)
		for _, x := range []*Result{&r, &r0, &r5, &r2} {
			if x.Status != Converged {
				t.Errorf("AP %g: %v", ap, x.Status)
			}
		}
		if ap < 40 && !(r.EffectiveOrifice < last.EffectiveOrifice && r.Contact.Mean > last.Contact.Mean) {
			t.Errorf("AP %g: leak must fall and contact rise with a smaller annulus", ap)
		}
		if !(r2.EffectiveOrifice <= r0.EffectiveOrifice && r0.EffectiveOrifice < r5.EffectiveOrifice && r5.EffectiveOrifice <= r.EffectiveOrifice) {
			t.Errorf("AP %g: two clips ≤ one at the jet < one away ≤ none violated", ap)
		}
		if ap == 37 {
			share, away := r0.EffectiveOrifice/r.EffectiveOrifice, r5.EffectiveOrifice/r.EffectiveOrifice
			if share < 0.05 || share > 0.30 || away < 0.85 || away > 1 {
				t.Errorf("clip leaves %.0f %% at the jet (sheet 13), %.0f %% away (sheet 94)", 100*share, 100*away)
			}
			t.Logf("clip force %.2f N (sheet 1.1); annulus %+.2f anterior, %+.2f posterior N (sheet +0.38, −0.52)",
				r0.Clips[0].ForceN, r0.AnnulusClip.Total[0].X, r0.AnnulusClip.Total[1].X)
			if !(r0.AnnulusClip.Total[0].X > 0 && r0.AnnulusClip.Total[1].X < 0) {
				t.Error("a clip must pull both sides of the annulus inward")
			}
			near(t, "arc position of the pull", r0.AnnulusClip.Position[0], 0, 1e-6)
		}
		last.EffectiveOrifice, last.Contact = r.EffectiveOrifice, r.Contact
	}
}

// The pull on the annulus acts where the clip is.
func TestPullPosition(t *testing.T) {
	for _, pos := range []float64{-0.5, 0.3, 0.5} {
		at := functional
		at.JetPosition = pos
		f, _ := Fit(testInput(37, 0), at)
		r := Solve(f, testInput(37, 0), clipAt(pos))
		for k := range r.AnnulusClip.Total {
			near(t, "position of the pull", r.AnnulusClip.Position[k], pos, 0.06)
			near(t, "against the baseline", r.Annulus.Total[k].X, r.AnnulusClip.Total[k].X, 1e-6)
			if r.AnnulusClip.Total[k].X*side[k] < 0.3 {
				t.Errorf("pull %g N", r.AnnulusClip.Total[k].X)
			}
		}
	}
}

// A clip without hold, out of reach by far, or on one leaflet changes no bit of the answer.
func TestClipWithoutEffect(t *testing.T) {
	f, _ := Fit(testInput(37, 0), functional)
	in := testInput(38, 0)
	bare := Solve(f, in, nil)
	for _, c := range []Clip{
		{WidthMM: 5, ReachMM: 8, Hold: 0},
		{WidthMM: 5, ReachMM: 8, Hold: 1, Grasp: HoldsAnterior},
		{WidthMM: 5, ReachMM: 8, Hold: 1, Grasp: HoldsPosterior},
	} {
		r := Solve(f, in, []Clip{c})
		for i := range bare.OverlapMM {
			if r.OverlapMM[i] != bare.OverlapMM[i] || r.GapMM[i] != bare.GapMM[i] || r.ContactMM[i] != bare.ContactMM[i] {
				t.Fatalf("%+v: station %d differs", c, i)
			}
		}
		if r.EffectiveOrifice != bare.EffectiveOrifice || r.TentingVolumeML != bare.TentingVolumeML || r.Clips[0].ForceN != 0 {
			t.Errorf("%+v: not the same bits", c)
		}
		if c.Grasp != HoldsBoth {
			held := r.Clips[0].HeldMM
			if !r.Clips[0].Detached || held[c.Grasp-HoldsAnterior] <= 0 || held[1-(c.Grasp-HoldsAnterior)] != 0 {
				t.Errorf("single-leaflet detachment reported as %+v", r.Clips[0])
			}
		}
	}
	// Reach against the gap: no effect far below it, the whole effect well above, falling in between (sections sheet).
	var last = math.Inf(1)
	for _, reach := range []float64{0.5, 1, 2, 3, 3.5, 4, 4.5, 5, 6, 8} {
		r := Solve(f, in, []Clip{{WidthMM: 5, ReachMM: reach, Hold: 1}})
		c := r.Clips[0]
		t.Logf("gap %.2f reach %.1f: grip %.3f held %.1f mm poor %v, %.0f %% of the leak remains", c.GapBeforeMM, reach, c.Grip,
			c.HeldMM[0], c.PoorGrip, 100*r.EffectiveOrifice/bare.EffectiveOrifice)
		o := float64(r.EffectiveOrifice)
		if o > last+1e-9 {
			t.Errorf("reach %g: more leak than with less reach", reach)
		}
		if reach < c.GapBeforeMM-2.5 && math.Abs(o-float64(bare.EffectiveOrifice)) > 1e-3 {
			t.Errorf("reach %g does not grasp a gap of %g but changes the leak", reach, c.GapBeforeMM)
		}
		if c.Grasped != (c.Grip > 0.5) || reach < c.GapBeforeMM && !c.PoorGrip {
			t.Errorf("findings %+v", c)
		}
		last = o
	}
}

// Clip position moved by 0.01 causes no jump (issue 2; sections sheet: largest step 0.0064 cm²), nor does the annulus.
func TestSmooth(t *testing.T) {
	f, _ := Fit(testInput(37, 0), functional)
	in := testInput(37, 0)
	var w Workspace
	var r Result
	var worst, last, lastForce float64
	for i := 0; i <= 200; i++ {
		w.Solve(f, in, clipAt(-1+float64(i)/100), &r)
		o := float64(r.EffectiveOrifice)
		if i > 0 {
			worst = math.Max(worst, math.Abs(o-last))
			if d := math.Abs(r.Clips[0].ForceN - lastForce); d > 0.08 {
				t.Errorf("clip force steps by %g N at %d", d, i)
			}
		}
		last, lastForce = o, r.Clips[0].ForceN
	}
	t.Logf("largest step over 0.01 of clip position: %.4f cm²", worst)
	if worst > 0.0075 {
		t.Errorf("step %.4f cm²", worst)
	}
	var w2 Workspace
	var prev Result
	for ap := 30.0; ap < 42; ap += 0.05 {
		w2.Solve(f, testInput(ap, 0), nil, &r)
		if prev.S != nil && (r.EffectiveOrifice <= prev.EffectiveOrifice || r.Contact.Mean >= prev.Contact.Mean ||
			r.EffectiveOrifice-prev.EffectiveOrifice > 0.015) {
			t.Fatalf("AP %.2f: orifice %g after %g, contact %g after %g", ap, r.EffectiveOrifice, prev.EffectiveOrifice, r.Contact.Mean, prev.Contact.Mean)
		}
		prev = Result{S: r.S, EffectiveOrifice: r.EffectiveOrifice, Contact: r.Contact}
	}
}

// The gap grows from zero at a bond over a length that follows from the margin's tension.
func TestGapGrowsFromBond(t *testing.T) {
	in := testInput(39, 121)
	f, rep := Fit(testInput(37, 121), functional)
	bare, r := Solve(f, in, nil), Solve(f, in, clipAt(0))
	half := in.Line.LengthMM() / 2
	last := 0.0
	for i := range r.S {
		x := r.S[i] * half
		if x < 0 || bare.GapMM[i] < bare.Gap.Max/2 { // farther out the gap ends by itself
			continue
		}
		share := r.GapMM[i] / bare.GapMM[i]
		if i%4 == 0 {
			t.Logf("%.1f mm from the clip: gap %.2f of %.2f mm", x, r.GapMM[i], bare.GapMM[i])
		}
		if share < last-1e-9 {
			t.Errorf("gap share falls from %.3f to %.3f at %.1f mm", last, share, x)
		}
		if x < 1 && share > 0.05 {
			t.Errorf("open by %.0f %% in the bond", 100*share)
		}
		last = share
	}
	if last < 0.2 {
		t.Errorf("beside the clip (coupling length %.1f mm) only %.0f %% of the gap is back", rep.CouplingLengthMM, 100*last)
	}
}

// A mirrored input has the mirrored answer.
func TestMirror(t *testing.T) {
	build := func(sign float64, ap float64) *Input {
		in := testInput(ap, 0)
		pap := DefaultPapillary()
		a, b := PapillaryShift{ApicalMM: 3, LateralMM: 2}, PapillaryShift{PosteriorMM: 1}
		pap.Shifts = [2]PapillaryShift{a, b}
		if sign < 0 {
			pap.Shifts = [2]PapillaryShift{b, a}
		}
		ring := testAnnulus(ap)
		for i := range ring {
			ring[i].Z += 0.05 * sign * ring[i].X
			ring[i].Y *= 1 + 0.004*sign*ring[i].X
		}
		BuildLine(&in.Line, ring, &pap, 0)
		in.State.Faults = []ChordFault{{Leaflet: Posterior, Position: 0.4 * sign, WidthMM: 12, ElongationMM: 4}}
		in.State.Calcifications = []Calcification{{Leaflet: Anterior, Position: -0.3 * sign, WidthMM: 8, Severity: 0.6}}
		return in
	}
	solve := func(sign float64) *Result {
		f, _ := Fit(build(sign, 36), Targets{DepthMM: 8, ContactMM: 2, EffectiveOrifice: 0.3, JetPosition: 0.3 * sign})
		return Solve(f, build(sign, 37), clipAt(0.2*sign))
	}
	a, b := solve(1), solve(-1)
	n := len(a.S)
	for i := range a.S {
		near(t, "overlap", a.OverlapMM[i], b.OverlapMM[n-1-i], 1e-6)
		near(t, "gap", a.GapMM[i], b.GapMM[n-1-i], 1e-6)
	}
	near(t, "orifice", float64(a.EffectiveOrifice), float64(b.EffectiveOrifice), 1e-7)
	near(t, "jet", a.JetPosition, -b.JetPosition, 1e-6)
	near(t, "A1P1", a.Contact.A1P1, b.Contact.A3P3, 1e-6)
}

// Grid study: 31, 61 and 121 stations (Richardson value and order where the sequence is monotone).
func TestStations(t *testing.T) {
	var o [3]float64
	for _, c := range []struct {
		name  string
		clips []Clip
	}{{"no clip", nil}, {"clip at jet", clipAt(0)}, {"clip at 0.3", clipAt(0.3)}} {
		for j, n := range []int{31, 61, 121} {
			f, _ := Fit(testInput(37, n), functional)
			o[j] = float64(Solve(f, testInput(35, n), c.clips).EffectiveOrifice)
		}
		order := "not in the asymptotic range"
		if q := (o[0] - o[1]) / (o[1] - o[2]); q > 1 {
			order = fmt.Sprintf("order %.2f", math.Log2(q))
		}
		t.Logf("%s: %.5f %.5f %.5f cm², %s", c.name, o[0], o[1], o[2], order)
		if math.Abs(o[1]-o[2]) > 0.02*o[2]+0.002 {
			t.Errorf("%s: 61 and 121 stations differ by %.4f cm²", c.name, o[1]-o[2])
		}
	}
}

// Warm and cold agree; a warm solve does not allocate.
func TestWarmEqualsCold(t *testing.T) {
	f, _ := Fit(testInput(37, 0), functional)
	var w Workspace
	w.Interval = true
	var warm Result
	clips := clipAt(0.1)
	ins := []*Input{testInput(39, 0), testInput(31, 0), testInput(35, 0)}
	for _, in := range ins {
		w.Solve(f, in, clips, &warm)
		cold := Solve(f, in, clips)
		for i := range warm.OverlapMM {
			near(t, "overlap", warm.OverlapMM[i], cold.OverlapMM[i], 1e-7)
		}
	}
	i := 0
	if n := testing.AllocsPerRun(6, func() { w.Solve(f, ins[i%3], clips, &warm); i++ }); n != 0 {
		t.Errorf("%v allocations in a warm solve", n)
	}
}

// Curves: annulus to tip, continuous, meeting at the closed junction; the tip hangs by the overlap.
func TestCurves(t *testing.T) {
	f, _ := Fit(testInput(30, 0), Targets{DepthMM: 5, ContactMM: 4})
	in := testInput(31, 0)
	var w Workspace
	var r Result
	w.Solve(f, in, nil, &r)
	var a, b [CurvePoints]Point
	var v [CurvePoints]r3.Vec
	for i, st := range in.Line.Stations {
		w.Curve(i, Anterior, a[:])
		w.Curve(i, Posterior, b[:])
		w.Curve3(&in.Line, i, Posterior, v[:])
		if a[0] != st.Annulus[0] || math.Hypot(a[CurvePoints-2].X-b[CurvePoints-2].X, a[CurvePoints-2].Z-b[CurvePoints-2].Z) > 0.1 {
			t.Fatalf("station %d: curves do not run from the annulus to a common junction", i)
		}
		for j := range v {
			if v[j] != (r3.Vec{X: st.XMM, Y: -b[j].X, Z: b[j].Z}) {
				t.Fatal("3D curve")
			}
		}
		end := CurvePoints - 1
		if got := math.Hypot(b[end].X-b[end-1].X, b[end].Z-b[end-1].Z); got < r.OverlapMM[i] || got > r.OverlapMM[i]+1 {
			t.Errorf("station %d: tail %.2f mm, overlap %.2f", i, got, r.OverlapMM[i])
		}
	}
}

// BuildLine on an ellipse: each section's width is the ellipse's chord.
func TestBuildLine(t *testing.T) {
	in := testInput(34, 0)
	near(t, "length", in.Line.LengthMM(), 40*CommissureLimit, 1e-9)
	for _, st := range in.Line.Stations {
		want := 34 * math.Sqrt(1-CommissureLimit*CommissureLimit*st.S*st.S)
		near(t, "width", st.Annulus[1].X-st.Annulus[0].X, want, 0.02*want)
		near(t, "x", st.XMM, st.S*20*CommissureLimit, 1e-9)
		if st.Annulus[0].X > 0 { // anterior is towards the aorta: negative lateral
			t.Error("leaflets swapped")
		}
	}
}

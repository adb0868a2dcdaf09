package leaflet

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// solved solves cold on the given mesh and insists on convergence without crossing.
func solved(t *testing.T, columns, rows int, in Input) *Result {
	t.Helper()
	s := New(columns, rows)
	st, err := s.Solve(in)
	if err != nil {
		t.Fatal(err)
	}
	r := s.Result()
	if st != Converged || r.Crossings != 0 {
		t.Fatalf("%v after %d iterations, %d crossings", st, r.Iterations, r.Crossings)
	}
	return r
}

// At rest the annulus and the tips carry exactly the pressure: Σ annulus force = pressure resultant − chord pulls.
func TestForceBalance(t *testing.T) {
	in := standard(30)
	r := solved(t, DragColumns, DragRows, in)
	var annulus, load r3.Vec
	for _, f := range r.AnnulusForceN {
		annulus = r3.Add(annulus, f)
	}
	for _, v := range r.Triangles {
		a, b, c := r.X[v[0]], r.X[v[1]], r.X[v[2]]
		load = r3.Add(load, r3.Scale(in.PressureNMM2/2, r3.Cross(r3.Sub(b, a), r3.Sub(c, a))))
	}
	want := r3.Sub(load, r3.Add(r.PapillaryForceN[0], r.PapillaryForceN[1]))
	if d := r3.Norm(r3.Sub(annulus, want)); d > 0.02*r3.Norm(load) {
		t.Errorf("annulus carries %v N, pressure less chords %v N", annulus, want)
	}
	// The load along the axis is the pressure on the area of the annulus seen from the atrium (closed valve), as the
	// slit between the margins has almost no area: p·π·a·b = 0.016·π·15·19 = 14.3 N.
	if want := in.PressureNMM2 * math.Pi * 15 * 19; math.Abs(load.Z/want-1) > 0.08 {
		t.Errorf("axial load %g N, pressure on the annulus %g N", load.Z, want)
	}
	// anatomy.md section 3, M09: peak marginal chord 0.1-0.35 N in vivo (porcine). Our mean per chord must not be above.
	sum := 0.0
	for g := GroupA1; g <= GroupP3; g++ {
		sum += r.ChordLoadN[g]
	}
	if mean := sum / marginalChords; mean < 0.02 || mean > 0.35 {
		t.Errorf("mean marginal chord load %g N, want 0.02 to 0.35", mean)
	}
}

// A papillary tip displaced on one side and the same on the other give mirrored valves.
func TestMirror(t *testing.T) {
	left, right := standard(32), standard(32)
	left.Tips[Anterolateral] = r3.Add(left.Tips[Anterolateral], r3.Vec{X: -2, Y: -3, Z: -2})
	right.Tips[Posteromedial] = r3.Add(right.Tips[Posteromedial], r3.Vec{X: 2, Y: -3, Z: -2})
	a, b := solved(t, DragColumns, DragRows, left), solved(t, DragColumns, DragRows, right)
	if math.Abs(a.ContactA1P1MM-a.ContactA3P3MM) < 0.2 {
		t.Errorf("one displaced tip leaves both sides alike: %g and %g mm", a.ContactA1P1MM, a.ContactA3P3MM)
	}
	for _, p := range [][2]float64{{a.ContactA1P1MM, b.ContactA3P3MM}, {a.ContactA2P2MM, b.ContactA2P2MM}, {a.ContactA3P3MM, b.ContactA1P1MM}, {a.DepthMM, b.DepthMM}} {
		if math.Abs(p[0]-p[1]) > 0.05 {
			t.Errorf("mirrored valves differ: %g and %g mm", p[0], p[1])
		}
	}
}

// Cinching from 32 to 26 mm and back, warm, against cold solves: the same valve within 0.05 mm.
func TestUpDownColdAgree(t *testing.T) {
	s := New(DragColumns, DragRows)
	if st, err := s.Solve(standard(26)); err != nil || st != Converged {
		t.Fatal(st, err)
	}
	seen := map[float64][]Result{}
	step := func(sl float64) {
		if st, err := s.Solve(standard(sl)); err != nil || st != Converged {
			t.Fatal(sl, st, err)
		}
		seen[sl] = append(seen[sl], *s.Result())
	}
	for _, sl := range []float64{27, 28, 29, 30, 31, 32, 31, 30, 29, 28, 27} {
		step(sl)
	}
	for _, sl := range []float64{28, 30} {
		c := solved(t, DragColumns, DragRows, standard(sl))
		for _, w := range seen[sl] {
			if math.Abs(w.ContactA2P2MM-c.ContactA2P2MM) > 0.05 || math.Abs(w.DepthMM-c.DepthMM) > 0.05 || math.Abs(w.ContactMeanMM-c.ContactMeanMM) > 0.1 {
				t.Errorf("septal-lateral %g mm: warm contact %.3f (A2P2 %.3f) depth %.3f, cold %.3f (%.3f) %.3f mm",
					sl, w.ContactMeanMM, w.ContactA2P2MM, w.DepthMM, c.ContactMeanMM, c.ContactA2P2MM, c.DepthMM)
			}
		}
	}
	// Cinching restores contact and raises the coaptation (sections.md: 0.65-0.75 mm of contact per mm).
	if a, b := seen[32][0].ContactA2P2MM, seen[28][0].ContactA2P2MM; b-a < 1.5 || b-a > 4.5 {
		t.Errorf("contact rises by %g mm over 4 mm of cinching", b-a)
	}
	if seen[32][0].DepthMM <= seen[28][0].DepthMM {
		t.Error("a wider annulus does not tent more")
	}
}

// One central bond keeps 0.5 to 0.7 of the opening (physics.md A3, S2: 6.0 → 3.6 cm², ratio band 0.4-0.7), in two
// orifices; two bonds keep less (A4: n bonds). Mid-diastolic difference 4 mmHg, inside the E-wave gradients of C2. On the
// shown mesh; 2 mmHg gives 0.47 (72×12: 0.45 and 0.52): the ratio is sensitive (shell.md lists to what).
func TestBondedOpening(t *testing.T) {
	open := solved(t, ShownColumns, ShownRows, opened(28, 4)).OpenMM2
	r := solved(t, ShownColumns, ShownRows, opened(28, 4, Bond{S: 0, WidthMM: 5, ReachMM: 6, Hold: 1}))
	t.Logf("open %.0f mm², one bond %.0f mm² (%.2f), tension %.2f N", open, r.OpenMM2, r.OpenMM2/open, r.BondTensionN[0])
	if len(r.Orifices) != 2 || r.Orifices[0].SFrom > r.Orifices[1].SFrom {
		t.Fatalf("%d orifices with a central bond, want 2, anterolateral first", len(r.Orifices))
	}
	if a, b := r.Orifices[0].AreaMM2, r.Orifices[1].AreaMM2; math.Abs(a/b-1) > 0.05 {
		t.Errorf("orifices of a central bond: %g and %g mm²", a, b)
	}
	if ratio := r.OpenMM2 / open; ratio < 0.5 || ratio > 0.7 {
		t.Errorf("one bond keeps %g of the opening, want 0.5 to 0.7", ratio)
	}
	one := r.OpenMM2
	two := solved(t, ShownColumns, ShownRows, opened(28, 4, Bond{S: -0.3, WidthMM: 5, ReachMM: 6, Hold: 1}, Bond{S: 0.3, WidthMM: 5, ReachMM: 6, Hold: 1}))
	if two.OpenMM2 >= one {
		t.Errorf("two bonds leave %g mm², one %g mm²", two.OpenMM2, one)
	}
	// The opening stays inside the normal planimetric range of physics.md (B2: normal 4-5 cm²; A3: up to 7.6).
	if open < 400 || open > 760 {
		t.Errorf("intact opening %g mm²", open)
	}
}

// Cut P2 chords: a flail whose gap grows with the width; a bond on it closes it, a bond off it (the cut ends at
// s = ±0.6) does not.
func TestFlail(t *testing.T) {
	in := standard(36)
	cut := func(width float64, bonds ...Bond) *Result {
		in.Chords = []ChordChange{{Leaflet: Posterior, S: 0, WidthMM: width, Ruptured: true}}
		in.Bonds = bonds
		return solved(t, DragColumns, DragRows, in)
	}
	a := *cut(20)
	b := *cut(28)
	c := *cut(28, Bond{S: 0, WidthMM: 5, ReachMM: 6, Hold: 1})
	d := *cut(28, Bond{S: 0.85, WidthMM: 5, ReachMM: 6, Hold: 1})
	t.Logf("slot: cut 20 mm %.1f, 28 mm %.1f; 28 mm bonded at the jet %.1f, at the side %.1f mm²; seen from the atrium %.1f",
		a.SlotMM2, b.SlotMM2, c.SlotMM2, d.SlotMM2, b.ProjectedGapMM2)
	if !(b.SlotMM2 > a.SlotMM2+10 && b.GapMaxMM > a.GapMaxMM) {
		t.Errorf("a wider cut: slot %g → %g mm², gap %g → %g mm", a.SlotMM2, b.SlotMM2, a.GapMaxMM, b.GapMaxMM)
	}
	if c.SlotMM2 > 0.3*b.SlotMM2 {
		t.Errorf("a bond on the flail leaves %g of %g mm²", c.SlotMM2, b.SlotMM2)
	}
	if d.SlotMM2 < 0.5*b.SlotMM2 {
		t.Errorf("a bond off the flail leaves only %g of %g mm²", d.SlotMM2, b.SlotMM2)
	}
	if b.ProjectedGapMM2 > b.SlotMM2 {
		t.Errorf("the flail shows %g mm² from the atrium, more than its slot %g mm²", b.ProjectedGapMM2, b.SlotMM2)
	}
}

// Papillary muscles pulled down and out tent the valve and take contact away (functional regurgitation).
func TestTethering(t *testing.T) {
	plain := *solved(t, DragColumns, DragRows, standard(34))
	in := standard(34)
	for i := range in.Tips {
		in.Tips[i] = r3.Add(in.Tips[i], r3.Vec{X: math.Copysign(2, in.Tips[i].X), Y: -2, Z: -3})
	}
	r := solved(t, DragColumns, DragRows, in)
	if !(r.DepthMM > plain.DepthMM+0.5 && r.TentingAreaMM2 > plain.TentingAreaMM2 && r.ContactMeanMM < plain.ContactMeanMM) {
		t.Errorf("tethering: depth %g → %g mm, area %g → %g mm², contact %g → %g mm", plain.DepthMM, r.DepthMM,
			plain.TentingAreaMM2, r.TentingAreaMM2, plain.ContactMeanMM, r.ContactMeanMM)
	}
}

// The same input gives the same bits, however the work is sliced.
func TestSlicedWorkIsTheSame(t *testing.T) {
	a, b := New(DragColumns, DragRows), New(DragColumns, DragRows)
	if st, err := a.Solve(standard(30)); err != nil || st != Converged {
		t.Fatal(st, err)
	}
	if err := b.Set(standard(30)); err != nil {
		t.Fatal(err)
	}
	calls := 0
	for b.Step(3) == Running {
		calls++
		if calls == 4 {
			b.Result() // a picture on the way must not change the outcome
		}
	}
	if calls < 5 {
		t.Errorf("only %d slices of 3 iterations", calls)
	}
	if !slices.Equal(a.Result().X, b.Result().X) {
		t.Error("sliced work ends elsewhere")
	}
}

func TestNoAllocationWhenWarm(t *testing.T) {
	s := New(DragColumns, DragRows)
	ins := []Input{standard(28), standard(29)}
	for range 3 {
		for _, in := range ins {
			if st, err := s.Solve(in); err != nil || st != Converged {
				t.Fatal(st, err)
			}
			s.Result()
		}
	}
	k := 0
	if n := testing.AllocsPerRun(4, func() {
		s.Set(ins[k%2])
		s.Step(100)
		s.Result()
		k++
	}); n > 0 {
		t.Errorf("%v allocations per warm solve", n)
	}
}

func TestBadInputIsNamed(t *testing.T) {
	in := standard(28)
	in.AnteriorMM = math.NaN()
	in.Bonds = []Bond{{S: 2, WidthMM: 5, ReachMM: 6, Hold: 1}}
	in.Annulus = in.Annulus[:100]
	err := New(DragColumns, DragRows).Set(in)
	if err == nil {
		t.Fatal("accepted")
	}
	for _, want := range []string{"AnteriorMM is NaN", "Bonds[0].S is 2", "Annulus has 100 points"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the error does not say %q: %v", want, err)
		}
	}
}

// Numbers settle as the mesh is refined (shell.md: 72×12 to 128×21 within 5 % there).
func TestMeshes(t *testing.T) {
	coarse := *solved(t, 72, 12, standard(32))
	fine := *solved(t, 112, 18, standard(32))
	for _, c := range []struct {
		name string
		a, b float64
	}{{"contact at A2P2", coarse.ContactA2P2MM, fine.ContactA2P2MM}, {"mean contact", coarse.ContactMeanMM, fine.ContactMeanMM}, {"depth", coarse.DepthMM, fine.DepthMM}} {
		t.Logf("%s: %.3f mm on 72×12, %.3f mm on 112×18", c.name, c.a, c.b)
		if math.Abs(c.a/c.b-1) > 0.05 {
			t.Errorf("%s: %g mm on 72×12, %g mm on 112×18", c.name, c.a, c.b)
		}
	}
}

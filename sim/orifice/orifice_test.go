package orifice_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"annuloscope/sim/hydraulic"
	"annuloscope/sim/orifice"
	"annuloscope/sim/units"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, tol)
	}
}

func solve(t *testing.T, in orifice.Input) orifice.Result {
	t.Helper()
	r, err := orifice.Solve(in)
	if err != nil {
		t.Fatalf("%+v: %v", in, err)
	}
	return r
}

// valve is the anatomy of the leaflet shell (shell.md "Rest shape"): commissures 38 mm, margin 108 mm, intact 471 mm².
func valve(bonds ...orifice.Bond) orifice.Input {
	return orifice.Input{CommissuralMM: 38, SeptalLateralMM: 28, MarginMM: 108, Intact: 4.71, Bonds: bonds}
}

// marginLimited is a valve whose excursion limit is so far away (intact within 1e-8 of all the margin encloses) that
// only the margin governs.
func marginLimited(chord, perimeter float64, bonds ...orifice.Bond) orifice.Input {
	most := orifice.MarginLimitMM2(chord, perimeter/2)
	return orifice.Input{CommissuralMM: chord, SeptalLateralMM: 28, MarginMM: perimeter,
		Intact: units.AnatomicCM2(most / 100 * (1 - 1e-8)), Bonds: bonds}
}

// physics.md A4, "Circular limit", "Off-centre", "n bonds": the margin-limited ratios.
func TestCircularLimit(t *testing.T) {
	widths := []float64{0, 4, 5, 6, 8, 10}
	for i, want := range []float64{0.5000, 0.4050, 0.3828, 0.3613, 0.3200, 0.2813} {
		in := marginLimited(20, 80, orifice.Bond{WidthMM: widths[i], Hold: 1})
		near(t, fmt.Sprintf("P 80, w %v", widths[i]), float64(solve(t, in).Total/in.Intact), want, 1e-4)
	}
	shares := []float64{0.5, 0.6, 2. / 3, 0.75}
	for i, want := range []float64{0.5000, 0.5200, 0.5556, 0.6250} {
		in := marginLimited(20, 80, orifice.Bond{Position: 2*shares[i] - 1, Hold: 1})
		near(t, fmt.Sprintf("split %v", shares[i]), float64(solve(t, in).Total/in.Intact), want, 1e-4)
	}
	// n bonds of 5 mm on P = 100 with equal free edges between them.
	for i, want := range []float64{0.4050, 0.2133, 0.1225} {
		n := i + 1
		free := (50 - 5*float64(n)) / float64(n+1)
		var bonds []orifice.Bond
		for k := range n {
			centre := free*float64(k+1) + 5*float64(k) + 2.5
			bonds = append(bonds, orifice.Bond{Position: centre/25 - 1, WidthMM: 5, Hold: 1})
		}
		in := marginLimited(20, 100, bonds...)
		r := solve(t, in)
		near(t, fmt.Sprintf("%d bonds", n), float64(r.Total/in.Intact), want, 1e-4)
		if len(r.Orifices) != n+1 {
			t.Errorf("%d bonds: %d orifices", n, len(r.Orifices))
		}
	}
}

// physics.md A4, "Lens" rows: chord 35, edge 40 mm.
func TestLensLimit(t *testing.T) {
	near(t, "before", orifice.MarginLimitMM2(35, 40), 402.75, 1e-4*402.75)
	widths := []float64{0, 3, 4, 5, 6, 8}
	for i, want := range []float64{201.37, 177.08, 169.21, 161.47, 153.84, 138.97} {
		w := widths[i]
		near(t, fmt.Sprint("halves, w ", w), 2*orifice.MarginLimitMM2((35-w)/2, (40-w)/2), want, 1e-3*want)
		r := solve(t, marginLimited(35, 80, orifice.Bond{WidthMM: w, Hold: 1}))
		near(t, fmt.Sprint("solved, w ", w), float64(r.Total)*100, want, 1e-3*want)
	}
}

// The lens joins the free circle with equal value and slope, and a taut margin encloses nothing.
func TestMarginLimitIsSmooth(t *testing.T) {
	const edge = 40.0
	at := 2 * edge / math.Pi
	h := 1e-4
	near(t, "value", orifice.MarginLimitMM2(at*(1+1e-12), edge), edge*edge/math.Pi, 1e-8)
	near(t, "slope", (orifice.MarginLimitMM2(at+h, edge)-orifice.MarginLimitMM2(at, edge))/h, 0, 2e-2)
	near(t, "taut", orifice.MarginLimitMM2(40, 40), 0, 0)
	near(t, "nearly taut", orifice.MarginLimitMM2(40, 40*(1+1e-12)), 0, 1e-2)
	// Small bow: edge = L(1+e) gives two segments of ⅔·L·sag each with sag = L·√(3e/8).
	near(t, "small bow", orifice.MarginLimitMM2(1, 1+1e-8), 4./3*math.Sqrt(3e-8/8), 1e-9)
}

// The leaflet shell (shell.md "Behaviour", a model): ratio after one central bond against width and margin length.
// HandOver was set on these same eight numbers, so this shows the quality of that fit; it validates nothing.
func TestAgainstLeafletShell(t *testing.T) {
	widths := []float64{2, 3.5, 5, 7}
	for i, want := range []float64{0.66, 0.62, 0.59, 0.53} {
		r := solve(t, valve(orifice.Bond{WidthMM: widths[i], Hold: 1}))
		t.Logf("width %.1f mm: here %.3f, shell %.2f", widths[i], float64(r.Total)/4.71, want)
		near(t, fmt.Sprint("width ", widths[i]), float64(r.Total)/4.71, want, 0.04)
	}
	margins := []float64{96, 101, 108, 111}
	for i, want := range []float64{0.48, 0.55, 0.59, 0.60} {
		in := valve(orifice.Bond{WidthMM: 5, Hold: 1})
		in.MarginMM = margins[i]
		r := solve(t, in)
		t.Logf("margin %.0f mm: here %.3f, shell %.2f", margins[i], float64(r.Total)/4.71, want)
		near(t, fmt.Sprint("margin ", margins[i]), float64(r.Total)/4.71, want, 0.04)
	}
}

// physics.md A3: 6.0 → 3.6 cm² (ratio 0.4–0.7) and the reading of A4 (0.5–0.7 with one central clip, less with two).
// Commissural distances and openings grow together (anatomy.md S01: 39 mm normal, 43 functional; openings 4–7 cm²
// from A3 and B2); margins as in the shell, 2.84 commissural distances; 5 mm bonds, two of them 6 mm apart or more.
// Outside that pairing the ratio leaves the band: 0.46 for 6 cm² in 34 mm, 0.73 for 4 cm² in 47 mm.
func TestPatientsKeepHalfToSevenTenths(t *testing.T) {
	for _, row := range [][2]float64{{35, 4}, {39, 4.5}, {39, 5.5}, {43, 5}, {43, 6}, {47, 6}, {47, 7}} {
		c, intact := row[0], row[1]
		in := orifice.Input{CommissuralMM: c, SeptalLateralMM: 32, MarginMM: 2.84 * c, Intact: units.AnatomicCM2(intact)}
		in.Bonds = []orifice.Bond{{WidthMM: 5, Hold: 1}}
		one := float64(solve(t, in).Total) / intact
		in.Bonds = []orifice.Bond{{Position: -0.15, WidthMM: 5, Hold: 1}, {Position: 0.15, WidthMM: 5, Hold: 1}}
		two := float64(solve(t, in).Total) / intact
		t.Logf("commissures %v mm, intact %v cm²: one %.3f, two %.3f", c, intact, one, two)
		if one < 0.5 || one > 0.7 {
			t.Errorf("commissures %v, intact %v: one clip keeps %.3f", c, intact, one)
		}
		if two >= one-0.05 {
			t.Errorf("commissures %v, intact %v: two clips keep %.3f, one %.3f", c, intact, two, one)
		}
	}
}

// Picture and number agree, orifices are ordered, outlines are simple (upper above lower) and no longer than the
// margin they are drawn from; the sum is the total; fractions scale.
func TestOutlinesMeasureTheirArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		in := randomValve(rng)
		r := solve(t, in)
		sum, last := 0.0, -math.MaxFloat64
		for _, o := range r.Orifices {
			near(t, "planimetry", float64(orifice.PlanimetryCM2(o.Outline)), float64(o.Area), 1e-6)
			sum += float64(o.Area)
			if o.FromMM < last-1e-9 || o.ToMM <= o.FromMM {
				t.Fatalf("order: %v after %v in %+v", o.FromMM, last, in)
			}
			last = o.ToMM
			if o.ToMM > in.CommissuralMM/2+1e-9 || o.FromMM < -in.CommissuralMM/2-1e-9 {
				t.Fatalf("outline leaves the line: %+v", in)
			}
		}
		near(t, "sum", sum, float64(r.Total), 1e-12)
		near(t, "effective", float64(r.Effective), sum*hydraulic.Contraction, 1e-12)
		for _, f := range []float64{-1, 0, 0.3, 1, 2} {
			for i, o := range r.At(f) {
				want := math.Max(0, math.Min(1, f)) * float64(r.Orifices[i].Area)
				near(t, "fraction area", float64(o.Area), want, 1e-12)
				near(t, "fraction planimetry", float64(orifice.PlanimetryCM2(o.Outline)), want, 1e-6)
			}
		}
	}
}

func randomValve(rng *rand.Rand) orifice.Input {
	u := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	in := orifice.Input{CommissuralMM: u(28, 50), SeptalLateralMM: u(22, 45)}
	in.MarginMM = in.CommissuralMM * u(2.2, 3.4)
	in.Intact = units.AnatomicCM2(orifice.MarginLimitMM2(in.CommissuralMM, in.MarginMM/2) / 100 * u(0.2, 0.95))
	for range rng.IntN(orifice.MaxBonds + 1) {
		hold := 1.0
		if rng.IntN(3) == 0 {
			hold = rng.Float64()
		}
		in.Bonds = append(in.Bonds, orifice.Bond{Position: u(-1, 1), WidthMM: u(0, 12), Hold: hold})
	}
	return in
}

// Properties over random valves (seed 3, 4): one more bond, more hold or more width never raises the area;
// lengths ×1.25 give areas ×1.5625; mirrored bonds give the mirrored list.
func TestProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	t.Logf("%d cases, seed 3, 4", randomCases)
	for range randomCases {
		in := randomValve(rng)
		r := solve(t, in)
		if math.IsNaN(float64(r.Total)) || r.Total < 0 || r.Total > in.Intact*(1+1e-12) {
			t.Fatalf("area %v of intact %v: %+v", r.Total, in.Intact, in)
		}
		if len(in.Bonds) < orifice.MaxBonds {
			more := in
			more.Bonds = append(append([]orifice.Bond{}, in.Bonds...),
				orifice.Bond{Position: 2*rng.Float64() - 1, WidthMM: 8 * rng.Float64(), Hold: rng.Float64()})
			if m := solve(t, more); m.Total > r.Total*(1+1e-12) {
				t.Fatalf("one more bond raises %v to %v: %+v", r.Total, m.Total, more)
			}
		}
		for i := range in.Bonds {
			firm := in
			firm.Bonds = append([]orifice.Bond{}, in.Bonds...)
			firm.Bonds[i].Hold = math.Min(1, firm.Bonds[i].Hold+0.1)
			firm.Bonds[i].WidthMM += 0.5
			if m := solve(t, firm); m.Total > r.Total*(1+1e-12) {
				t.Fatalf("more hold and width raise %v to %v: %+v", r.Total, m.Total, firm)
			}
		}
		big, mirror := in, in
		big.CommissuralMM, big.SeptalLateralMM, big.MarginMM, big.Intact = in.CommissuralMM*1.25, in.SeptalLateralMM*1.25, in.MarginMM*1.25, in.Intact*1.5625
		big.Bonds, mirror.Bonds = nil, nil
		for _, b := range in.Bonds {
			big.Bonds = append(big.Bonds, orifice.Bond{Position: b.Position, WidthMM: b.WidthMM * 1.25, Hold: b.Hold})
			mirror.Bonds = append(mirror.Bonds, orifice.Bond{Position: -b.Position, WidthMM: b.WidthMM, Hold: b.Hold})
		}
		near(t, "scaled", float64(solve(t, big).Total), 1.5625*float64(r.Total), 1e-10)
		m := solve(t, mirror)
		if len(m.Orifices) != len(r.Orifices) {
			t.Fatalf("mirror: %d orifices of %d: %+v", len(m.Orifices), len(r.Orifices), in)
		}
		for i, o := range r.Orifices {
			near(t, "mirror", float64(m.Orifices[len(m.Orifices)-1-i].Area), float64(o.Area), 1e-9)
		}
	}
}

// Sweeps without a jump: position by 0.01 (alone, and past another bond), width, hold. The bound on the largest step is
// what the steepest smooth change gives: the area moved by a step of 0.01 half-lines is at most 0.01·19 mm times twice
// the largest height, 16 mm, that is 0.06 cm².
func TestContinuity(t *testing.T) {
	largest := func(at func(u float64) orifice.Input, n int) float64 {
		worst, last := 0.0, math.NaN()
		for i := range n + 1 {
			a := float64(solve(t, at(float64(i)/float64(n))).Total)
			if i > 0 {
				worst = math.Max(worst, math.Abs(a-last))
			}
			last = a
		}
		return worst
	}
	sweeps := map[string]func(u float64) orifice.Input{
		"alone": func(u float64) orifice.Input { return valve(orifice.Bond{Position: 2*u - 1, WidthMM: 5, Hold: 1}) },
		"past another": func(u float64) orifice.Input {
			return valve(orifice.Bond{Position: 0.1, WidthMM: 5, Hold: 1}, orifice.Bond{Position: 2*u - 1, WidthMM: 4, Hold: 0.8})
		},
		"width": func(u float64) orifice.Input { return valve(orifice.Bond{Position: 0.2, WidthMM: 20 * u, Hold: 1}) },
		"hold":  func(u float64) orifice.Input { return valve(orifice.Bond{Position: 0.2, WidthMM: 5, Hold: u}) },
	}
	for name, at := range sweeps {
		coarse, fine := largest(at, 200), largest(at, 3200)
		t.Logf("%s: largest step %.4f cm² at 1/200, %.5f at 1/3200", name, coarse, fine)
		if coarse > 0.06 {
			t.Errorf("%s: jump of %v cm² in a step of 1/200", name, coarse)
		}
		if fine > coarse/4 { // a jump would not shrink; a square-root end shrinks by 4, a smooth curve by 16
			t.Errorf("%s: step shrinks only from %v to %v with 16 times finer steps", name, coarse, fine)
		}
	}
	free, none := solve(t, valve()), solve(t, valve(orifice.Bond{WidthMM: 5}))
	if free.Total != none.Total || len(none.Orifices) != 1 || len(none.Bonds) != 0 {
		t.Errorf("a bond without hold changes %v to %v", free.Total, none.Total)
	}
	near(t, "intact", float64(free.Total), 4.71, 1e-12)
}

// physics.md A1, A2: two equal, two unequal, one: the gradient sees the effective sum and the flow only, and the flow
// of each orifice is its share of the area. Off-centre bonds give unequal orifices.
func TestGradientSeesTheSum(t *testing.T) {
	central := solve(t, valve(orifice.Bond{WidthMM: 5, Hold: 1}))
	near(t, "equal halves", float64(central.Orifices[0].Area), float64(central.Orifices[1].Area), 1e-12)
	off := solve(t, valve(orifice.Bond{Position: 0.4, WidthMM: 5, Hold: 1}))
	if ratio := off.Orifices[0].Area / off.Orifices[1].Area; ratio < 1.5 {
		t.Errorf("off-centre ratio %v", ratio)
	}
	const flow = 250.0
	for _, r := range []orifice.Result{central, off} {
		dp := hydraulic.Gradient(r.Effective, flow)
		sum := 0.0
		for _, o := range r.Orifices {
			q := hydraulic.Flow(o.Area.Effective(r.Contraction), dp)
			near(t, "share of flow", q/flow, float64(o.Area/r.Total), 1e-9)
			sum += q
		}
		near(t, "flow", sum, flow, 1e-9)
	}
}

// Drawn outlines need no more free edge than the stretch has, for the shell's proportions.
func TestOutlineFitsItsMargin(t *testing.T) {
	for _, p := range []float64{-0.6, -0.3, 0, 0.5} {
		r := solve(t, valve(orifice.Bond{Position: p, WidthMM: 5, Hold: 1}))
		edges := []float64{108*(1+p)/2 - 5, 108*(1-p)/2 - 5}
		for i, o := range r.Orifices {
			perimeter := 0.0
			for k, a := range o.Outline {
				b := o.Outline[(k+1)%len(o.Outline)]
				perimeter += math.Hypot(b.X-a.X, b.Y-a.Y)
			}
			if perimeter > edges[i] {
				t.Errorf("bond at %v: outline %d is %.1f mm round, its margin %.1f", p, i, perimeter, edges[i])
			}
		}
	}
}

// Statics of the bond: half of the two spans and the own width, at 4 mmHg on a 7 mm deep strip.
func TestBondTension(t *testing.T) {
	r := solve(t, valve(orifice.Bond{WidthMM: 5, Hold: 1}))
	want := 4 * 133.322e-6 * 7 * ((38-5)/2. + 5)
	near(t, "tension", r.BondTension(4)[0], want, 1e-12)
	near(t, "no pressure", r.BondTension(0)[0], 0, 0)
	two := solve(t, valve(orifice.Bond{Position: -0.3, WidthMM: 5, Hold: 1}, orifice.Bond{Position: 0.3, WidthMM: 5, Hold: 1}))
	if f := two.BondTension(4); !(f[0] < want) || math.Abs(f[0]-f[1]) > 1e-12 {
		t.Errorf("two bonds share the pull: %v, one carried %v", f, want)
	}
}

func TestBadInput(t *testing.T) {
	bad := map[string]func(*orifice.Input){
		"NaN":      func(in *orifice.Input) { in.CommissuralMM = math.NaN() },
		"margin":   func(in *orifice.Input) { in.MarginMM = 70 },
		"intact":   func(in *orifice.Input) { in.Intact = 12 },
		"position": func(in *orifice.Input) { in.Bonds = []orifice.Bond{{Position: 1.2, Hold: 1}} },
		"hold":     func(in *orifice.Input) { in.Bonds = []orifice.Bond{{Hold: 2}} },
		"count":    func(in *orifice.Input) { in.Bonds = make([]orifice.Bond, 4) },
	}
	for name, spoil := range bad {
		in := valve()
		spoil(&in)
		if _, err := orifice.Solve(in); !errors.Is(err, orifice.ErrInput) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	all := solve(t, valve(orifice.Bond{WidthMM: 60, Hold: 1}))
	if len(all.Orifices) != 0 || all.Total != 0 {
		t.Errorf("a bond over the whole line leaves %v", all.Total)
	}
}

func TestOpeningFraction(t *testing.T) {
	r := solve(t, valve())
	near(t, "half", r.OpeningFraction(10*float64(r.Effective)), 0.5, 1e-9)
	near(t, "backward", r.OpeningFraction(-50), 0, 0)
	if f := r.OpeningFraction(300); f < 0.99 {
		t.Errorf("at 300 mL/s only %v open", f)
	}
}

func BenchmarkSolveTwoBonds(b *testing.B) {
	in := valve(orifice.Bond{Position: -0.2, WidthMM: 5, Hold: 0.9}, orifice.Bond{Position: 0.2, WidthMM: 5, Hold: 1})
	for b.Loop() {
		if _, err := orifice.Solve(in); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleSolve() {
	r, _ := orifice.Solve(orifice.Input{CommissuralMM: 40, SeptalLateralMM: 32, MarginMM: 114, Intact: 5.2,
		Bonds: []orifice.Bond{{Position: 0.2, WidthMM: 5, Hold: 1}}})
	for _, o := range r.Orifices {
		fmt.Printf("%.2f cm²\n", float64(o.Area))
	}
	fmt.Printf("together %.2f cm², effective %.2f cm²\n", float64(r.Total), float64(r.Effective))
	// Output:
	// 2.19 cm²
	// 1.00 cm²
	// together 3.19 cm², effective 2.55 cm²
}

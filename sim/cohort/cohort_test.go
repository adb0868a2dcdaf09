package cohort

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// The draws before rejection have the mean, spread and correlation of their source (constants.go), within five standard
// errors of 4000 draws.
func TestMarginalsAreTheSources(t *testing.T) {
	const n = 4000
	for g := range groups {
		s := newSampler(Only(g))
		values := map[string][]float64{}
		for i := range n {
			p := s.draw(source(11, i), g)
			for _, m := range s.marginals {
				if q, ok := anatomy.Find(m.Path); ok {
					values[m.Path] = append(values[m.Path], *q.At(&p))
				}
			}
		}
		checked := 0
		for _, m := range s.marginals {
			x, ok := values[m.Path]
			if !ok || m.SD[g] == 0 {
				continue
			}
			checked++
			var mm moment
			for _, v := range x {
				mm.add(v)
			}
			sd := math.Sqrt(mm.m2 / (n - 1))
			if d := math.Abs(mm.mean - m.Mean[g]); d > 5*m.SD[g]/math.Sqrt(n) {
				t.Errorf("%s %s: mean %.4g, source %.4g", g, m.Path, mm.mean, m.Mean[g])
			}
			allowed := 0.06 // five standard errors of a normal spread: 5/√(2n)
			if m.Log {
				allowed = 0.2 // heavy tail
			}
			if math.Abs(sd/m.SD[g]-1) > allowed {
				t.Errorf("%s %s: spread %.4g, source %.4g", g, m.Path, sd, m.SD[g])
			}
		}
		if checked < 20 {
			t.Errorf("%s: only %d marginals checked", g, checked)
		}
		for _, r := range Correlations() {
			rho, low, high := Spearman(values[r.A], values[r.B])
			if r.Rho[g] == 0 || math.IsNaN(rho) {
				continue
			}
			want := 6 / math.Pi * math.Asin(r.Rho[g]/2) // rank correlation of a normal pair, exact
			if slack := high - low; math.Abs(rho-want) > 1.5*slack {
				t.Errorf("%s %s and %s: rank correlation %.3f, wanted %.3f", g, r.A, r.B, rho, want)
			}
		}
	}
}

// The ratio of the diameters in the normal group, which is not drawn itself: 0.70 ± 0.06 (anatomy.md S01, the
// commissural diameter there being the other one of 39 mm). Area against body surface: r = 0.78 (S04).
func TestDerivedCorrelationsGiveThePublishedFigures(t *testing.T) {
	s := newSampler(Only(Normal))
	var ratio moment
	var area, surface []float64
	for i := range 4000 {
		p := s.draw(source(3, i), Normal)
		ratio.add(p.Annulus.SeptalLateralMM / p.Annulus.CommissuralMM)
		area = append(area, p.Annulus.SeptalLateralMM*p.Annulus.CommissuralMM)
		surface = append(surface, p.BodySurfaceM2)
	}
	if sd := math.Sqrt(ratio.m2 / float64(ratio.n-1)); math.Abs(ratio.mean-0.70) > 0.03 || math.Abs(sd-0.06) > 0.01 {
		t.Errorf("ratio %.3f ± %.3f, published 0.70 ± 0.06", ratio.mean, sd)
	}
	if rho, _, _ := Spearman(area, surface); math.Abs(6/math.Pi*math.Asin(0.78/2)-rho) > 0.05 {
		t.Errorf("area against body surface: rank correlation %.3f", rho)
	}
}

func TestFrequenciesAreTheSources(t *testing.T) {
	const n = 6000
	s := newSampler(EqualMix())
	seen := make([]float64, len(s.often))
	for i := range n {
		r := source(5, i)
		p := s.draw(r, s.group(r))
		for k, yes := range map[int]bool{archedCourse: p.Sinus.ArchMM > 0, marginalCrossed: p.Artery.MarginalMM > 0,
			diagonalCrossed: p.Artery.DiagonalMM > 0, leftDominant: p.Dominance == anatomy.LeftDominant,
			balancedDominant: p.Dominance == anatomy.BalancedDominant} {
			if yes {
				seen[k]++
			}
		}
	}
	for k, f := range s.often {
		if k == arteryDeep {
			continue // a late crossing leaves no deep stretch either, so it cannot be counted from a patient
		}
		if got := seen[k] / n; math.Abs(got-f.Share) > 5*math.Sqrt(f.Share*(1-f.Share)/n) {
			t.Errorf("%s: %.3f, source %.3f", f.Name, got, f.Share)
		}
	}
}

// A patient depends on seed and index only: not on what its worker did before, nor on the number of patients.
func TestPatientDependsOnSeedAndIndexOnly(t *testing.T) {
	plan := Plan{Seed: 7, Mix: EqualMix(), Repairs: []repair.Step{repair.Must(repair.SinusBand)}}
	a, b := NewWorker(plan), NewWorker(plan)
	rows := [2][][]string{}
	for _, i := range []int{0, 1, 2, 3, 4, 5} {
		m, err := a.Member(i)
		if err != nil {
			t.Fatal(err)
		}
		rows[0] = append(rows[0], m.Row())
	}
	for _, i := range []int{5, 4, 3, 2, 1, 0} {
		m, err := b.Member(i)
		if err != nil {
			t.Fatal(err)
		}
		rows[1] = append([][]string{m.Row()}, rows[1]...)
	}
	if !reflect.DeepEqual(rows[0], rows[1]) {
		t.Error("the order of solving changes a row")
	}
	if len(rows[0][0]) != len(Header()) {
		t.Errorf("%d columns under %d headings", len(rows[0][0]), len(Header()))
	}
	plan.Seed = 8
	if m, err := NewWorker(plan).Member(0); err != nil || slices.Equal(m.Row(), rows[0][0]) {
		t.Error("another seed gives the same patient")
	}
}

// A case handed out by a member is valid by itself and gives the same state again: a dot can be opened.
func TestMemberCanBeOpened(t *testing.T) {
	w := NewWorker(Plan{Seed: 2, Mix: Only(Functional), Repairs: []repair.Step{repair.Must(repair.SinusBand)}})
	for i := range 4 {
		m, err := w.Member(i)
		if err != nil {
			t.Fatal(err)
		}
		again, err := NewWorker(Plan{Mix: EqualMix()}).solver.Solve(m.Case, valve.Options{})
		if m.Solved && (err != nil || !reflect.DeepEqual(again.After.Annulus, m.After.Annulus)) {
			t.Errorf("patient %d: another answer when opened: %v", i, err)
		}
	}
}

// Anchors beyond the vein leave a patient unfit, with the state before and without numbers after.
func TestNoPlaceIsUnfit(t *testing.T) {
	far := repair.Must(repair.SinusBand).With("distal_mm", 150).With("shortening_mm", 5)
	w := NewWorker(Plan{Seed: 1, Mix: Only(Normal), Repairs: []repair.Step{far}})
	s := NewSummary(w.drawer.plan)
	for i := range 5 {
		m, err := w.Member(i)
		if err != nil {
			t.Fatal(err)
		}
		if m.Case.Patient.Sinus.LengthMM < 150 && (m.Fits || m.Solved || m.Unfit != "sinus-band.distal_mm: beyond the end of the vein") {
			t.Errorf("vein of %.0f mm takes an anchor at 150 mm (%q)", m.Case.Patient.Sinus.LengthMM, m.Unfit)
		}
		s.Add(&m)
	}
	if s.ByGroup[Normal].Fits == 5 || s.Text() == "" {
		t.Error("all fit")
	}
}

// A patient whose solve did not converge is counted once and changes no share.
func TestNotConvergedIsLeftOut(t *testing.T) {
	w := NewWorker(Plan{Seed: 1, Mix: Only(Functional)})
	s := NewSummary(w.drawer.plan)
	for i := range 2 {
		m, err := w.Member(i)
		if err != nil {
			t.Fatal(err)
		}
		if i == 1 {
			m.Failure = "made up"
			if row := m.Row(); row[len(row)-2] != "not converged: made up" {
				t.Errorf("status %q", row[len(row)-2])
			}
		}
		s.Add(&m)
	}
	if p := s.ByGroup[Functional]; s.N != 2 || s.NotConverged != 1 || p.N != 1 || p.Fits != 1 {
		t.Errorf("%d in all, %d not converged, %d counted", s.N, s.NotConverged, p.N)
	}
}

func TestSpearman(t *testing.T) {
	x := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	y := make([]float64, len(x))
	for i := range y {
		y[i] = math.Exp(x[i])
	}
	if rho, _, _ := Spearman(x, y); math.Abs(rho-1) > 1e-12 {
		t.Errorf("a rising function: %v", rho)
	}
	// 1 − 6Σd²/(n(n²−1)) without ties: swapping neighbours gives Σd² = 10, ρ = 1 − 60/990.
	z := []float64{2, 1, 4, 3, 6, 5, 8, 7, 10, 9}
	rho, low, high := Spearman(x, z)
	if math.Abs(rho-(1-60.0/990)) > 1e-12 || !(low < rho && rho < high) {
		t.Errorf("ρ = %v (%v to %v)", rho, low, high)
	}
	if got := ranks([]float64{5, 1, 5, 2}); !slices.Equal(got, []float64{3.5, 1, 3.5, 2}) {
		t.Errorf("ties: %v", got)
	}
}

// Artery compression by its two definitions: what an angiogram shows is never more than what the risk rule counts, and
// a part of what the rule counts keeps its shape.
func TestCompressionByTwoDefinitions(t *testing.T) {
	s := NewSummary(Plan{Repairs: []repair.Step{repair.Must(repair.SinusBand)}})
	for i, c := range []struct {
		narrowed float64
		risk     string
	}{{3, "low"}, {24.9, "low"}, {10, "possible"}, {25, "possible"}, {80, "likely"}} {
		m := Member{Index: i, Group: Functional, Fits: true, Solved: true}
		m.After.Artery.WorstViewNarrowing, m.After.Artery.Risk = c.narrowed, c.risk
		s.Add(&m)
	}
	p := s.ByGroup[Functional]
	if p.Narrowed != 2 || p.Risk != 3 || p.Likely != 1 {
		t.Errorf("narrowed %d, risk %d, likely %d; want 2, 3, 1", p.Narrowed, p.Risk, p.Likely)
	}
	g := s.Gaps()
	if len(g) != 3 || g[1].Model != 0.4 || g[2].Model != 0.6 {
		t.Errorf("gaps %+v", g)
	}
}

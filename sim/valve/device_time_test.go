package valve

import (
	"math"
	"reflect"
	"testing"

	"annuloscope/sim/repair"
)

// A delayed band: nothing at first, everything at the end, half at the half-time; leak and diameter fall all the way, and
// an artery spared at placement may be pressed later (late compression).
func TestFollowUp(t *testing.T) {
	c := caseOf(t, "deep-artery", repair.Must(repair.SinusBand).With("delay_days", 42).With("radial_n_per_mm", 0))
	days := []float64{0, 14, 28, 42, 70, 120, 365}
	rows, err := FollowUp(c, days, Options{Warm: true})
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range rows {
		t.Logf("%+v", r)
		if r.Status != converged {
			t.Errorf("day %g: %s", r.Day, r.Status)
		}
		if i > 0 && (r.SeptalLateralMM > rows[i-1].SeptalLateralMM+1e-6 || r.OrificeCM2 > rows[i-1].OrificeCM2+1e-6 || r.NarrowingPct < rows[i-1].NarrowingPct-1e-6) {
			t.Errorf("day %g: not further than day %g", r.Day, days[i-1])
		}
	}
	if rows[0].ShorteningMM != 0 || math.Abs(rows[3].Share-0.5) > 1e-4 || rows[6].Share < 0.999 {
		t.Errorf("shares %g, %g, %g; want 0, 0.5, 1", rows[0].Share, rows[3].Share, rows[6].Share)
	}
	if day, late := LateCompression(rows); !late || day <= 0 {
		t.Errorf("late compression: day %g, %v", day, late)
	}
	if _, late := LateCompression(rows[:1]); late {
		t.Error("late compression on the day of placement")
	}
	// The last day is the immediate band.
	whole, err := Solve(caseOf(t, "deep-artery", repair.Must(repair.SinusBand).With("radial_n_per_mm", 0)), Options{})
	if err != nil || math.Abs(whole.After.Annulus.SeptalLateralMM-rows[6].SeptalLateralMM) > 0.01 {
		t.Errorf("at the end %g mm, at once %g mm (%v)", rows[6].SeptalLateralMM, whole.After.Annulus.SeptalLateralMM, err)
	}
	for _, bad := range [][]float64{{0, 0}, {14, 7}, {-1}, {400}} {
		if _, err := FollowUp(c, bad, Options{}); err == nil {
			t.Errorf("days %v accepted", bad)
		}
	}
	if _, err := FollowUp(caseOf(t, "functional"), days, Options{}); err == nil {
		t.Error("followed a band that is not there")
	}
}

// Rods on trial: both sides are the two cases solved on their own, and withdrawing them returns the case before them
// exactly, cold to the bit and warm in the same solver.
func TestTrialOfRods(t *testing.T) {
	before := caseOf(t, "deep-artery")
	c := caseOf(t, "deep-artery", repair.Must(repair.SinusRods).With("trial", 1))
	r, err := Solve(c, Options{Attribution: true})
	if err != nil || r.Trial == nil {
		t.Fatal(err, r.Trial)
	}
	plain, err := Solve(before, Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Log(r.Trial)
	if r.Trial.Without != trialState(&plain.After) || r.Trial.With != trialState(&r.After) || r.Trial.With.OrificeCM2 >= r.Trial.Without.OrificeCM2 {
		t.Errorf("%+v", r.Trial)
	}
	withdrawn, err := Solve(Withdraw(c), Options{})
	if err != nil || !reflect.DeepEqual(withdrawn, plain) {
		t.Error("withdrawing does not return the case before the rods", err)
	}
	if kept, err := Solve(Keep(c), Options{Attribution: true}); err != nil || kept.Trial != nil || !reflect.DeepEqual(kept.After, r.After) {
		t.Error("keeping changes the state, or leaves it on trial", err)
	}
	s := NewSolver()
	first, err := s.Solve(before, Options{Warm: true})
	if err == nil {
		_, err = s.Solve(c, Options{Warm: true})
	}
	again, err2 := s.Solve(Withdraw(c), Options{Warm: true})
	if err != nil || err2 != nil || !reflect.DeepEqual(first.After, again.After) {
		t.Error("withdrawing leaves a trace in a warm solver", err, err2)
	}
	if len(c.Repairs) != 1 || c.Repairs[0].Value("trial") != 1 {
		t.Error("Keep or Withdraw changed their argument")
	}
}

// Issue 3: an anchor short of the crossing spares the artery and costs cover: at equal tension and at equal percentage the
// shortest band does less to the annulus, and less to the artery, than the longest. (Between them neither need rise at every
// step: see the log.)
func TestAnchorTrade(t *testing.T) {
	c := caseOf(t, "deep-artery", repair.Must(repair.SinusBand).With("distal_mm", 96).With("radial_n_per_mm", 0))
	all := TradeStations(c)
	rows, err := AnchorTrade(c, all[:len(all):len(all)], Options{Warm: true})
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range rows {
		t.Logf("far anchor %g (%+g past the crossing): equal tension −%.2f mm, artery %.0f %%; equal percentage −%.2f mm, artery %.0f %%, %.2f N",
			r.DistalMM, r.BeyondMM, r.EqualTension.SeptalLateralMM, r.EqualTension.NarrowingPct, r.EqualPercent.SeptalLateralMM, r.EqualPercent.NarrowingPct, r.EqualPercent.TensionN)
		if r.EqualTension.Status != converged || r.EqualPercent.Status != converged {
			t.Errorf("%g mm: %s, %s", r.DistalMM, r.EqualTension.Status, r.EqualPercent.Status)
		}
		if i > 0 && math.Abs(r.EqualTension.TensionN-rows[0].EqualTension.TensionN) > 1e-6 {
			t.Errorf("%g mm: tension %g N, not %g", r.DistalMM, r.EqualTension.TensionN, rows[0].EqualTension.TensionN)
		}
	}
	first, last := rows[0], rows[len(rows)-1]
	if !(first.EqualTension.SeptalLateralMM < last.EqualTension.SeptalLateralMM) || !(first.EqualTension.NarrowingPct < last.EqualTension.NarrowingPct) ||
		!(first.EqualPercent.SeptalLateralMM < last.EqualPercent.SeptalLateralMM) || !(first.EqualPercent.NarrowingPct < last.EqualPercent.NarrowingPct) {
		t.Errorf("no trade: %+v to %+v", first, last)
	}
	own, err := Solve(c, Options{})
	if err != nil || math.Abs(own.After.Sinus.TensionN-rows[0].EqualTension.TensionN) > 1e-6 {
		t.Errorf("held at %g N, the case's band pulls with %g N", rows[0].EqualTension.TensionN, own.After.Sinus.TensionN)
	}
	if _, err := AnchorTrade(c, []float64{15}, Options{Warm: true}); err == nil {
		t.Error("anchors 3 mm apart accepted")
	}
	if _, err := AnchorTrade(caseOf(t, "functional"), all, Options{Warm: true}); err == nil {
		t.Error("traded an anchor that is not there")
	}
}

package valve

import (
	"math"
	"testing"

	"annuloscope/sim/repair"
)

// The shell takes the sections' place under the same keys: it starts from their baseline, predicts the same fall of the
// leak under a band within the share below, and shows its surfaces.
func TestShellStartsFromTheSectionsBaseline(t *testing.T) {
	t.Parallel()
	c := caseOf(t, "functional")
	c.Repairs = append(c.Repairs, repair.Must(repair.SinusBand))
	s := NewSolver()
	r, err := s.Solve(c, Options{})
	if err != nil {
		t.Fatal(err)
	}
	sections := r
	if !s.Settle(&r, Options{Coarse: true}, nil) {
		t.Fatal("called off by nobody")
	}
	if r.Provenance.Engine != ShellEngine || r.Engines == nil || r.Engines.Status != "settled" || !r.Provenance.Converged {
		t.Fatalf("engine %q, %+v, %s", r.Provenance.Engine, r.Engines, r.Provenance.Status)
	}
	// Baseline first: what was measured is given back (mm, cm²).
	b := r.Before
	for _, q := range []struct {
		name           string
		got, want, tol float64
	}{
		{"contact", b.Coaptation.ContactMM.Mean, 2.0, 0.02}, {"depth", b.Coaptation.DepthMM, 9.5, 0.02},
		{"orifice", float64(b.Regurgitation.EffectiveOrificeCM2), 0.32, 0.003}, {"opening", float64(b.Opening.AnatomicAreaCM2), 5.6, 0.06},
	} {
		if math.Abs(q.got-q.want) > q.tol {
			t.Errorf("%s before: %.3f, measured %.3f, tolerance %.3f", q.name, q.got, q.want, q.tol)
		}
	}
	for _, d := range r.Engines.After {
		t.Logf("%s: sections %.3f, shell %.3f", d.Path, d.Sections, d.Shell)
		if d.Less != d.Shell-d.Sections {
			t.Errorf("%s: difference %g", d.Path, d.Less)
		}
	}
	// Cinching: less leak, more contact, less depth, by both engines.
	if f := float64(r.After.Regurgitation.EffectiveOrificeCM2); f > 0.8*float64(b.Regurgitation.EffectiveOrificeCM2) {
		t.Errorf("the band leaves %.3f of %.3f cm²", f, b.Regurgitation.EffectiveOrificeCM2)
	}
	if r.After.Coaptation.ContactMM.Mean <= b.Coaptation.ContactMM.Mean || r.After.Coaptation.DepthMM >= b.Coaptation.DepthMM {
		t.Error("the band neither restores contact nor raises the coaptation")
	}
	if sections.After.Annulus != r.After.Annulus {
		t.Error("without clips the shell must leave the ring alone")
	}
	sh := r.Scene.After.Shell
	if sh == nil || sh.Closed.Empty() || sh.Open.Empty() || len(sh.Closed.Points) != sh.Closed.Rows*sh.Closed.Columns {
		t.Fatal("no surfaces")
	}
}

// Called off, Settle leaves the report as it was.
func TestShellCanBeCalledOff(t *testing.T) {
	s := NewSolver()
	r, err := s.Solve(caseOf(t, "normal"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	asked := 0
	if s.Settle(&r, Options{Coarse: true}, func() bool { asked++; return asked < 5 }) {
		t.Fatal("not called off")
	}
	if asked != 5 || r.Engines != nil || r.Provenance.Engine != SectionsEngine {
		t.Errorf("asked %d times, engine %s", asked, r.Provenance.Engine)
	}
}

// Torn chords that were not there in the baseline open a slot in the shell and leak by both engines.
func TestShellShowsAFlail(t *testing.T) {
	t.Parallel()
	r, err := Solve(caseOf(t, "flail-p2"), Options{Engine: ShellEngine, Coarse: true})
	if err != nil {
		t.Fatal(err)
	}
	if r.Provenance.Engine != ShellEngine {
		t.Fatalf("%+v", r.Engines)
	}
	t.Logf("leak %.3f cm², slot %.0f mm², flail gap %.1f mm", r.Before.Regurgitation.EffectiveOrificeCM2, r.Engines.SlotMM2[0], r.Before.Coaptation.FlailGapMM)
	if r.Before.Regurgitation.EffectiveOrificeCM2 < 0.1 || r.Engines.SlotMM2[0] < 10 || r.Before.Coaptation.FlailGapMM < 1 {
		t.Error("torn chords neither leak nor part the leaflets")
	}
}

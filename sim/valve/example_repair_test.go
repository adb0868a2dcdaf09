package valve

import (
	"encoding/json"
	"testing"

	"annuloscope/assets"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/ring"
)

// tuck is a repair (DEVELOPERS.md, "A repair") as newPlan would map it: a fold sewn into the posterior annulus shortens
// it by a share. It asks the ring for what it does and touches nothing
// else; the solver does the rest.
func tuck(p *plan, percent float64) {
	p.posterior = &ring.PosteriorBand{DownsizingPercent: percent}
}

// after solves the functional patient with what ask puts into the plan.
func after(t *testing.T, ask func(p *plan)) State {
	t.Helper()
	data, err := assets.Cases.ReadFile("cases/functional.yaml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := casefile.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	s := NewSolver()
	if err := s.prepare(c.Patient, Options{}); err != nil {
		t.Fatal(err)
	}
	p := newPlan(nil)
	p.hasRepairs = true
	ask(&p)
	r := Report{Before: s.baseState, Scene: Scene{Before: s.baseShape}}
	if err := s.treat(&p, Options{}, &r); err != nil {
		t.Fatal(err)
	}
	return r.After
}

func bytesOf(t *testing.T, s State) string {
	t.Helper()
	data, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// The example repair: nothing at zero, more the stronger it is, and the same to the last bit as the repair of the table
// that asks the ring for the same.
func TestExampleRepair(t *testing.T) {
	none := after(t, func(*plan) {})
	if bytesOf(t, after(t, func(p *plan) { tuck(p, 0) })) != bytesOf(t, none) {
		t.Error("a repair of no strength changes the valve")
	}
	little, much := after(t, func(p *plan) { tuck(p, 5) }), after(t, func(p *plan) { tuck(p, 15) })
	if !(much.Annulus.SeptalLateralMM < little.Annulus.SeptalLateralMM && little.Annulus.SeptalLateralMM < none.Annulus.SeptalLateralMM) {
		t.Errorf("septal-lateral %.2f, %.2f, %.2f mm at 0, 5, 15 %%", none.Annulus.SeptalLateralMM, little.Annulus.SeptalLateralMM, much.Annulus.SeptalLateralMM)
	}
	listed := after(t, func(p *plan) {
		*p = newPlan([]repair.Step{repair.Must(repair.PosteriorBand).With("downsizing_pct", 15)})
	})
	if bytesOf(t, listed) != bytesOf(t, much) {
		t.Error("the same request to the ring gives two answers")
	}
}

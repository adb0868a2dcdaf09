package valve_test

import (
	"math"
	"testing"

	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// roundness is a whole measure (DEVELOPERS.md, "A measure"). One entry like this in quantity_tables.go puts a number into
// the glossary, the schema, the comparison, the tooltips and the tables; Of reads it from the solved state and computes
// no physics.
var roundness = valve.Quantity{
	Path: "annulus.roundness", Label: "Roundness of the annulus", Unit: "%", Decimals: 0, Better: valve.Neutral,
	Meaning: "Septal-lateral over commissural diameter", Phase: "mid-systole", Formula: "100 × septal-lateral ÷ commissural diameter",
	Limits: "a round annulus has 100 %", Source: "common practice, no source",
	Of: func(s *valve.State) float64 { return 100 * s.Annulus.SeptalLateralMM / s.Annulus.CommissuralMM },
}

// The example measure is complete, finite for every built-in patient, and moves as it should.
func TestExampleQuantity(t *testing.T) {
	for _, text := range []string{roundness.Path, roundness.Label, roundness.Unit, roundness.Meaning, roundness.Phase, roundness.Formula, roundness.Source} {
		if text == "" {
			t.Error("an incomplete definition")
		}
	}
	r, err := valve.Solve(load(t, "functional", repair.SinusBand), valve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	before, after := roundness.Of(&r.Before), roundness.Of(&r.After)
	// The functional patient measures 36 by 43 mm (assets/cases/functional.yaml).
	if math.Abs(before-100*36.0/43) > 0.01 || !(after < before) {
		t.Errorf("%.2f %% before the band, %.2f %% after", before, after)
	}
}

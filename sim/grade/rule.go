package grade

import (
	"fmt"
	"math"

	"annuloscope/sim/units"
)

// State is how a value stands to a rule.
type State int

// The states. Within10 means missed by at most a tenth of the limit.
const (
	NotApplicable State = iota
	NotKnown
	Met
	Within10
	Outside
)

var stateNames = [...]string{"not applicable", "not measured", "met", "within 10 %", "outside"}

// String returns the state in words.
func (s State) String() string { return stateNames[s] }

// Finding is a value against a rule.
type Finding struct {
	Name   string
	Value  float64 // NaN when not measured
	Unit   string
	Rule   string
	State  State
	Source string
}

// bound is a rule with one limit.
type bound struct {
	name, unit, source string
	limit              float64
	atLeast, strict    bool // value ≥ limit or ≤ limit; strict excludes the limit itself
}

func (b bound) words() string {
	sign := map[[2]bool]string{{true, false}: "at least", {true, true}: "above", {false, false}: "at most", {false, true}: "below"}
	return fmt.Sprintf("%s %g %s", sign[[2]bool{b.atLeast, b.strict}], b.limit, b.unit)
}

func (b bound) find(v float64, applies bool) Finding {
	f := Finding{Name: b.name, Value: v, Unit: b.unit, Rule: b.words(), Source: b.source}
	miss := v - b.limit
	if b.atLeast {
		miss = -miss
	}
	switch {
	case !applies:
		f.State = NotApplicable
	case math.IsNaN(v):
		f.State = NotKnown
	case miss < 0 || miss <= solved*math.Abs(b.limit) && !b.strict:
		f.State = Met
	case miss <= 0.1*math.Abs(b.limit)*(1+1e-12):
		f.State = Within10
	default:
		f.State = Outside
	}
	return f
}

// solved is the relative error that a solved value may have and still lie on a limit that it was fitted to.
const solved = 1e-6

// AfterRepairInput is the state after an edge repair.
type AfterRepairInput struct {
	Area             units.EffectiveCM2
	MeanGradientMMHg float64
}

// AfterRepair compares an opening after edge repair with published flags (physics.md A3; later data conflict).
func AfterRepair(in AfterRepairInput) []Finding {
	success := "published definition of procedural success (physics.md A3, S7)"
	warning := "published warning threshold, later data conflict (physics.md A3, S12)"
	return []Finding{
		bound{"effective opening", "cm²", success, 1.5, true, false}.find(float64(in.Area), true),
		bound{"mean gradient", "mmHg", success, 5, false, true}.find(in.MeanGradientMMHg, true),
		bound{"mean gradient, echo warning", "mmHg", warning, 4.4, false, true}.find(in.MeanGradientMMHg, true),
	}
}

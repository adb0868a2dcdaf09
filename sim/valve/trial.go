package valve

import (
	"fmt"

	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

// Trial is what rods on trial do, told before anybody decides: leak and artery with them and without them, everything
// else in place. Rods are not fixed to the vein, so withdrawing them restores the state before them; a stitch or an anchor
// could not promise that.
type Trial struct {
	Device  string     `json:"device"`
	Without TrialState `json:"without"`
	With    TrialState `json:"with"`
}

// TrialState is one side of a trial.
type TrialState struct {
	SeptalLateralMM float64 `json:"septal_lateral_mm"`
	OrificeCM2      float64 `json:"effective_orifice_cm2"`
	LeakML          float64 `json:"leak_volume_ml"`
	NarrowingPct    float64 `json:"worst_view_narrowing_pct"`
	BranchPct       float64 `json:"branch_worst_view_narrowing_pct"`
	FlowReserve     float64 `json:"flow_reserve"`
	Risk            string  `json:"risk"`
}

func trialState(s *State) TrialState {
	return TrialState{s.Annulus.SeptalLateralMM, float64(s.Regurgitation.EffectiveOrificeCM2), s.Regurgitation.VolumeML, s.Artery.WorstViewNarrowing,
		s.Artery.BranchWorstNarrowing, s.Artery.FlowReserve, s.Artery.Risk}
}

// onTrial returns the index of rods on trial, −1 if there are none.
func onTrial(steps []repair.Step) int {
	for i, s := range steps {
		if s.Kind == repair.SinusRods && s.Value("trial") == 1 {
			return i
		}
	}
	return -1
}

// Keep returns the case with its rods kept: no longer on trial.
func Keep(c casefile.Case) casefile.Case {
	c = c.Clone()
	if i := onTrial(c.Repairs); i >= 0 {
		c.Repairs[i] = c.Repairs[i].With("trial", 0)
	}
	return c
}

// Withdraw returns the case without the rods on trial. Its answer is the one before they were placed, to the bit when
// solved cold.
func Withdraw(c casefile.Case) casefile.Case {
	c = c.Clone()
	if i := onTrial(c.Repairs); i >= 0 {
		c.Repairs = append(c.Repairs[:i:i], c.Repairs[i+1:]...)
	}
	return c
}

// trial solves the case without its rods, cold, and tells both sides; nil when no rods are on trial.
func trial(c casefile.Case, o Options, with *State) (*Trial, error) {
	if onTrial(c.Repairs) < 0 {
		return nil, nil
	}
	r, err := Solve(Withdraw(c), Options{Circulation: o.Circulation})
	if err != nil {
		return nil, err
	}
	return &Trial{Device: string(repair.SinusRods), Without: trialState(&r.After), With: trialState(with)}, nil
}

// String tells a trial in one sentence.
func (t *Trial) String() string {
	return fmt.Sprintf("The rods are on trial. Leak orifice %.2f cm² without them, %.2f with them; artery narrowed by %.0f %% without (risk %s), %.0f %% with (risk %s). Keep them (trial=0) or withdraw them (remove the step).",
		t.Without.OrificeCM2, t.With.OrificeCM2, t.Without.NarrowingPct, t.Without.Risk, t.With.NarrowingPct, t.With.Risk)
}

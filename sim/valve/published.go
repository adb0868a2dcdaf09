package valve

import (
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// PublishedEffect is one published effect of a device in the coronary sinus on the whole valve and what the model says in
// an invented patient. None of them is used in a fit.
type PublishedEffect struct {
	Name      string
	Unit      string
	Published float64
	SD        float64 // 0: none published
	Model     float64
	Source    string
	Note      string
	Engine    string // that closed the leaflets
}

// PublishedEffects predicts in a case that leaks, with its repairs taken away. The error is that of Solve, or a
// *fault.Field for a case without a leak. o chooses the engine of the leaflets and the tier.
func PublishedEffects(c casefile.Case, o Options) ([]PublishedEffect, error) {
	c = c.Clone()
	c.Repairs = []repair.Step{repair.Must(repair.SinusBand)}
	s := NewSolver()
	var falls []float64 // of the diameter, mm, by tension
	leak := func(r *Report) float64 {
		before := float64(r.Before.Regurgitation.EffectiveOrificeCM2)
		return 100 * (1 - float64(r.After.Regurgitation.EffectiveOrificeCM2)/before)
	}
	var cinch float64
	var cinchBy string
	for _, tension := range []float64{0.5, 1, 1.5, cinchN} {
		r, err := s.heldAt(c, tension, o)
		if err != nil {
			return nil, err
		}
		falls = append(falls, r.Before.Annulus.SeptalLateralMM-r.After.Annulus.SeptalLateralMM)
		cinch, cinchBy = leak(&r), r.Provenance.Engine
	}
	if s.baseState.Regurgitation.EffectiveOrificeCM2 < 0.01 {
		return nil, &fault.Field{Path: "measured.effective_orifice_cm2", Problem: "the valve is tight: no leak that could fall",
			Allowed: "a case that leaks", Fix: "choose another case, for example functional"}
	}
	step := 1.0
	for i := 1; i < len(falls); i++ {
		if falls[i] <= falls[i-1] {
			step = 0
		}
	}
	r, err := s.Solve(c, o)
	if err != nil {
		return nil, err
	}
	where := "in the invented patient " + c.Name
	return []PublishedEffect{
		{"sinus cinch at 2.1 N: fall of the leak", "%", 51.7, 16.2, cinch, "S45", "sheep heart on a pump; " + where + ", effective orifice, anchors that hold", cinchBy},
		{"two-anchor device: fall of the orifice", "%", 100 * (1 - 0.040/0.130), 0, leak(&r), "S84", "dogs, 0.130 to 0.040 cm²; " + where + ", 20 mm of shortening", r.Provenance.Engine},
		{"diameter falls step by step with tension (1 yes)", "", 1, 0, step, "S87", "loop through sinus and septum in pigs; direction only", r.Provenance.Engine},
	}, nil
}

// cinchN is the tension of S45.
const cinchN = 2.1

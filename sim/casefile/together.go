package casefile

import (
	"fmt"

	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// anchorsOnVein refuses a sinus device whose far end lies beyond the vein.
func (c Case) anchorsOnVein() error {
	for _, s := range c.Repairs {
		if s.Kind != repair.SinusBand && s.Kind != repair.SinusRods {
			continue
		}
		if d := s.Value("distal_mm"); d > c.Patient.Sinus.LengthMM {
			return &fault.Field{Path: string(s.Kind) + ".distal_mm", Value: fmt.Sprint(d), Problem: "beyond the end of the vein",
				Allowed: fmt.Sprintf("at most sinus.length_mm (%g mm)", c.Patient.Sinus.LengthMM), Fix: "lower it"}
		}
		if short, span := shortening(s), s.Value("distal_mm")-s.Value("proximal_mm"); short > 0.6*span {
			return &fault.Field{Path: string(s.Kind) + ".shortening_mm", Value: fmt.Sprint(short), Problem: "more than the path between the anchors can give",
				Allowed: fmt.Sprintf("at most 60 %% of the path between the anchors (%g mm)", 0.6*span), Fix: "lower it or move the anchors apart"}
		}
	}
	return nil
}

func shortening(s repair.Step) float64 {
	if s.Kind != repair.SinusBand {
		return 0
	}
	return s.Value("shortening_mm")
}

package valve

import (
	"math"

	"annuloscope/sim/hydraulic"
	"annuloscope/sim/units"
)

// flows is what the circulation says of one state, by either tier.
type flows struct {
	tier                         string
	edv, esv, forward, leak      float64 // mL
	gradient                     float64 // mmHg
	atrialMean, atrialV          float64 // mmHg
	arterial                     float64 // mmHg
	rate                         float64
	effectiveMean, effectivePeak units.EffectiveCM2
	systolicDrop                 float64 // mmHg, ventricle over atrium, mean over systole
	early, lung                  float64 // cm/s, mmHg; 0 when not known
	converged                    bool
	status                       string
}

const quickTier = "orifice equation"

// quick gives leak and gradient by the orifice equation at rest, the leak through the flow-weighted mean of the orifice
// over systole. Before treatment the ventricle ejects what the case
// states, of which the leak takes its part; after treatment the forward stroke stays as it was (the body asks for the
// same) and the leak is added to it. The atrium's pressure follows the leak with the atrium's stiffness.
func quick(b *baseline, p *plan, s *systole, opening units.EffectiveCM2, before *flows) flows {
	h := b.patient.Heart
	rate := nowRate(&h)
	drop := b.pressure * math.Pow(p.resistance, 0.5)
	leak := hydraulic.Regurgitate(hydraulic.LeakInput{Orifice: s.course.FlowMean(), PressureMMHg: drop,
		DurationS: hydraulic.EjectionTime(rate)}).VolumeML
	f := flows{tier: quickTier, rate: rate, leak: leak, arterial: h.MeanArterialMMHg, effectiveMean: s.course.Mean(),
		effectivePeak: s.course.Peak(), systolicDrop: drop, converged: true, status: "converged", edv: h.EndDiastolicML * p.volume}
	stroke := h.EndDiastolicML - h.EndSystolicML
	if before == nil {
		f.leak = math.Min(leak, 0.9*stroke)
		f.forward = stroke - f.leak
		f.atrialMean = h.AtrialMeanMMHg
	} else {
		f.forward = before.forward
		stroke = f.forward + f.leak
		f.atrialMean = math.Max(3, before.atrialMean+h.AtrialStiffness*(f.leak-before.leak)/3)
	}
	f.esv = math.Max(0, f.edv-stroke)
	f.atrialV = f.atrialMean + h.AtrialStiffness*(f.leak+10)/2
	f.gradient = hydraulic.Fill(hydraulic.FillingInput{Opening: opening, ForwardML: f.forward, LeakML: f.leak,
		FillingS: hydraulic.FillingTime(rate)}).MeanGradientMMHg
	return f
}

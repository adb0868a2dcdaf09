package lab

import (
	"gonum.org/v1/gonum/spatial/r2"

	"annuloscope/sim/units"
)

// LeakInput is a leak at one instant as flow convergence meets it.
type LeakInput struct {
	Outline    []r2.Vec // the hole in plan, mm
	FlowMLPerS float64  // true flow
	JetCMPS    float64  // peak speed of the jet
	AliasCMPS  float64  // aliasing speed the laboratory sets, usually 30–40
}

// LeakReading is what flow convergence reads, against the truth.
type LeakReading struct {
	True        units.EffectiveCM2 // flow ÷ jet speed
	RadiusMM    float64            // read straight out
	Hemispheric Convergence        // from that radius
	FromShape   Convergence        // from the whole isovelocity surface of the real shape
	NearField   Convergence        // hemispheric from the radius flattened close to the hole
	Error       float64            // hemispheric ÷ true − 1
}

// ReadLeak measures a leak by flow convergence.
func ReadLeak(in LeakInput) LeakReading {
	if !(in.FlowMLPerS > 0 && in.JetCMPS > 0 && in.AliasCMPS > 0) {
		panic("lab: flow, jet and aliasing speed must be above 0")
	}
	sink := SinkOf(ShapeOf(in.Outline), in.FlowMLPerS)
	r := LeakReading{True: units.EffectiveCM2(in.FlowMLPerS / in.JetCMPS), RadiusMM: sink.AliasRadius(in.AliasCMPS)}
	r.Hemispheric = Hemisphere(r.RadiusMM/10, in.AliasCMPS, in.JetCMPS)
	area, _ := sink.AliasSurface(in.AliasCMPS)
	r.FromShape = surfaceEstimate(area, in.AliasCMPS, in.JetCMPS)
	r.NearField = Hemisphere(NearFieldRadius(in.Outline, in.FlowMLPerS, in.AliasCMPS)/10, in.AliasCMPS, in.JetCMPS)
	r.Error = float64(r.Hemispheric.Orifice/r.True) - 1
	return r
}

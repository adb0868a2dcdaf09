package valve

import (
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/closure"
	"annuloscope/sim/fault"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	// openingShare is the intact opening over the projected annulus area in mid-diastole where it was not measured:
	// 5.0 cm² in the normal annulus of 10.4 cm². Chosen between the normal 4-5 cm² of physics.md B2 (S18) and A3's 6.0.
	openingShare = 0.48
	// systolicOverMean is the driving pressure of the closed valve in mid-systole over the mean arterial pressure, before
	// the atrial pressure is taken off: about 115 over 93 mmHg (physics.md H).
	systolicOverMean = 1.24
)

// baseline is one patient, fitted: the valve before treatment.
type baseline struct {
	patient  anatomy.Patient
	shape    *shape
	fitted   *closure.Fitted
	fit      closure.FitReport
	pressure float64 // mmHg, ventricle over atrium in mid-systole
	closed   closure.Result
	work     closure.Workspace
	input    closure.Input
	systole  systole           // the leak over one beat
	opening  units.AnatomicCM2 // intact, in the annulus before treatment
	identity casefile.Identity
}

func newBaseline(p anatomy.Patient) (*baseline, error) {
	s, err := newShape(&p)
	if err != nil {
		return nil, err
	}
	b := &baseline{patient: p, identity: casefile.Identify(p), shape: s, pressure: systolicOverMean*p.Heart.MeanArterialMMHg - p.Heart.AtrialMeanMMHg}
	if err := b.fitClosure(); err != nil {
		return nil, err
	}
	b.setOpening()
	return b, nil
}

// papillaryAt returns the muscles with the lean known before the fit and, where since is set, the moves since.
func papillaryAt(p *anatomy.Patient, since bool, extra [2]closure.PapillaryShift) closure.Papillary {
	q := closure.DefaultPapillary()
	lean := p.Papillary.LeanMM
	m := 1
	if lean < 0 {
		m, lean = 0, -lean
	}
	q.Shifts[m] = closure.PapillaryShift{ApicalMM: 0.6 * lean, LateralMM: 0.5 * lean, PosteriorMM: 0.6 * lean}
	if since {
		for m, t := range [2]anatomy.Tip{p.Papillary.Anterolateral, p.Papillary.Posteromedial} {
			q.Shifts[m].ApicalMM += t.ApicalMM + extra[m].ApicalMM
			q.Shifts[m].LateralMM += t.LateralMM + extra[m].LateralMM
			q.Shifts[m].PosteriorMM += t.PosteriorMM + extra[m].PosteriorMM
		}
	}
	return q
}

// state returns the leaflets' condition. What a degenerative patient's chords are belongs to what was measured, if
// anything was; in all others long and torn chords, growth and restriction come after the fit.
func (b *baseline) state(since bool, lineMM float64) closure.State {
	p := &b.patient
	st := closure.State{Calcifications: calcified(p, lineMM)}
	measuredChords := p.Mechanism == anatomy.Degenerative && p.Measured.Stated()
	if since || measuredChords {
		st.Faults = faults(p)
	}
	if since {
		st.Growth = p.Leaflet.Growth - 1
		st.RestrictionMM = restrictionMaxMM * p.Leaflet.PosteriorRestriction
	}
	return st
}

// fitClosure fits the leaflets to what was measured and solves the state before treatment.
func (b *baseline) fitClosure() error {
	p := &b.patient
	pap := papillaryAt(p, false, [2]closure.PapillaryShift{})
	in := closure.Input{Pressure: units.PressureFromMMHg(b.pressure)}
	closure.BuildLine(&in.Line, b.shape.baseline, &pap, 0)
	in.State = b.state(false, in.Line.LengthMM())
	if p.Measured.Stated() {
		b.fitted, b.fit = closure.Fit(&in, closure.Targets{DepthMM: p.Measured.DepthMM, ContactMM: p.Measured.ContactMM,
			EffectiveOrifice: units.EffectiveCM2(p.Measured.EffectiveOrificeCM2), JetPosition: p.Jet.Position, JetSpreadMM: p.Jet.SpreadMM})
	} else {
		b.fitted, b.fit = closure.Template(&in)
	}
	if !b.fit.Status.OK() {
		return &fault.Field{Path: "measured", Problem: "no valve with this annulus closes like that (" + b.fit.Status.String() + ")",
			Allowed: "depth, contact and orifice that go together in this annulus", Fix: "check the measurements, or leave all three out"}
	}
	pap = papillaryAt(p, true, [2]closure.PapillaryShift{})
	b.input = closure.Input{Pressure: in.Pressure}
	closure.BuildLine(&b.input.Line, b.shape.rest, &pap, 0)
	b.input.State = b.state(true, b.input.Line.LengthMM())
	b.work.Interval = true
	b.work.Solve(b.fitted, &b.input, nil, &b.closed)
	b.systole.follow(b, &b.input, nil, nil)
	return nil
}

func (b *baseline) setOpening() {
	b.opening = units.AnatomicCM2(b.patient.Measured.OpeningAreaCM2)
	if math.IsNaN(b.patient.Measured.OpeningAreaCM2) {
		b.opening = units.AnatomicCM2(openingShare * units.AreaToCM2(b.shape.diastoleArea()))
	}
}

// papillaryTips returns where the tips lie, for the picture.
func papillaryTips(q closure.Papillary) [2]r3.Vec {
	out := [2]float64{-1, 1}
	var tips [2]r3.Vec
	for m := range tips {
		d := q.Shifts[m]
		tips[m] = r3.Add(q.Tips[m], r3.Vec{X: out[m] * d.LateralMM, Y: -d.PosteriorMM, Z: -d.ApicalMM})
	}
	return tips
}

package valve

import (
	"math"

	"annuloscope/sim/closure"
	"annuloscope/sim/hydraulic"
	"annuloscope/sim/leaflet"
	"annuloscope/sim/orifice"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// shellBefore fits the shell to the patient, unless it is at hand, and solves the state before treatment into out. It
// returns false when the work was called off.
func (s *Solver) shellBefore(out *Report, eng *Engines, o Options) bool {
	e, b := s.shell, s.base
	if e.patient != b {
		var start *shellUnknowns
		if e.cold = o.cold(b); e.cold {
			e.forget()
		} else if e.fit != nil {
			start = &e.fit.x
		}
		fit, ok := fitShell(b, e.closed, e.open, start, e.goOn)
		if !ok {
			return false
		}
		e.fit = fit
		if !s.shellUntreated(o) {
			return false
		}
		if e.failed == "" {
			e.patient = b
		}
	}
	f := e.fit
	eng.FitDepthMM, eng.FitOverlapMM, eng.FitOpening, eng.FitGrowth = f.depth, f.mean, f.opening, f.x.growth
	eng.Before = differences(&out.Before, &e.beforeState)
	eng.note(0, &e.before)
	out.Before, out.Scene.Before = e.beforeState, e.beforeShapes
	return true
}

// cold tells whether the shell starts without a history: a torn leaflet of the shell can lie in two places at rest, and
// the way to a repair must not decide between them.
func (o Options) cold(b *baseline) bool { return !o.Warm || b.torn() }

// note keeps what only the shell knows of a state.
func (g *Engines) note(k int, st *shellState) {
	g.SlotMM2[k], g.ProjectedMM2[k] = st.closed.SlotMM2, st.closed.ProjectedGapMM2
	g.ChordLoadN[k], g.PapillaryN[k], g.TensionNMM[k] = st.chordN, st.papillaryN, st.tension
}

// shellUntreated solves the patient without repairs.
func (s *Solver) shellUntreated(o Options) bool {
	e, b := s.shell, s.base
	pap := papillaryAt(&b.patient, true, [2]closure.PapillaryShift{})
	in := b.shellInput(e.fit, b.shape.rest, pap, s.pressure)
	r, ok := e.solve(e.open, b.openedShell(in), "open, before treatment")
	if !ok {
		return false
	}
	e.before.keepOpen(r)
	_, changed := asMeasured(b.patient)
	line := b.input.Line.LengthMM()
	changed = changed || len(b.state(true, line).Faults) != len(b.state(false, line).Faults) // torn chords after the fit
	balance := shellFlow{s: s, p: &plan{resistance: 1, volume: 1}, state: &e.before,
		shut: func(pressure float64) bool {
			in.PressureNMM2 = shellPressure(pressure)
			r, ok := e.solve(e.closed, in, "closed, before treatment")
			if ok && !changed { // the state as measured: both engines agree on it whatever way it was reached
				e.fit.read(b.reference(), r)
			}
			if ok {
				e.keepClosed(&e.before, b.fitted, &b.input.Line, r, nil, nil)
			}
			return ok
		},
		sections: b.at,
	}
	flow, wave, course, ok := balance.solve(s.pressure, o)
	if !ok {
		return false
	}
	e.beforeState, e.beforeShapes = s.baseState, s.baseShape
	e.tell(&e.beforeState, &e.beforeShapes, &e.before, &b.closed, &s.baseOpen, &flow, &course, b, &plan{})
	e.beforeShapes.Beat = wave
	return true
}

// at solves the sections before treatment at a pressure, mmHg.
func (b *baseline) at(pressure float64) (*systole, units.EffectiveCM2) {
	b.input.Pressure = units.PressureFromMMHg(pressure)
	b.work.Solve(b.fitted, &b.input, nil, &b.closed)
	b.systole.follow(b, &b.input, nil, nil)
	return &b.systole, b.closed.EffectiveOrifice
}

// shellOpening is the open area of the shell with its fit's factor.
func shellOpening(st *shellState, f *shellFit) units.AnatomicCM2 {
	return units.AnatomicCM2(units.AreaToCM2(st.open.OpenMM2 * f.opening))
}

// shellAfter solves the state after the repairs into out.
func (s *Solver) shellAfter(out *Report, p *plan, eng *Engines, o Options) bool {
	e, b, t := s.shell, s.base, &s.shell.after
	if !p.hasRepairs {
		sections := out.After
		out.After, out.Scene.After = out.Before, out.Scene.Before
		e.openSurface = e.before.openSurface
		eng.After = differences(&sections, &out.After)
		eng.note(1, &e.before)
		return true
	}
	if !o.Warm {
		*t = treated{}
	}
	if o.cold(b) {
		e.forget()
	}
	t.settle(b, p)
	pressure := s.after.pressure
	t.close(b, p, pressure)
	if !e.ring(b, p, t, pressure, eng) {
		return false
	}
	if e.failed != "" {
		return true
	}
	t.diastole = displaced(t.diastole, b.shape.restDiastole, t.ring.Annulus, b.shape.rest)
	t.diastoleState = annulusState(t.diastole, b.shape.marksDiastole)
	var err error
	if t.open, err = openValve(b, t.diastoleState, p, &t.closed); err != nil {
		e.failed = err.Error()
		return true
	}
	in := b.shellInput(e.fit, t.ring.Annulus, t.pap, pressure)
	in.Bonds = shellBonds(p, t.closed.Clips)
	open := *in
	open.Annulus, open.Phase, open.PressureNMM2 = t.diastole, leaflet.Diastole, shellPressure(diastolicMMHg)
	r, ok := e.solve(e.open, &open, "open, after treatment")
	if !ok {
		return false
	}
	var st shellState
	st.keepOpen(r)
	balance := shellFlow{s: s, p: p, state: &st,
		shut: func(mmHg float64) bool {
			in.PressureNMM2 = shellPressure(mmHg)
			r, ok := e.solve(e.closed, in, "closed, after treatment")
			if ok {
				e.keepClosed(&st, b.fitted, &t.input.Line, r, p.clips, t.closed.Clips)
			}
			return ok
		},
		sections: func(mmHg float64) (*systole, units.EffectiveCM2) {
			t.close(b, p, mmHg)
			return &t.systole, t.closed.EffectiveOrifice
		},
	}
	var course systole
	if t.flow, t.wave, course, ok = balance.solve(pressure, o); !ok || e.failed != "" {
		return ok
	}
	t.bound(b, p)
	sections := out.After
	if err := s.tell(t, p, out, t.rounds); err != nil {
		e.failed = err.Error()
		return true
	}
	e.tell(&out.After, &out.Scene.After, &st, &t.closed, &t.open, &t.flow, &course, b, p)
	eng.After = differences(&sections, &out.After)
	eng.note(1, &st)
	return true
}

// ring brings ring and shell into balance: what the clips add to the leaflets' pull goes to the ring (treated.settle).
// Where round the ring it pulls is taken from the sections, how hard from the tension of the shell's bonds: the pull of
// two shells, with and without the clips, differs by more in the folds at the commissures than at the clips.
func (e *shellEngine) ring(b *baseline, p *plan, t *treated, pressure float64, eng *Engines) bool {
	if len(p.clips) == 0 {
		return true
	}
	shape, sections, largest := append([]r3.Vec(nil), t.loads...), 0.0, 0.0 // the sections' pull in balance, and the force behind it
	for _, c := range t.closed.Clips {
		sections += c.ForceN
	}
	for _, f := range shape {
		largest = math.Max(largest, r3.Norm(f))
	}
	var now, last, missed float64 // share of shape that pulls, the one before, and by how much that was wrong
	for now, eng.Rounds = 1, 1; ; eng.Rounds++ {
		in := b.shellInput(e.fit, t.ring.Annulus, t.pap, pressure)
		in.Bonds = shellBonds(p, t.closed.Clips)
		held, ok := e.solve(e.closed, in, "closed, with the clips")
		if !ok {
			return false
		}
		shell := 0.0
		for _, n := range held.BondTensionN {
			shell += n
		}
		ratio := 1.0
		if sections > shellLeastN {
			ratio = within(shell/sections, 0, shellMostPull)
		}
		miss := ratio - now
		if eng.RingResidualN = math.Abs(miss) * largest; eng.RingResidualN < shellToleranceN || eng.Rounds == shellRounds || e.failed != "" {
			return true
		}
		next := ratio
		if eng.Rounds > 1 && math.Abs(miss-missed) > 1e-6 { // the secant (Aitken): the ring yields, so the plain round may swing
			next = within(now-miss*(now-last)/(miss-missed), math.Min(now, ratio)-shellSwing, math.Max(now, ratio)+shellSwing)
		}
		last, missed, now = now, miss, within(next, 0, shellMostPull)
		for i, f := range shape {
			t.loads[i] = r3.Scale(now, f)
		}
		t.ringIn.Loads = nodeLoads(t.ringIn.Loads[:0], t.loads)
		t.solver.Solve(&t.ringIn, &t.ring)
		closure.BuildLine(&t.input.Line, t.ring.Annulus, &t.pap, 0)
		t.close(b, p, pressure)
	}
}

// tell puts the shell's numbers and surfaces in the place of the sections'. closed and open are the sections' results on
// the same annulus; the width of the orifice's interval and the clips' grip are theirs.
func (e *shellEngine) tell(to *State, shapes *Shapes, st *shellState, closed *closure.Result, open *orifice.Result,
	flow *flows, course *systole, b *baseline, p *plan) {
	f, line := e.fit, &b.input.Line
	c := closure.Result{Contact: line.Regions(st.contact), Gap: line.Regions(st.gap), DepthMM: st.depth,
		TentingAreaCM2:  units.AreaToCM2(st.closed.TentingAreaMM2 + f.tent),
		TentingVolumeML: st.closed.TentingVolumeMM3/1000 + f.volume, BillowingHeightMM: st.closedSurface.billowing(),
		AnatomicOrifice: st.leak, EffectiveOrifice: st.leak.Effective(closure.Contraction)}
	if state := b.state(true, line.LengthMM()); len(state.Faults) > 0 {
		c.FlailGapMM, c.FlailWidthMM = st.closed.GapMaxMM, st.closed.GapWidthMM
	}
	c.OrificeLow = max(0, c.EffectiveOrifice+closed.OrificeLow-closed.EffectiveOrifice)
	c.OrificeHigh = max(0, c.EffectiveOrifice+closed.OrificeHigh-closed.EffectiveOrifice)
	grade, stenosis := to.Regurgitation.Grade, to.Opening.Stenosis
	to.Coaptation, to.Regurgitation = coaptationState(&c), leakState(&c, flow, course)
	to.Regurgitation.Grade = grade
	o := *open
	o.Total = shellOpening(st, f)
	o.Effective = o.Total.Effective(hydraulic.Contraction)
	o.Orifices, shapes.Orifices = nil, nil
	for _, q := range st.open.Orifices {
		area := units.AnatomicCM2(units.AreaToCM2(q.AreaMM2 * f.opening))
		o.Orifices = append(o.Orifices, orifice.Orifice{Area: area})
		shapes.Orifices = append(shapes.Orifices, measuring(q, float64(area), f.opening))
	}
	to.Opening = openingState(&o, flow)
	to.Opening.Stenosis = stenosis
	to.Beat = beatState(flow)
	if len(p.clips) > 0 {
		to.Clips = clipStates(p, closed, open, flow.gradient)
		for i := range to.Clips {
			to.Clips[i].TensionN, to.Clips[i].Opening = st.closed.BondTensionN[i], st.open.BondTensionN[i]
		}
	}
	to.Laboratory = laboratory(to, shapes)
	e.openSurface = st.openSurface
	shapes.Shell = &ShellShapes{Closed: st.closedSurface, Open: st.openSurface}
}

// measuring is an orifice of the shell, its outline drawn larger or smaller about its middle so that it measures the
// area stated.
func measuring(q leaflet.Orifice, area, factor float64) Orifice {
	out := Orifice{AreaCM2: area}
	for _, v := range q.Outline {
		out.Centre = r3.Add(out.Centre, r3.Scale(1/float64(len(q.Outline)), v))
	}
	for _, v := range q.Outline {
		out.Outline = append(out.Outline, r3.Add(out.Centre, r3.Scale(math.Sqrt(factor), r3.Sub(v, out.Centre))))
	}
	return out
}

package valve

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/closure"
	"annuloscope/sim/fault"
	"annuloscope/sim/orifice"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// Notice is the caution that goes with everything the program says.
const Notice = "Educational only: not for diagnosis or treatment planning. Follow licensed practice and local guidance."

// Options choose how a case is solved. The zero value is the reference: cold, quick circulation.
type Options struct {
	Circulation bool // run the closed-loop circulation instead of the orifice equation at rest
	Warm        bool // start from the last solve of this Solver; the answer may differ by ToleranceMM
	Attribution bool // say where the shortening went (up to 41 more equilibria of the ring) and what rods on trial do
	// Engine is SectionsEngine (or empty) or ShellEngine: the sections first and then Settle. Any other name panics.
	Engine string
	Coarse bool // the shell on its coarser mesh, in a third of the time
	Brief  bool // leave out the transmitted fraction (NaN), a seventh of the time of a cohort's patient; such a report has no JSON
}

// Solver solves cases one after another. The zero value is not ready; use NewSolver.
type Solver struct {
	base      *baseline
	baseState State
	baseFlow  flows
	baseOpen  orifice.Result
	baseShape Shapes
	baseOpts  Options
	pressure  float64      // mmHg, closing the valve before treatment
	circ      *circulation // nil in the quick tier
	after     treated
	plan      *plan        // of the last case
	shell     *shellEngine // nil until Settle
}

// NewSolver returns a solver without history.
func NewSolver() *Solver { return &Solver{} }

// Solve solves one case cold. The error is a *fault.Field for a case that is out of range or impossible; numerical
// trouble is reported in the Report's Provenance and Status instead.
func Solve(c casefile.Case, o Options) (Report, error) { return NewSolver().Solve(c, o) }

// Solve solves one case, keeping the fitted baseline when the patient is the one of the last call.
func (s *Solver) Solve(c casefile.Case, o Options) (Report, error) {
	if err := c.Validate(); err != nil {
		return Report{}, err
	}
	return s.solvePlan(c, newPlan(c.Repairs), o)
}

// solvePlan solves a case whose repairs ask for what p says.
func (s *Solver) solvePlan(c casefile.Case, p plan, o Options) (Report, error) {
	shell := o.Engine == ShellEngine
	if !shell && o.Engine != "" && o.Engine != SectionsEngine {
		panic("valve: no engine " + o.Engine)
	}
	coarse := o.Coarse
	o.Engine, o.Coarse = "", false
	if err := s.prepare(c.Patient, o); err != nil {
		return Report{}, err
	}
	r := Report{Notice: NoticeFor(&c.Patient), Before: s.baseState, Scene: Scene{Before: s.baseShape}}
	r.Provenance = Provenance{Program: "annuloscope", Version: Version, CaseName: c.Name, CaseSHA256: s.base.identity.Hash(c.Repairs),
		Schema: schemaName, Imported: c.Patient.Imported, Engine: SectionsEngine, Tolerance: ToleranceN, Converged: true, Status: "converged"}
	if !p.hasRepairs {
		r.After, r.Scene.After = s.baseState, s.baseShape
	} else if err := s.treat(&p, o, &r); err != nil {
		return Report{}, err
	}
	if o.Attribution {
		var err error
		if r.Trial, err = trial(c, o, &r.After); err != nil {
			return Report{}, err
		}
	}
	r.Provenance.Status = joinStatus(r.Before.Status, r.After.Status)
	r.Provenance.Converged = r.Provenance.Status == converged
	r.Change = r.change()
	r.Later = laterOf(c.Repairs)
	s.judge(&r, &p)
	s.plan = &p
	if shell {
		o.Coarse = coarse
		s.Settle(&r, o, nil)
	}
	return r, nil
}

// prepare fits the patient and solves the state before treatment, unless both are at hand.
func (s *Solver) prepare(p anatomy.Patient, o Options) error {
	if s.base != nil && s.base.patient.Same(&p) && s.baseOpts == o {
		return nil
	}
	if err := s.begin(p, o); err != nil {
		*s = Solver{} // half a baseline must not pass for a whole one at the next call
		return err
	}
	return nil
}

// begin makes the baseline of a patient.
func (s *Solver) begin(p anatomy.Patient, o Options) error {
	b, err := newBaseline(p)
	if err != nil {
		return err
	}
	*s = Solver{base: b, baseOpts: o, shell: s.shell}
	sh := b.shape
	diastole := annulusState(sh.restDiastole, sh.marksDiastole)
	s.baseOpen, err = openValve(b, diastole, nil, nil)
	if err != nil {
		return err
	}
	wave, err := s.firstFlow(o)
	if err != nil {
		return err
	}
	squeezed, err := sh.squeeze(b, &plan{}, nil, s.baseFlow.arterial)
	if err != nil {
		return asField("artery", err)
	}
	s.baseState = State{Annulus: annulusState(sh.rest, sh.marks), AnnulusDiastole: diastole, Coaptation: coaptationState(&b.closed),
		Regurgitation: leakState(&b.closed, &s.baseFlow, &b.systole), Opening: openingState(&s.baseOpen, &s.baseFlow),
		Artery: arteryState(&squeezed), Beat: beatState(&s.baseFlow), Clips: []Clip{}, Status: s.firstStatus()}
	pap := papillaryAt(&b.patient, true, [2]closure.PapillaryShift{})
	s.baseShape = shapesOf(b, sh.rest, sh.restDiastole, sh.vein.Rest, nil, nil, &b.work, &b.input, &b.closed, &s.baseOpen, &squeezed, &plan{}, pap)
	s.baseShape.Beat = wave
	s.baseState.Laboratory = laboratory(&s.baseState, &s.baseShape)
	return nil
}

// firstFlow is the circulation before treatment. The heart's numbers belong to the patient as measured; what has
// changed since then (dilation, moved papillary muscles, growth, restriction, rate, effort, a grown heart) is predicted from there.
func (s *Solver) firstFlow(o Options) (*Beats, error) {
	b, none := s.base, &plan{resistance: 1, volume: 1}
	s.pressure = b.pressure
	reference, changed := asMeasured(b.patient)
	ref, refOpen := b, &s.baseOpen
	if changed {
		var err error
		if ref, err = newBaseline(reference); err != nil {
			return nil, err
		}
		open, err := openValve(ref, annulusState(ref.shape.restDiastole, ref.shape.marksDiastole), nil, nil)
		if err != nil {
			return nil, err
		}
		refOpen = &open
	}
	if !o.Circulation {
		s.baseFlow = quick(ref, none, &ref.systole, refOpen.Effective, nil)
		if changed {
			s.baseFlow = quick(b, none, &b.systole, s.baseOpen.Effective, &s.baseFlow)
		}
		return nil, nil
	}
	var err error
	if s.circ, err = newCirculation(b.patient.Heart, &ref.systole, refOpen.Effective); err != nil {
		return nil, err
	}
	var wave *Beats
	s.baseFlow, wave, err = s.circ.beatFlows(&reference.Heart, none, &ref.systole, refOpen.Effective, 1)
	if err != nil {
		return nil, err
	}
	s.circ.drop = s.baseFlow.systolicDrop
	if !changed {
		return wave, nil
	}
	s.pressure, err = s.circ.settle(b.pressure, new(slopes2), func(pressure, factor float64) (float64, float64, error) {
		b.input.Pressure = units.PressureFromMMHg(pressure)
		b.work.Solve(b.fitted, &b.input, nil, &b.closed)
		b.systole.follow(b, &b.input, nil, nil)
		var err error
		s.baseFlow, wave, err = s.circ.beatFlows(&b.patient.Heart, none, &b.systole, s.baseOpen.Effective, factor)
		return s.closing(s.baseFlow.systolicDrop), s.circ.wanted(s.baseFlow.arterial, &b.patient.Heart, none), err
	})
	return wave, s.baseFlow.unbalanced(err)
}

// leastClosing is the share of the closing pressure as measured below which the coupling is cut: a valve that loses its
// contact loses its pressure and gapes further without end. The report then carries a finding.
const leastClosing = 0.5

// closing is the pressure that closes the valve in mid-systole when the circulation gives a mean systolic drop, in
// proportion to the patient as measured.
func (s *Solver) closing(drop float64) float64 {
	return s.base.pressure * math.Max(leastClosing, drop/s.circ.drop)
}

// asMeasured returns the patient without what has changed since the measurements, and whether that is another patient.
func asMeasured(p anatomy.Patient) (anatomy.Patient, bool) {
	q := p
	q.Annulus.DilationMM = 0
	q.Heart.RateChange, q.Heart.Exercise, q.Heart.Adaptation = 0, 0, 0
	q.Leaflet.Growth, q.Leaflet.PosteriorRestriction = 1, 0
	q.Papillary.Anterolateral, q.Papillary.Posteromedial = anatomy.Tip{}, anatomy.Tip{}
	return q, !p.Same(&q)
}

// treat solves the state after the repairs: ring and closure at the pressure before treatment, the opening, then closure
// and circulation until the pressure that the circulation gives is the one that closes the valve.
func (s *Solver) treat(p *plan, o Options, r *Report) error {
	b, t := s.base, &s.after
	if !o.Warm {
		*t = treated{}
		if s.circ != nil {
			s.circ.work.Forget()
			s.circ.factor = 1
		}
	}
	t.settle(b, p)
	t.diastole = displaced(t.diastole, b.shape.restDiastole, t.ring.Annulus, b.shape.rest)
	t.diastoleState = annulusState(t.diastole, b.shape.marksDiastole)
	var err error
	if t.open, err = openValve(b, t.diastoleState, p, &t.closed); err != nil {
		return err
	}
	if err := t.circulate(s, p, o); err != nil {
		return err
	}
	t.brief = o.Brief
	return s.tell(t, p, r, t.rounds)
}

// circulate balances closure and circulation after the repairs.
func (t *treated) circulate(s *Solver, p *plan, o Options) error {
	b := s.base
	start := s.pressure * math.Sqrt(p.resistance)
	if o.Warm && t.pressure > 0 {
		start = t.pressure
	}
	if !o.Circulation {
		t.pressure = start
		t.work.Interval = true // the closure is final: its interval needs no further solve
		t.close(b, p, start)
		t.work.Interval = false
		t.flow = quick(b, p, &t.systole, t.open.Effective, &s.baseFlow)
		return nil
	}
	var err error
	t.pressure, err = s.circ.settle(start, &t.slopes, func(pressure, factor float64) (float64, float64, error) {
		t.close(b, p, pressure)
		var err error
		t.flow, t.wave, err = s.circ.beatFlows(&b.patient.Heart, p, &t.systole, t.open.Effective, factor)
		return s.closing(t.flow.systolicDrop), s.circ.wanted(t.flow.arterial, &b.patient.Heart, p), err
	})
	t.bound(b, p)
	return t.flow.unbalanced(err)
}

// tell fills the report from the solved state t.
func (s *Solver) tell(t *treated, p *plan, r *Report, rounds int) error {
	b, sh := s.base, s.base.shape
	vein := t.ring.Vein
	contact, push := t.pressing(sh, p)
	squeezed, err := sh.squeeze(b, p, contact, t.flow.arterial)
	if err != nil {
		return asField("artery", err)
	}
	r.After = State{Annulus: annulusState(t.ring.Annulus, sh.marks), AnnulusDiastole: t.diastoleState, Coaptation: coaptationState(&t.closed),
		Regurgitation: leakState(&t.closed, &t.flow, &t.systole), Opening: openingState(&t.open, &t.flow), Sinus: sinusState(t, p, contact),
		Artery: arteryState(&squeezed), Beat: beatState(&t.flow), Clips: clipStates(p, &t.closed, &t.open, t.flow.gradient),
		Status: t.status()}
	if p.band == nil && r.After.Artery.From == "band" {
		r.After.Artery.From = "rods"
	}
	r.Provenance.Iterations, r.Provenance.Residual = rounds, t.residual
	r.Scene.After = shapesOf(b, t.ring.Annulus, t.diastole, vein, contact, push, &t.work, &t.input, &t.closed, &t.open, &squeezed, p, t.pap)
	r.Scene.After.Beat = t.wave
	r.After.Laboratory = laboratory(&r.After, &r.Scene.After)
	if s.baseOpts.Attribution {
		r.Attribution, _ = attribute(&t.ringIn, nil)
	}
	return nil
}

// openValve opens the valve in mid-diastole in the annulus given.
func openValve(b *baseline, now Annulus, p *plan, closed *closure.Result) (orifice.Result, error) {
	before := geometry.Measure(b.shape.restDiastole, b.shape.marksDiastole)
	in := orifice.Input{CommissuralMM: now.CommissuralMM, SeptalLateralMM: now.SeptalLateralMM,
		MarginMM: math.Max(b.patient.Leaflet.MarginMM, 2.05*now.CommissuralMM),
		Intact:   orifice.ScaleIntact(b.opening, before.SeptalLateralMM, before.CommissuralMM, now.SeptalLateralMM, now.CommissuralMM)}
	if p != nil {
		for i, c := range p.clips {
			in.Bonds = append(in.Bonds, orifice.Bond{Position: c.Position, WidthMM: c.WidthMM, Hold: closed.Clips[i].Grip})
		}
	}
	r, err := orifice.Solve(in)
	return r, asField("opening", err)
}

func sinusState(t *treated, p *plan, contact []float64) Sinus {
	var out Sinus
	for _, c := range contact {
		out.MaxContactNPerMM = math.Max(out.MaxContactNPerMM, c)
	}
	if p.band == nil {
		return out
	}
	band := t.ring.Band
	out.TensionN, out.ShorteningMM, out.SlipMM = band.TensionN, band.AchievedMM, band.SlipMM
	if out.TransmittedFraction = math.NaN(); !t.brief {
		out.TransmittedFraction, _ = t.solver.TransmittedFraction(&t.ringIn, &t.ring)
	}
	return out
}

func (s *Solver) firstStatus() string {
	switch {
	case !s.base.closed.Status.OK():
		return "closure: " + s.base.closed.Status.String()
	case !s.baseFlow.converged:
		return s.baseFlow.status
	}
	return converged
}

// status joins the parts' outcomes: "converged" only when every one is.
func (t *treated) status() string {
	switch {
	case !t.ring.Status.OK():
		return "ring: " + t.ring.Status.String()
	case !t.closed.Status.OK():
		return "closure: " + t.closed.Status.String()
	case t.residual > ToleranceN:
		return "ring and closure: no balance within the allowed rounds"
	case !t.flow.converged:
		return t.flow.status
	}
	return converged
}

const converged = "converged"

func joinStatus(before, after string) string {
	if before != converged {
		return "before treatment: " + before
	}
	return after
}

// displaced moves a diastolic annulus by what the repairs moved the systolic one.
func displaced(dst, diastole, now, rest []r3.Vec) []r3.Vec {
	dst = append(dst[:0], diastole...)
	for i := range dst {
		dst[i] = r3.Add(dst[i], r3.Sub(now[i], rest[i]))
	}
	return dst
}

func asField(path string, err error) error {
	if err == nil {
		return nil
	}
	return &fault.Field{Path: path, Problem: err.Error(), Fix: "change the numbers it names"}
}

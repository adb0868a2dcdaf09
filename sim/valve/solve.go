package valve

import (
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/closure"
	"annuloscope/sim/fault"
	"annuloscope/sim/orifice"

	"gonum.org/v1/gonum/spatial/r3"
)

// Notice is the caution that goes with everything the program says.
const Notice = "Educational only: not for diagnosis or treatment planning. Follow licensed practice and local guidance."

// Options choose how a case is solved. The zero value is the reference: cold, quick circulation.
type Options struct {
	Circulation bool // run the closed-loop circulation instead of the orifice equation at rest
	Warm        bool // start from the last solve of this Solver; the answer may differ by ToleranceMM
}

// Solver solves cases one after another. The zero value is not ready; use NewSolver.
type Solver struct {
	base      *baseline
	baseState State
	baseFlow  flows
	baseOpen  orifice.Result
	baseShape Shapes
	baseOpts  Options
	after     treated
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
	if err := s.prepare(c.Patient, o); err != nil {
		return Report{}, err
	}
	p := newPlan(c.Repairs)
	r := Report{Notice: Notice, Before: s.baseState, Scene: Scene{Before: s.baseShape}}
	r.Provenance = Provenance{Program: "annuloscope", Version: Version, CaseName: c.Name, CaseSHA256: casefile.Hash(c),
		Schema: schemaName, Engine: "sections", Tolerance: ToleranceMM, Converged: true, Status: "converged"}
	if !p.hasRepairs {
		r.After, r.Scene.After = s.baseState, s.baseShape
	} else if err := s.treat(&p, o, &r); err != nil {
		return Report{}, err
	}
	s.judge(&r, &p)
	return r, nil
}

// prepare fits the patient and solves the state before treatment, unless both are at hand.
func (s *Solver) prepare(p anatomy.Patient, o Options) error {
	if s.base != nil && samePatient(&s.base.patient, &p) && s.baseOpts == o {
		return nil
	}
	b, err := newBaseline(p)
	if err != nil {
		return err
	}
	*s = Solver{base: b, baseOpts: o}
	sh := b.shape
	diastole := annulusState(sh.restDiastole, sh.marksDiastole)
	s.baseOpen, err = openValve(b, diastole, nil, nil)
	if err != nil {
		return err
	}
	s.baseFlow = quick(b, &plan{resistance: 1, volume: 1}, b.closed.EffectiveOrifice, s.baseOpen.Effective, nil)
	squeezed, err := sh.squeeze(b, &plan{}, nil, s.baseFlow.arterial)
	if err != nil {
		return asField("artery", err)
	}
	s.baseState = State{Annulus: annulusState(sh.rest, sh.marks), AnnulusDiastole: diastole, Coaptation: coaptationState(&b.closed),
		Regurgitation: leakState(&b.closed, &s.baseFlow), Opening: openingState(&s.baseOpen, &s.baseFlow),
		Artery: arteryState(&squeezed), Beat: beatState(&s.baseFlow), Clips: []Clip{}, Status: b.closed.Status.String()}
	pap := papillaryAt(&b.patient, true, [2]closure.PapillaryShift{})
	s.baseShape = shapesOf(b, sh.rest, sh.restDiastole, sh.vein.Rest, nil, &b.work, &b.input, &b.closed, &s.baseOpen, &squeezed, &plan{}, pap)
	return nil
}

// treat solves the state after the repairs.
func (s *Solver) treat(p *plan, o Options, r *Report) error {
	b, t := s.base, &s.after
	if !o.Warm {
		*t = treated{}
	}
	pressure := s.base.pressure * math.Pow(p.resistance, 0.5)
	t.settle(b, p, pressure)
	sh := b.shape
	t.diastole = displaced(t.diastole, sh.restDiastole, t.ring.Annulus, sh.rest)
	diastole := annulusState(t.diastole, sh.marksDiastole)
	open, err := openValve(b, diastole, p, &t.closed)
	if err != nil {
		return err
	}
	f := quick(b, p, t.closed.EffectiveOrifice, open.Effective, &s.baseFlow)
	var contact []float64
	vein := sh.vein.Rest
	if p.sinusDevice {
		vein = t.ring.Vein
	}
	if p.band != nil {
		contact = norms(t.ring.Band.ContactNPerMM)
	}
	squeezed, err := sh.squeeze(b, p, contact, f.arterial)
	if err != nil {
		return asField("artery", err)
	}
	r.After = State{Annulus: annulusState(t.ring.Annulus, sh.marks), AnnulusDiastole: diastole, Coaptation: coaptationState(&t.closed),
		Regurgitation: leakState(&t.closed, &f), Opening: openingState(&open, &f), Sinus: sinusState(t, p, contact),
		Artery: arteryState(&squeezed), Beat: beatState(&f), Clips: clipStates(p, &t.closed, &open, f.gradient),
		Status: t.status()}
	r.Provenance.Iterations, r.Provenance.Residual = t.rounds, t.moved
	r.Provenance.Status = r.After.Status
	r.Provenance.Converged = r.After.Status == "converged"
	r.Scene.After = shapesOf(b, t.ring.Annulus, t.diastole, vein, contact, &t.work, &t.input, &t.closed, &open, &squeezed, p, t.pap)
	return nil
}

// openValve opens the valve in mid-diastole in the annulus given.
func openValve(b *baseline, now Annulus, p *plan, closed *closure.Result) (orifice.Result, error) {
	before := measure(b.shape.restDiastole, b.shape.marksDiastole)
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
	out.TransmittedFraction, _ = t.solver.TransmittedFraction(&t.ringIn, &t.ring)
	return out
}

// status joins the parts' outcomes: "converged" only when every one is.
func (t *treated) status() string {
	switch {
	case !t.ring.Status.OK():
		return "ring: " + t.ring.Status.String()
	case !t.closed.Status.OK():
		return "closure: " + t.closed.Status.String()
	case t.moved > ToleranceMM:
		return "ring and closure: no balance within the allowed rounds"
	}
	return "converged"
}

// displaced moves a diastolic annulus by what the repairs moved the systolic one.
func displaced(dst, diastole, now, rest []r3.Vec) []r3.Vec {
	dst = append(dst[:0], diastole...)
	for i := range dst {
		dst[i] = r3.Add(dst[i], r3.Sub(now[i], rest[i]))
	}
	return dst
}

func norms(v []r3.Vec) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = r3.Norm(v[i])
	}
	return out
}

// samePatient compares every number and word; two unstated measurements are the same.
func samePatient(a, b *anatomy.Patient) bool {
	for _, q := range anatomy.Parameters() {
		if x, y := *q.At(a), *q.At(b); x != y && !(math.IsNaN(x) && math.IsNaN(y)) {
			return false
		}
	}
	return a.Mechanism == b.Mechanism && a.Dominance == b.Dominance && a.Imported == b.Imported
}

func asField(path string, err error) error {
	if err == nil {
		return nil
	}
	return &fault.Field{Path: path, Problem: err.Error(), Fix: "change the numbers it names"}
}

package beat

import (
	"annuloscope/sim/beat/loop"
	"annuloscope/sim/units"
)

// Compartments in the order of the flow; link i leaves compartment i.
const (
	lv = iota
	arteries
	veins
	ra
	rv
	pulmonaryArteries
	pulmonaryVeins
	la
	compartments
)

// Workspace keeps scratch, the last periodic state (the warm start) and the last Result. Not safe for concurrent use.
type Workspace struct {
	p      Params
	ring   loop.Ring
	solver *loop.Solver
	warm   bool
	// stressed is the last periodic state: volumes above V0 (mL), then valve flows (mL/s).
	stressed []float64

	ventricle, atrium []float64 // activations
	leak, opening     []float64 // K and 1/K² of the mitral valve at the stage times
	laidFor           struct {
		rate  float64
		steps int
	}
	closeAt, openAt float64 // systole of the last beat, s; closeAt may be negative
	haveSystole     bool

	result Result
}

// NewWorkspace makes an empty workspace; its first Solve is cold.
func NewWorkspace() *Workspace { return &Workspace{} }

// Forget drops the warm start: the next Solve is cold.
func (w *Workspace) Forget() { w.warm = false }

// Solve finds the periodic beat of p, from cold. Deterministic: same input, same bits.
func Solve(p Params) (Result, error) {
	r, err := NewWorkspace().Solve(&p)
	if err != nil {
		return Result{}, err
	}
	return *r, nil
}

// Solve finds the periodic beat of p, starting from the last one if there is one. The result belongs to w and lasts
// until the next Solve. Courses in p must not change while Solve runs. Warm and cold answers agree within the
// tolerance in constants.go. An error is bad input (see Params.Check).
func (w *Workspace) Solve(p *Params) (*Result, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	w.p = *p
	if w.p.Steps == 0 {
		w.p.Steps = defaultSteps
	}
	w.shape()
	w.fill()
	search := loop.Search{Reuse: w.warm, MaxBeats: maxBeats, Tolerance: tolerance, Margin: stepMargin, Refresher: w}
	if w.warm {
		w.restore()
	} else {
		w.haveSystole = false
		w.coldStart()
		search.Warmup = coldBeats
	}
	o := w.solver.Periodic(search)
	w.measure(o)
	w.keep(o.Converged)
	return &w.result, nil
}

// shape (re)allocates when the number of steps changes.
func (w *Workspace) shape() {
	n := w.p.Steps
	if w.solver != nil && w.ring.Steps == n {
		return
	}
	w.ring = loop.Ring{Steps: n, Compartments: make([]loop.Compartment, compartments), Links: make([]loop.Link, compartments)}
	w.ventricle, w.atrium = make([]float64, 2*n), make([]float64, 2*n)
	w.leak, w.opening = make([]float64, 2*n), make([]float64, 2*n)
	w.laidFor.steps = 0
	for _, l := range []int{lv, ra, rv, la} {
		w.ring.Links[l].L = 1 // marks the links with inertance; fill sets the values
	}
	w.solver = loop.New(&w.ring)
	w.warm = false
	w.stressed = make([]float64, len(w.solver.State()))
	w.result.Waves.allocate(n)
}

func (v Ventricle) compartment(f []float64) loop.Compartment {
	return loop.Compartment{V0: v.UnstressedML, Emax: v.EndSystolicElastance, Emin: emptyElastance,
		ExpA: v.PassiveScaleMMHg, ExpB: v.PassiveStiffnessPML, Activation: f}
}

func (a Atrium) compartment(f []float64) loop.Compartment {
	return loop.Compartment{V0: a.UnstressedML, Emax: a.ActiveElastance, Emin: emptyElastance,
		ExpA: 1 / (a.StiffeningPML * a.ComplianceMLPMMHg), ExpB: a.StiffeningPML, Activation: f}
}

func valve(area units.EffectiveCM2, columnCM, r float64) loop.Link {
	k := units.JetSpeedPerRootMMHg * float64(area)
	return loop.Link{Valve: true, R: r, L: density * columnCM / float64(area), InvK2: 1 / (k * k)}
}

// fill writes the parameters into the ring.
func (w *Workspace) fill() {
	p := &w.p
	T := 60 / p.RatePerMin
	w.ring.Period = T
	if w.laidFor.steps != p.Steps || w.laidFor.rate != p.RatePerMin {
		layActivations(w.ventricle, w.atrium, p.Steps, T)
		w.laidFor.steps, w.laidFor.rate = p.Steps, p.RatePerMin
	}
	c, l := w.ring.Compartments, w.ring.Links
	c[lv], c[rv] = p.LV.compartment(w.ventricle), p.RV.compartment(w.ventricle)
	c[la], c[ra] = p.LA.compartment(w.atrium), p.RA.compartment(w.atrium)
	c[arteries] = loop.Compartment{Emin: 1 / p.ArterialCompliance}
	c[veins] = loop.Compartment{Emin: 1 / p.VenousCompliance}
	c[pulmonaryArteries] = loop.Compartment{Emin: 1 / p.PulmonaryArterialComp}
	c[pulmonaryVeins] = loop.Compartment{Emin: emptyElastance,
		ExpA: 1 / (p.PulmonaryVenousStiffeningPML * p.PulmonaryVenousComp), ExpB: p.PulmonaryVenousStiffeningPML}
	l[lv] = valve(p.AorticAreaCM2, otherColumnCM, p.CharacteristicResistance)
	l[arteries] = loop.Link{R: p.SystemicResistance}
	l[veins] = loop.Link{R: p.VenousResistance}
	l[ra] = valve(p.TricuspidAreaCM2, otherColumnCM, 0)
	l[rv] = valve(p.PulmonaryAreaCM2, otherColumnCM, 0)
	l[pulmonaryArteries] = loop.Link{R: p.PulmonaryResistance}
	l[pulmonaryVeins] = loop.Link{R: p.PulmonaryVenousRes}
	l[la] = valve(p.Mitral.AreaCM2, p.Mitral.ColumnCM, 0)
	l[la].LeakK = units.JetSpeedPerRootMMHg * float64(p.Leak.AreaCM2)
	if p.Leak.varies() {
		l[la].Leak = w.leak
		clear(w.leak)
	}
	if len(p.Mitral.Shape) > 0 {
		l[la].ForwardInvK2 = w.opening
		clear(w.opening)
	}
}

// total is the volume the loop must hold, mL.
func (w *Workspace) total() float64 {
	t := w.p.StressedVolumeML
	for i := range w.ring.Compartments {
		t += w.ring.Compartments[i].V0
	}
	return t
}

// coldStart shares the stressed volume out: typical chambers and arteries, the rest in the veins.
func (w *Workspace) coldStart() {
	x := w.solver.State()
	clear(x)
	share := [compartments]float64{lv: coldVentricle, arteries: coldArterial * w.p.ArterialCompliance,
		ra: coldFilling * w.p.RA.ComplianceMLPMMHg, rv: coldVentricle,
		pulmonaryArteries: 2 * coldFilling * w.p.PulmonaryArterialComp, pulmonaryVeins: coldFilling * w.p.PulmonaryVenousComp,
		la: coldFilling * w.p.LA.ComplianceMLPMMHg, veins: coldFilling * w.p.VenousCompliance / 2}
	sum := 0.0
	for _, s := range share {
		sum += s
	}
	for i := range share {
		x[i] = w.ring.Compartments[i].V0 + share[i]*w.p.StressedVolumeML/sum
	}
}

// restore sets the start to the last periodic state, a change of blood volume going to the veins.
func (w *Workspace) restore() {
	x := w.solver.State()
	copy(x, w.stressed)
	sum := 0.0
	for i := range w.ring.Compartments {
		sum += x[i]
		x[i] += w.ring.Compartments[i].V0
	}
	x[veins] += w.p.StressedVolumeML - sum
}

func (w *Workspace) keep(converged bool) {
	w.warm = converged
	copy(w.stressed, w.solver.State())
	for i := range w.ring.Compartments {
		w.stressed[i] -= w.ring.Compartments[i].V0
	}
}

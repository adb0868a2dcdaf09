package valve

import (
	"fmt"
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/beat"
	"annuloscope/sim/fault"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/mat"
)

const closedLoop = "closed loop"

const (
	circulationFit   = 1e-5 // relative misfit at which the fitted circulation reproduces the case; chosen
	circulationTries = 30
	impossibleFit    = 0.01 // relative misfit beyond which the stated numbers do not go together; chosen
)

// circulation is the closed loop fitted to a patient's volumes and pressures before treatment.
type circulation struct {
	params   beat.Params
	work     *beat.Workspace
	drop     float64 // mmHg, ventricle over atrium, mean over systole, of the patient as measured
	arterial float64 // mmHg, mean, of the patient as measured
	unsteady bool    // the last state had no steady beat
	factor   float64 // of the resistance in the last state: where the reflex starts from
	misfit   float64 // largest relative misfit of end-diastolic and end-systolic volume, arterial and atrial pressure
}

// unknowns of the fit, all positive, moved as logarithms: ventricular size, contractility, blood volume, resistance.
type unknowns [4]float64

func (u unknowns) apply(h anatomy.Heart, leak *systole, opening units.EffectiveCM2) beat.Params {
	p := beat.Resting().Grown(math.Exp(u[0]))
	p.RatePerMin = h.RatePerMin
	p.LA.ComplianceMLPMMHg = 1 / h.AtrialStiffness
	p.LV.EndSystolicElastance *= math.Exp(u[1])
	p.StressedVolumeML *= math.Exp(u[2])
	p.SystemicResistance *= math.Exp(u[3])
	p.Mitral.AreaCM2 = opening
	p = p.Leaking(leak.area)
	p.Leak.Course = leak.factors
	return p
}

// newCirculation fits the loop so that the state before treatment has the volumes and pressures the case states.
func newCirculation(h anatomy.Heart, leak *systole, opening units.EffectiveCM2) (*circulation, error) {
	c := &circulation{work: beat.NewWorkspace()}
	goal := [4]float64{h.EndDiastolicML, h.EndSystolicML, h.AtrialMeanMMHg, h.MeanArterialMMHg}
	u := unknowns{math.Log(h.EndDiastolicML / 120), math.Log(0.8 * 120 / h.EndDiastolicML * (1.6 - h.EndSystolicML/h.EndDiastolicML)), 0.1, 0}
	miss := func(u unknowns) ([4]float64, error) {
		p := u.apply(h, leak, opening)
		r, err := c.work.Solve(&p)
		if err != nil {
			return goal, err
		}
		now := [4]float64{r.EDVML, r.ESVML, r.LAMeanMMHg, r.AorticMean}
		var m [4]float64
		for i := range m {
			m[i] = math.Log(math.Max(now[i], 1e-3) / goal[i])
		}
		return m, nil
	}
	m, err := miss(u)
	if err != nil {
		return nil, noHeart(err)
	}
	var jac [4][4]float64
	for try := 0; try < circulationTries; try++ {
		if c.misfit = largest(m); c.misfit < circulationFit {
			break
		}
		if try%4 == 0 {
			if jac, err = slopes(u, m, miss); err != nil {
				return nil, noHeart(err)
			}
		}
		step, ok := newtonStep(jac, m)
		if !ok {
			break
		}
		next, err := lineSearch(u, m, step, miss, &m)
		if err != nil {
			return nil, noHeart(err)
		}
		u = next
	}
	if c.misfit = largest(m); c.misfit > impossibleFit {
		return nil, noHeart(fmt.Errorf("the nearest misses one by %.0f %%", 100*c.misfit))
	}
	c.params = u.apply(h, leak, opening)
	r, err := c.work.Solve(&c.params)
	if err != nil {
		return nil, noHeart(err)
	}
	c.arterial, c.factor = r.AorticMean, 1
	return c, nil
}

// noHeart says that the stated numbers of the heart do not go together.
func noHeart(err error) error {
	return &fault.Field{Path: "heart", Problem: "no circulation has these volumes and pressures with this leak (" + err.Error() + ")",
		Allowed: "end-diastolic and end-systolic volume, arterial and atrial pressure and a leak that go together",
		Fix:     "change heart.end_diastolic_ml, heart.end_systolic_ml, heart.mean_arterial_mmhg or heart.atrial_mean_mmhg"}
}

func largest(m [4]float64) float64 {
	most := 0.0
	for _, v := range m {
		most = math.Max(most, math.Abs(v))
	}
	return most
}

func slopes(u unknowns, m [4]float64, miss func(unknowns) ([4]float64, error)) (jac [4][4]float64, err error) {
	const h = 1e-4
	for k := range u {
		v := u
		v[k] += h
		n, err := miss(v)
		if err != nil {
			return jac, err
		}
		for i := range n {
			jac[i][k] = (n[i] - m[i]) / h
		}
	}
	return jac, nil
}

func newtonStep(jac [4][4]float64, m [4]float64) (step [4]float64, ok bool) {
	a, b := mat.NewDense(4, 4, nil), mat.NewVecDense(4, nil)
	for i := range jac {
		for k := range jac[i] {
			a.Set(i, k, jac[i][k])
		}
		b.SetVec(i, -m[i])
	}
	var x mat.VecDense
	if err := x.SolveVec(a, b); err != nil {
		return step, false
	}
	for i := range step {
		step[i] = math.Max(-0.6, math.Min(0.6, x.AtVec(i)))
	}
	return step, true
}

// lineSearch halves the step until the misfit falls; it keeps the last try when it does not.
func lineSearch(u unknowns, m, step [4]float64, miss func(unknowns) ([4]float64, error), out *[4]float64) (unknowns, error) {
	for scale := 1.0; ; scale /= 2 {
		v := u
		for i := range v {
			v[i] += scale * step[i]
		}
		n, err := miss(v)
		if err != nil && scale < 0.1 {
			return u, err
		}
		if err == nil && (largest(n) < largest(m) || scale < 0.1) { // a step out of the loop's range is too long
			*out = n
			return v, nil
		}
	}
}

// beatFlows solves the loop for one state with a factor on the body's resistance that the reflex sets.
func (c *circulation) beatFlows(heart *anatomy.Heart, p *plan, leak *systole, opening units.EffectiveCM2, factor float64) (flows, *Beats, error) {
	q := now(heart, c.params)
	if p.volume != 1 {
		q = q.Grown(p.volume)
	}
	q.SystemicResistance *= p.resistance * factor
	q.Mitral.AreaCM2 = opening
	q.Leak.AreaCM2, q.Leak.Course = leak.area, leak.factors
	r, err := c.work.Solve(&q)
	if err != nil {
		return flows{}, nil, asField("heart", err)
	}
	f := flows{tier: closedLoop, edv: r.EDVML, esv: r.ESVML, forward: r.ForwardStrokeML, leak: r.RegurgitantML,
		gradient: r.MeanGradientMMHg, atrialMean: r.LAMeanMMHg, atrialV: r.LAVWaveMMHg, arterial: r.AorticMean, rate: q.RatePerMin,
		early: r.EWaveCMS, lung: r.PASystolic, effectiveMean: r.LeakMeanCM2, effectivePeak: r.LeakPeakCM2, systolicDrop: r.MeanSystolicDropMMHg,
		converged: r.Status == beat.Converged, status: "converged"}
	if c.unsteady = !f.converged; c.unsteady {
		f.status = "circulation: no steady beat"
		if r.Status == beat.NoOpening {
			f.status = "circulation: a valve never opens or never closes"
		}
	}
	if c.misfit > 1e-3 {
		f.converged = false
		f.status = fmt.Sprintf("circulation: the stated volumes and pressures are met only to %.1f %%", 100*c.misfit)
	}
	return f, beatsOf(r), nil
}

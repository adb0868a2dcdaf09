package beat

import (
	"math"

	"annuloscope/sim/beat/loop"
	"annuloscope/sim/units"
)

func (v *Waves) allocate(n int) {
	for _, s := range []*[]float64{&v.Time, &v.LV, &v.LA, &v.Aorta, &v.PulmonaryArtery, &v.LVVolume, &v.LAVolume,
		&v.MitralForward, &v.LeakFlow, &v.AorticFlow, &v.PulmonaryVenousFlow, &v.LVElastance, &v.LeakArea} {
		*s = make([]float64, n)
	}
}

// measure fills the result from the last beat.
func (w *Workspace) measure(o loop.Outcome) {
	r, s := &w.result, w.solver
	waves := r.Waves
	*r = Result{Waves: waves, Status: NotConverged, Beats: o.Beats, Residual: o.Residual, RatePerMin: w.p.RatePerMin}
	if o.Converged {
		r.Status = Converged
	}
	w.copyWaves()
	n := w.ring.Steps
	total := w.total()
	for i := range n {
		sum := 0.0
		for c := range compartments {
			sum += s.V[c][i]
		}
		r.ConservationErrorML = max(r.ConservationErrorML, math.Abs(sum-total))
	}
	wv := &r.Waves
	r.ESVML, r.EDVML = extremes(wv.LVVolume)
	r.EF = (r.EDVML - r.ESVML) / r.EDVML
	r.ForwardStrokeML = s.Forward[lv] - s.Backward[lv]
	r.RegurgitantML = s.Backward[la]
	r.TotalStrokeML = r.ForwardStrokeML + r.RegurgitantML
	if r.TotalStrokeML > 0 {
		r.RegurgitantFrac = r.RegurgitantML / r.TotalStrokeML
	}
	r.CardiacOutputLPMin = r.ForwardStrokeML * r.RatePerMin / 1000
	_, r.LVPeakMMHg = extremes(wv.LV)
	r.AorticDiastolic, r.AorticSystolic = extremes(wv.Aorta)
	r.AorticMean = mean(wv.Aorta)
	r.PADiastolic, r.PASystolic = extremes(wv.PulmonaryArtery)
	r.PAMean = mean(wv.PulmonaryArtery)
	r.LAMeanMMHg = mean(wv.LA)
	if !w.findSystole(courseLevel) {
		if r.Status == Converged {
			r.Status = NoOpening
		}
		return
	}
	from, to := w.closeAt, w.openAt
	if !w.findSystole(0) || !w.findEjection() {
		if r.Status == Converged {
			r.Status = NoOpening
		}
		return
	}
	w.measureSystole(from, to)
	w.measureDiastole()
}

func (w *Workspace) copyWaves() {
	s, v := w.solver, &w.result.Waves
	n := w.ring.Steps
	h := w.ring.Period / float64(n)
	c := &w.ring.Links[la]
	for i := range n {
		v.Time[i] = float64(i) * h
		v.LV[i], v.LA[i] = s.P[lv][i], s.P[la][i]
		v.Aorta[i] = s.P[arteries][i] + w.p.CharacteristicResistance*s.Q[lv][i]
		v.PulmonaryArtery[i] = s.P[pulmonaryArteries][i]
		v.LVVolume[i], v.LAVolume[i] = s.V[lv][i], s.V[la][i]
		q := s.Q[la][i]
		v.MitralForward[i], v.LeakFlow[i] = max(q, 0), max(-q, 0)
		v.AorticFlow[i] = s.Q[lv][i]
		v.PulmonaryVenousFlow[i] = s.Q[pulmonaryVeins][i]
		v.LVElastance[i] = s.P[lv][i] / (s.V[lv][i] - w.p.LV.UnstressedML)
		k := c.LeakK
		if c.Leak != nil {
			k = c.Leak[(2*i-1+2*n)%(2*n)] // the second stage of the step before ends at this sample
		}
		v.LeakArea[i] = k / units.JetSpeedPerRootMMHg
	}
}

// findEjection sets the aortic times: the flow around its peak.
func (w *Workspace) findEjection() bool {
	q, n := w.result.Waves.AorticFlow, w.ring.Steps
	h := w.ring.Period / float64(n)
	top := 0
	for i := range q {
		if q[i] > q[top] {
			top = i
		}
	}
	if !(q[top] > 0) {
		return false
	}
	at := func(i int) float64 { return q[((i%n)+n)%n] }
	a, b := top, top
	for at(a-1) > 0 && a > top-n {
		a--
	}
	for at(b+1) > 0 && b < top+n {
		b++
	}
	if b-a >= n {
		return false
	}
	r := &w.result.Phases
	r.AorticOpen = float64(a-1) * h
	// Closing: the flow falls in a straight line to zero; go on from the last two open samples.
	r.AorticClose = float64(b) * h
	if d := at(b-1) - at(b); d > 0 {
		r.AorticClose += min(1, at(b)/d) * h
	}
	r.MitralClose, r.MitralOpen = w.closeAt, w.openAt
	r.MidDiastole = (w.openAt + w.closeAt + w.ring.Period) / 2
	return true
}

func (w *Workspace) wrapPhases() {
	p, T, n := &w.result.Phases, w.ring.Period, w.ring.Steps
	for _, t := range [...]*float64{&p.MitralClose, &p.AorticOpen, &p.AorticClose, &p.MitralOpen, &p.LeakFrom, &p.LeakTo, &p.MidSystole, &p.MidDiastole} {
		*t = math.Mod(math.Mod(*t, T)+T, T)
	}
	p.MidSystoleIndex = int(math.Round(p.MidSystole/T*float64(n))) % n
	p.MidDiastoleIndex = int(math.Round(p.MidDiastole/T*float64(n))) % n
}

// measureSystole measures between from and to, where the ventricle's pressure passes the atrium's by courseLevel. Near
// equal pressures the crossing itself may lie anywhere in late diastole, and what is averaged from there would jump.
func (w *Workspace) measureSystole(from, to float64) {
	r, v, n := &w.result, &w.result.Waves, w.ring.Steps
	h := w.ring.Period / float64(n)
	r.Phases.LeakFrom, r.Phases.LeakTo, r.Phases.MidSystole = from, to, (from+to)/2
	w.wrapPhases()
	a, b := from, to
	r.MidSystolicDropMMHg = w.at(v.LV, r.Phases.MidSystole) - w.at(v.LA, r.Phases.MidSystole)
	r.MidDiastolicDropMMHg = w.at(v.LV, r.Phases.MidDiastole) - w.at(v.LA, r.Phases.MidDiastole)
	r.MeanSystolicDropMMHg = w.average(v.LV, a, b) - w.average(v.LA, a, b)
	r.LeakMidCM2 = units.EffectiveCM2(w.at(v.LeakArea, r.Phases.MidSystole))
	r.LeakMeanCM2 = units.EffectiveCM2(w.average(v.LeakArea, a, b))
	peak := 0.0
	end := w.openAt + vWaveTail*timeScale(w.ring.Period)
	for k := int(math.Ceil(a / h)); float64(k)*h < end; k++ {
		i := ((k % n) + n) % n
		r.LAVWaveMMHg = max(r.LAVWaveMMHg, v.LA[i])
		if float64(k)*h < b {
			peak = max(peak, v.LeakArea[i])
		}
	}
	r.LeakPeakCM2 = units.EffectiveCM2(peak)
	r.IVRTS = math.Mod(w.openAt-r.Phases.AorticClose+2*w.ring.Period, w.ring.Period)
	r.LVEDPMMHg = w.at(v.LV, w.closeAt)
}

func extremes(a []float64) (lo, hi float64) {
	lo, hi = a[0], a[0]
	for _, x := range a {
		lo, hi = min(lo, x), max(hi, x)
	}
	return lo, hi
}

func mean(a []float64) float64 {
	s := 0.0
	for _, x := range a {
		s += x
	}
	return s / float64(len(a))
}

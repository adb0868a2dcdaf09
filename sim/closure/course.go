package closure

import (
	"math"

	"annuloscope/sim/units"
)

// Phase is one moment of systole relative to mid-systole, the phase of every Input.
type Phase struct {
	Time          float64 // 0 to 1 of systole
	Pressure      float64 // factor on the pressure, > 0
	SeptalLateral float64 // factor on the width of every section
	PapillaryMM   float64 // both papillary points, apical (negative: towards the annulus)
	Excess        float64 // factor on the elongation of faulty chords; what has no chord has none at any time
}

// Course is the closure over systole, one entry per phase.
type Course struct {
	Time      []float64
	Orifice   []units.EffectiveCM2
	TentingML []float64
	ContactMM []float64 // mean
	Speed     []float64 // of the jet, over that in mid-systole: root of the pressure factor
	Status    Status    // the worst of the phases
}

// TetheredPhases returns nine phases of a tethered valve: annulus as in anatomy.md S01 (functional: 33 early, 34 mid,
// 36 mm end), pressure a blunt half wave, papillary points moved so that the functional patient's tenting volume follows
// S01 (6.4 early, 5.2 mid, 4.6 at 78 %, 5.3 mL end). The leak is larger early and late than in mid-systole.
func TetheredPhases() []Phase { return append([]Phase(nil), tetheredPhases[:]...) }

// ProlapsePhases returns nine phases of a prolapsing or flail valve: as the ventricle empties the papillary tips come
// nearer to the annulus, so long chords leave more of the leaflet free and the leak comes late; a torn stretch is free from
// the beginning and leaks throughout. Course of the excess invented.
func ProlapsePhases() []Phase { return append([]Phase(nil), prolapsePhases[:]...) }

// Course solves the input at every phase and fills out. The clips keep the grip of mid, the mid-systolic result of the
// same input and clips (nil without clips): a clip is placed once and does not let go and grasp again within a beat. Each
// phase starts from the same phase of the workspace's last course of the valve, moved as the middle phase has moved, else
// from its neighbour towards the middle. Use a
// workspace of its own: it replaces the state that Curve shows. It panics on a phase without pressure or width, times
// that do not rise, or clips without their reports.
func (w *Workspace) Course(f *Fitted, in *Input, clips []Clip, mid *Result, phases []Phase, out *Course) {
	n := len(phases)
	if len(clips) > 0 && (mid == nil || len(mid.Clips) != len(clips)) {
		panic("closure: a course with clips needs their reports in mid-systole")
	}
	out.resize(n)
	w.resizePhases(f, n)
	for k := range n {
		i := outward(k, n)
		ph := phases[i]
		if !(ph.Pressure > 0) || !(ph.SeptalLateral > 0) || i > 0 && !(ph.Time > phases[i-1].Time) {
			panic("closure: phases need positive factors and rising times")
		}
		w.atPhase(in, ph)
		check(&w.phase)
		w.result.Status, w.result.Iterations = Converged, 0
		w.solvePhase(f, clips, mid, i, k)
		w.measure(f, &w.phase, &w.result)
		out.Time[i], out.Orifice[i] = ph.Time, w.result.EffectiveOrifice
		out.TentingML[i], out.ContactMM[i], out.Speed[i] = w.result.TentingVolumeML, w.result.Contact.Mean, math.Sqrt(ph.Pressure)
		if w.result.Status > out.Status {
			out.Status = w.result.Status
		}
	}
}

func (c *Course) resize(n int) {
	if cap(c.Time) < n {
		c.Time, c.Orifice = make([]float64, n), make([]units.EffectiveCM2, n)
		c.TentingML, c.ContactMM, c.Speed = make([]float64, n), make([]float64, n), make([]float64, n)
	}
	c.Time, c.Orifice = c.Time[:n], c.Orifice[:n]
	c.TentingML, c.ContactMM, c.Speed = c.TentingML[:n], c.ContactMM[:n], c.Speed[:n]
	c.Status = Converged
}

// resizePhases makes room for the state of n phases and forgets those of another valve.
func (w *Workspace) resizePhases(f *Fitted, n int) {
	if w.phaseOwner == f && len(w.phases) == n && w.owner == f {
		return
	}
	w.phaseOwner, w.phaseKept = f, false
	if len(w.phases) != n || n > 0 && len(w.phases[0]) != len(f.base) {
		w.phases = make([][]vec3, n)
		for i := range w.phases {
			w.phases[i] = make([]vec3, len(f.base))
		}
		w.drift, w.phaseEnded = make([]vec3, len(f.base)), make([]bool, n)
	}
}

// outward is the k-th of n phases from the middle: the later half in order, then the earlier half backwards.
func outward(k, n int) int {
	if m := n / 2; k < n-m {
		return m + k
	}
	return n - 1 - k
}

// solvePhase solves phase i, written in w.phase and the k-th in order, into the workspace and its result.
func (w *Workspace) solvePhase(f *Fitted, clips []Clip, mid *Result, i, k int) {
	p, out := &w.p, &w.result
	w.prepare(f, &w.phase, out)
	p.tol = courseToleranceMM
	defer func() { p.tol = 0 }()
	bind := func() (any bool) {
		w.unbound(f, out)
		for c := range clips {
			w.bind(&w.phase, c, &clips[c], mid.Clips[c].Grip)
			out.Clips = append(out.Clips, mid.Clips[c])
			any = any || mid.Clips[c].Grip > 0
		}
		return any
	}
	bonded := bind()
	from, ok := w.startPhase(i, k)
	if ok = ok && !w.phaseEnded[from]; ok {
		var it int
		it, ok = p.newton(maxIterations)
		out.Iterations += it
		ok = ok && w.trusted(f)
	}
	w.phaseEnded[i] = false
	if !ok {
		w.unbound(f, out)
		w.run(f, nil, false, out)
		copy(w.bare, p.x)
		w.hasB, w.phaseEnded[i] = false, w.ended
		if bonded {
			bind()
			w.runBonded(out)
		}
	}
	w.owner = f
	w.keepPulls() // of this state: a course reports no pulls of its own
	for j := range p.x {
		if k == 0 {
			for a := range p.x[j] {
				w.drift[j][a] = p.x[j][a] - w.phases[i][j][a]
			}
		}
		w.phases[i][j] = p.x[j]
	}
	if k == len(w.phases)-1 {
		w.phaseKept = true
	}
}

// startPhase sets the unknowns from which phase i, the k-th in order, starts, and returns the phase they come from; false
// when there is none.
func (w *Workspace) startPhase(i, k int) (from int, ok bool) {
	p, n := &w.p, len(w.phases)
	if !w.phaseKept {
		if k == 0 {
			return i, false
		}
		from = outward(k-1, n)
		if i == n/2-1 {
			from = n / 2
		}
		copy(p.x, w.phases[from])
		return from, true
	}
	copy(p.x, w.phases[i])
	for j := range p.x {
		for a := range p.x[j] {
			if k > 0 {
				p.x[j][a] += w.drift[j][a]
			}
		}
	}
	return i, true
}

// atPhase writes the input at one phase into w.phase.
func (w *Workspace) atPhase(in *Input, ph Phase) {
	st := append(w.phase.Line.Stations[:0], in.Line.Stations...)
	for i := range st {
		st[i].Annulus = scaledAnnulus(st[i].Annulus, ph.SeptalLateral)
		for k := range st[i].Papillary {
			st[i].Papillary[k].Z -= ph.PapillaryMM
		}
	}
	w.phase = *in
	w.phase.Line.Stations = st
	w.phase.Pressure *= ph.Pressure
	w.phase.State.excessChange = ph.Excess - 1
}

// At is the effective orifice at a time of systole: a monotone cubic through the phases, constant beyond the first and
// the last.
func (c *Course) At(time float64) units.EffectiveCM2 {
	n := len(c.Time)
	if n == 0 {
		return 0
	}
	if !(time > c.Time[0]) {
		return c.Orifice[0]
	}
	if time >= c.Time[n-1] {
		return c.Orifice[n-1]
	}
	i := 0
	for time >= c.Time[i+1] {
		i++
	}
	h := c.Time[i+1] - c.Time[i]
	t := (time - c.Time[i]) / h
	y0, y1 := float64(c.Orifice[i]), float64(c.Orifice[i+1])
	m0, m1 := h*c.slope(i), h*c.slope(i+1)
	return units.EffectiveCM2(y0 + t*(m0+t*(3*(y1-y0)-2*m0-m1+t*(2*(y0-y1)+m0+m1))))
}

// slope at phase i: the harmonic mean of the neighbouring differences, 0 at an extreme, so that At never overshoots.
func (c *Course) slope(i int) float64 {
	n := len(c.Time)
	d := func(j int) float64 { return float64(c.Orifice[j+1]-c.Orifice[j]) / (c.Time[j+1] - c.Time[j]) }
	switch {
	case i == 0:
		return d(0)
	case i == n-1:
		return d(n - 2)
	}
	a, b := d(i-1), d(i)
	if a*b <= 0 {
		return 0
	}
	return 2 * a * b / (a + b)
}

// Mean is the time mean of the effective orifice between the first and the last phase.
func (c *Course) Mean() units.EffectiveCM2 { return c.mean(func(float64) float64 { return 1 }) }

// FlowMean is the mean between the first and the last phase weighted with the speed of the jet: what the leak volume
// divided by the jet's velocity-time integral gives.
func (c *Course) FlowMean() units.EffectiveCM2 {
	i := 0
	return c.mean(func(t float64) float64 {
		for i < len(c.Time)-2 && t > c.Time[i+1] {
			i++
		}
		u := (t - c.Time[i]) / (c.Time[i+1] - c.Time[i])
		return c.Speed[i] + u*(c.Speed[i+1]-c.Speed[i])
	})
}

// mean weighs the orifice at rising times.
func (c *Course) mean(weight func(t float64) float64) units.EffectiveCM2 {
	n := len(c.Time)
	if n < 2 {
		return c.At(0)
	}
	var sum, total float64
	const steps = 200
	for i := 0; i < steps; i++ {
		t := c.Time[0] + (float64(i)+0.5)/steps*(c.Time[n-1]-c.Time[0])
		w := weight(t)
		sum += w * float64(c.At(t))
		total += w
	}
	return units.EffectiveCM2(sum / total)
}

// Peak is the greatest effective orifice of the phases.
func (c *Course) Peak() units.EffectiveCM2 {
	var top float64
	for _, o := range c.Orifice {
		top = math.Max(top, float64(o))
	}
	return units.EffectiveCM2(top)
}

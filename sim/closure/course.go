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
	Excess        float64 // factor on the excess of the chord faults
}

// Course is the closure over systole, one entry per phase.
type Course struct {
	Time      []float64
	Orifice   []units.EffectiveCM2
	TentingML []float64
	ContactMM []float64 // mean
	Status    Status    // the worst of the phases
}

// TetheredPhases returns nine phases of a tethered valve: annulus as in anatomy.md S01 (functional: 33 early, 34 mid,
// 36 mm end), pressure a blunt half wave, papillary points moved so that the functional patient's tenting volume follows
// S01 (6.4 early, 5.2 mid, 4.6 at 78 %, 5.3 mL end). The leak is larger early and late than in mid-systole.
func TetheredPhases() []Phase { return append([]Phase(nil), tetheredPhases[:]...) }

// ProlapsePhases returns nine phases of a prolapsing or flail valve: as the ventricle empties the papillary tips come
// nearer to the annulus, so faulty chords leave more of the leaflet free and the leak comes late. Course of the excess
// invented.
func ProlapsePhases() []Phase { return append([]Phase(nil), prolapsePhases[:]...) }

// Course solves the input at every phase, each from the one before, and fills out. Use a workspace of its own: it
// replaces the state that Curve shows. It panics on a phase without pressure or width, or times that do not rise.
func (w *Workspace) Course(f *Fitted, in *Input, clips []Clip, phases []Phase, out *Course) {
	n := len(phases)
	if cap(out.Time) < n {
		out.Time, out.Orifice = make([]float64, n), make([]units.EffectiveCM2, n)
		out.TentingML, out.ContactMM = make([]float64, n), make([]float64, n)
	}
	out.Time, out.Orifice = out.Time[:n], out.Orifice[:n]
	out.TentingML, out.ContactMM = out.TentingML[:n], out.ContactMM[:n]
	out.Status = Converged
	interval := w.Interval
	w.Interval = false
	for i, ph := range phases {
		if !(ph.Pressure > 0) || !(ph.SeptalLateral > 0) || i > 0 && !(ph.Time > phases[i-1].Time) {
			panic("closure: phases need positive factors and rising times")
		}
		w.atPhase(in, ph)
		w.Solve(f, &w.phase, clips, &w.result)
		out.Time[i], out.Orifice[i] = ph.Time, w.result.EffectiveOrifice
		out.TentingML[i], out.ContactMM[i] = w.result.TentingVolumeML, w.result.Contact.Mean
		if w.result.Status > out.Status {
			out.Status = w.result.Status
		}
	}
	w.Interval = interval
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

// Mean is the time mean of the effective orifice between the first and the last phase, Peak the greatest of the phases.
func (c *Course) Mean() units.EffectiveCM2 {
	n := len(c.Time)
	if n < 2 {
		return c.At(0)
	}
	var sum float64
	const steps = 200
	for i := 0; i < steps; i++ {
		t := c.Time[0] + (float64(i)+0.5)/steps*(c.Time[n-1]-c.Time[0])
		sum += float64(c.At(t)) / steps
	}
	return units.EffectiveCM2(sum)
}

// Peak is the greatest effective orifice of the phases.
func (c *Course) Peak() units.EffectiveCM2 {
	var top float64
	for _, o := range c.Orifice {
		top = math.Max(top, float64(o))
	}
	return units.EffectiveCM2(top)
}

package valve

import (
	"math"

	"annuloscope/sim/lab"

	"gonum.org/v1/gonum/spatial/r2"
)

// Numbers a laboratory chooses, and when it measures at all.
const (
	aliasCMPS     = 40.0 // aliasing speed of the flow-convergence estimate; usual 30 to 40, common practice
	labRootCMPS   = 50.0 // the laboratory's v = 50·√Δp, the trade's 4v² (physics.md A1)
	leakEdge      = 0.05 // a leak's end: width below this share of the widest place; chosen
	diameterError = 1.0  // mm, the misreading of the annulus whose effect is shown; chosen
	traceLeakML   = 3.0  // below it no leak is measured, as in sim/grade; chosen
)

// Laboratory is what a laboratory would read off this state with its own formulas, from the same waves and the real
// shape of the hole, beside what is true in the model. It needs the closed loop.
type Laboratory struct {
	AliasCMPS  float64   `json:"aliasing_speed_cm_s"`
	JetCMPS    float64   `json:"jet_peak_cm_s"`
	JetVTICM   float64   `json:"jet_velocity_time_integral_cm"`
	HalfTimeMS float64   `json:"pressure_half_time_ms"`
	Leaks      []Leaking `json:"leaks"` // each separate leaking stretch of the line
	Readings   []Reading `json:"readings"`
}

// Leaking is the shape of one leaking stretch in mid-systole.
type Leaking struct {
	Position  float64 `json:"position"` // of its centre, −1 to +1
	LengthMM  float64 `json:"length_mm"`
	WidthMM   float64 `json:"width_mm"`
	AreaMM2   float64 `json:"area_mm2"`
	RadiusMM  float64 `json:"convergence_radius_mm"` // straight out, where the blood passes the aliasing speed
	NearMM    float64 `json:"convergence_radius_near_field_mm"`
	FlowShare float64 `json:"flow_share"`
}

// Reading is one method's answer beside the true value.
type Reading struct {
	Code     string  `json:"code"`
	Of       string  `json:"of"` // opening, leak orifice, leak volume
	Method   string  `json:"method"`
	Unit     string  `json:"unit"`
	Value    float64 `json:"value"`
	True     float64 `json:"true"`
	ErrorPct float64 `json:"error_pct"`
	Why      string  `json:"why"` // why the method errs
	Source   string  `json:"source"`
}

// laboratory measures a state; nil without waves.
func laboratory(st *State, sh *Shapes) *Laboratory {
	b := sh.Beat
	if b == nil || len(b.Waves.Time) < 2 {
		return nil
	}
	l := &Laboratory{AliasCMPS: aliasCMPS, Leaks: []Leaking{}}
	l.inflow(st, b)
	if st.Regurgitation.VolumeML >= traceLeakML {
		l.leak(st, sh)
	}
	return l
}

// add appends a reading unless the method finds nothing.
func (l *Laboratory) add(code, of, method, unit string, value, true float64, why, source string) {
	if math.IsNaN(value) || math.IsInf(value, 0) || !(true > 0) {
		return
	}
	l.Readings = append(l.Readings, Reading{code, of, method, unit, value, true, 100 * (value/true - 1), why, source})
}

// inflow measures the opening from pressures and from the speed of the inflow.
func (l *Laboratory) inflow(st *State, b *Beats) {
	area := float64(st.Opening.EffectiveAreaCM2)
	w := diastole(b)
	forward := st.Beat.ForwardSVML
	speed := make([]float64, len(w.TimeS))
	doppler := lab.Wave{TimeS: w.TimeS, FlowMLPerS: w.FlowMLPerS, PressureMMHg: make([]float64, len(w.TimeS))}
	integral := 0.0
	for i, q := range w.FlowMLPerS {
		speed[i] = math.Max(q, 0) / area
		doppler.PressureMMHg[i] = (speed[i] / labRootCMPS) * (speed[i] / labRootCMPS)
		if i > 0 {
			integral += (speed[i] + speed[i-1]) / 2 * (w.TimeS[i] - w.TimeS[i-1])
		}
	}
	const of = "opening"
	l.add("gorlin", of, "Gorlin, flow through the valve", "cm²", float64(lab.GorlinFromWave(w, 0)), area,
		"one constant (37.7) stands for contraction and loss; the root of a mean is not the mean of a root; inertia", "physics.md B, S15")
	l.add("gorlin-forward", of, "Gorlin, forward output only", "cm²", float64(lab.GorlinFromWave(w, forward)), area,
		"the leak crosses the valve too, but the output measured at the aorta leaves it out", "physics.md B, S15")
	l.HalfTimeMS = lab.PressureHalfTime(doppler)
	if math.IsNaN(l.HalfTimeMS) {
		l.HalfTimeMS = 0
	} else {
		l.add("half-time", of, "Pressure half-time, 220 ÷ ms", "cm²", float64(lab.AreaFromHalfTime(l.HalfTimeMS)), area,
			"the 220 belongs to one compliance and one starting pressure, and to narrow valves", "physics.md B, S17, S20, S21")
	}
	l.add("continuity", of, "Continuity, aortic stroke ÷ inflow integral", "cm²", float64(lab.Continuity(forward, integral)), area,
		"a leak crosses the valve twice and the aorta never: the area reads too small by the leak fraction", "physics.md B")
}

// diastole is the inflow from the opening of the valve on, once round.
func diastole(b *Beats) lab.Wave {
	v := &b.Waves
	n := len(v.Time)
	dt := v.Time[1] - v.Time[0]
	first := int(math.Round(b.Phases.MitralOpen/dt)) % n
	w := lab.Wave{TimeS: make([]float64, n), PressureMMHg: make([]float64, n), FlowMLPerS: make([]float64, n)}
	for k := range n {
		i := (first + k) % n
		w.TimeS[k] = float64(k) * dt
		w.PressureMMHg[k] = v.LA[i] - v.LV[i]
		w.FlowMLPerS[k] = v.MitralForward[i] - v.LeakFlow[i]
	}
	return w
}

// leak measures the leak by difference of volumes and by flow convergence.
func (l *Laboratory) leak(st *State, sh *Shapes) {
	b, g := sh.Beat, &st.Regurgitation
	v := &b.Waves
	dt := v.Time[1] - v.Time[0]
	peak := 0.0
	for i := range v.Time {
		if d := v.LV[i] - v.LA[i]; d > 0 {
			peak = math.Max(peak, d)
			l.JetVTICM += labRootCMPS * math.Sqrt(d) * dt
		}
	}
	l.JetCMPS = labRootCMPS * math.Sqrt(peak)
	orifice, volume := float64(g.EffectiveOrificeCM2), g.VolumeML
	inflow := st.Beat.ForwardSVML + volume
	d := (st.AnnulusDiastole.SeptalLateralMM + st.AnnulusDiastole.CommissuralMM) / 2
	wide := (1 + diameterError/d) * (1 + diameterError/d)
	exact := lab.VolumetricLeak(inflow, st.Beat.ForwardSVML, l.JetVTICM)
	off := lab.VolumetricLeak(inflow*wide, st.Beat.ForwardSVML, l.JetVTICM)
	const of, ofVolume = "leak orifice", "leak volume"
	l.add("volumetric", of, "Volumetric: leak volume ÷ jet integral", "cm²", float64(exact.Orifice), orifice,
		"gives the mean over systole weighted with the speed of the jet; true is the mid-systolic orifice", "physics.md B, S26")
	l.add("volumetric-wide", ofVolume, "Volumetric, annulus read 1 mm too wide", "mL", off.LeakML, volume,
		"the leak is a small difference of two large volumes, and the diameter enters squared", "physics.md B, S26")

	q := v.LeakFlow[b.Phases.MidSystoleIndex]
	l.Leaks = leaks(sh.Stations)
	if len(l.Leaks) == 0 || !(q > 0) {
		return
	}
	far, near := lab.Convergence{}, lab.Convergence{}
	for i := range l.Leaks {
		k := &l.Leaks[i]
		k.RadiusMM = lab.SinkOf(lab.Shape{LengthMM: k.LengthMM, WidthMM: k.WidthMM}, q*k.FlowShare).AliasRadius(aliasCMPS)
		k.NearMM = lab.NearFieldRadius(outline(*k), q*k.FlowShare, aliasCMPS)
		a, c := lab.Hemisphere(k.RadiusMM/10, aliasCMPS, l.JetCMPS), lab.Hemisphere(k.NearMM/10, aliasCMPS, l.JetCMPS)
		far.FlowMLPerS, far.Orifice = far.FlowMLPerS+a.FlowMLPerS, far.Orifice+a.Orifice
		near.FlowMLPerS, near.Orifice = near.FlowMLPerS+c.FlowMLPerS, near.Orifice+c.Orifice
	}
	const slit = "the surface is taken for a half sphere; before a slit it is long and flat, so its radius is too small"
	l.add("convergence", of, "Flow convergence, half sphere", "cm²", float64(far.Orifice), orifice, slit, "physics.md B, S24")
	l.add("convergence-near", of, "Flow convergence, half sphere, near field", "cm²", float64(near.Orifice), orifice,
		"the same, with the inflow spread over the hole instead of along its length", "physics.md B, S24; near field computed")
	l.add("convergence-volume", ofVolume, "Flow convergence × jet integral", "mL", far.RegurgitantVolume(l.JetVTICM), volume,
		"one moment stands for all of systole", "physics.md B, S24")
}

// leaks cuts the line into its leaking stretches. Each is told as the ellipse of its area and of its second moment along
// the line, so that thin ends do not count as length.
func leaks(line []Station) []Leaking {
	widest, total := 0.0, 0.0
	for _, s := range line {
		widest = math.Max(widest, s.LeakMM)
	}
	var out []Leaking
	var k Leaking
	var atS, atX, square float64 // moments
	flush := func() {
		if k.AreaMM2 > 0 {
			mean := atX / k.AreaMM2
			k.Position = atS / k.AreaMM2
			k.LengthMM = 4 * math.Sqrt(square/k.AreaMM2-mean*mean)
			k.WidthMM = 4 * k.AreaMM2 / (math.Pi * k.LengthMM)
			if k.WidthMM > k.LengthMM {
				k.WidthMM, k.LengthMM = k.LengthMM, k.WidthMM
			}
			total += k.AreaMM2
			out = append(out, k)
		}
		k, atS, atX, square = Leaking{}, 0, 0, 0
	}
	for i := 1; i < len(line); i++ {
		a, b := &line[i-1], &line[i]
		if !(math.Min(a.LeakMM, b.LeakMM) > leakEdge*widest) {
			flush()
			continue
		}
		d := b.Junction.X - a.Junction.X
		area, x := d*(a.LeakMM+b.LeakMM)/2, (a.Junction.X+b.Junction.X)/2
		k.AreaMM2 += area
		atS += area * (a.S + b.S) / 2
		atX += area * x
		square += area * (x*x + d*d/12)
	}
	flush()
	for i := range out {
		out[i].FlowShare = out[i].AreaMM2 / total
	}
	return out
}

// outline is the stretch's ellipse.
func outline(k Leaking) []r2.Vec {
	const n = 48
	p := make([]r2.Vec, n)
	for i := range p {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		p[i] = r2.Vec{X: k.LengthMM / 2 * c, Y: k.WidthMM / 2 * s}
	}
	return p
}

// elongation is how elongated a leak is: length ÷ width of its largest stretch, 1 without one.
func elongation(all []Leaking) float64 {
	best, e := 0.0, 1.0
	for _, k := range all {
		if k.AreaMM2 > best && k.WidthMM > 0 {
			best, e = k.AreaMM2, k.LengthMM/k.WidthMM
		}
	}
	return e
}

package closure

import (
	"math"

	"annuloscope/sim/units"
)

// interval sets OrificeLow and OrificeHigh: how far the orifice moves when the invented constants do. Four variants, one
// constant at a time, each fitted to the same targets: margin tension low and high, jet narrow and wide. Deviations
// downward and upward add as root of the sum of squares. It is a cheap estimate: grips are kept from the nominal state,
// the solves stop at intervalToleranceMM, and a variant that does not converge is left out. The error of the targets
// themselves is not in it, so at the baseline the interval has no width.
func (w *Workspace) interval(f *Fitted, in *Input, out *Result) {
	nominal := float64(out.EffectiveOrifice)
	var down, up float64
	for v := 0; v < 4; v++ {
		tension, alt := MarginTension, variant{}
		switch v {
		case 0:
			tension = MarginTensionLow
		case 1:
			tension = MarginTensionHigh
		case 2:
			alt = f.narrow
		case 3:
			alt = f.wide
		}
		if v >= 2 && len(alt.base) == 0 {
			continue
		}
		orifice, ok := w.variant(f, in, out, tension, alt)
		if !ok {
			continue
		}
		d := orifice - nominal
		if d < 0 {
			down += d * d
		} else {
			up += d * d
		}
	}
	out.OrificeLow = units.EffectiveCM2(math.Max(nominal-math.Sqrt(down), 0))
	out.OrificeHigh = units.EffectiveCM2(nominal + math.Sqrt(up))
}

// variant solves the last state with another margin tension or another fit and returns its effective orifice (cm²).
func (w *Workspace) variant(f *Fitted, in *Input, out *Result, tension float64, alt variant) (float64, bool) {
	p, q := &w.p, &w.alt
	n := len(p.sec)
	q.resize(n)
	q.spacing, q.pressure, q.tension, q.tol, q.widths = p.spacing, p.pressure, tension, intervalToleranceMM, p.widths
	copy(q.sec, p.sec)
	copy(q.x, p.x)
	u := f.Report.UnevennessMM
	if len(alt.base) > 0 {
		u = alt.unevenness
		for i := range q.sec {
			a, b, s := &alt.base[i], &f.base[i], &q.sec[i]
			for k := range s.leaf {
				s.leaf[k].length *= a.sec.leaf[k].length / b.sec.leaf[k].length
				s.leaf[k].chord += a.sec.leaf[k].chord - b.sec.leaf[k].chord
			}
			s.base, s.n0 = a.sec.base, a.sec.n0
			q.x[i][2] += a.x[2] - b.x[2]
		}
	}
	if _, ok := q.newton(maxIterations); !ok {
		return 0, false
	}
	half := in.Line.LengthMM() / 2
	lambda := out.CouplingLengthMM * math.Sqrt(tension/p.tension)
	var area float64
	for i := range q.sec {
		left := 1.0
		for c := range out.Clips {
			if r := &out.Clips[c]; r.Grip > 0 {
				left *= beside(in.Line.Stations[i].S*half, half, &w.clips[c], r.Grip, lambda)
			}
		}
		area += weight(i, n) * meanGap(q.x[i][2], u*left) * w.open[i]
	}
	return Contraction * units.AreaToCM2(area*p.spacing), true
}

package closure

import (
	"math"

	"annuloscope/sim/units"
)

// section builds station i for growth, papillary displacement dm (mm) and the part lead (0 template, 1 baseline) of the
// way between the template's annulus and the baseline's, with the baseline's faults grown to the same part.
func (f *fitter) section(i int, growth, dm, lead float64) section {
	st := &f.in.Line.Stations[i]
	s := f.tmpl[i]
	for k := range s.leaf {
		l := &s.leaf[k]
		t := f.tmpl[i].leaf[k].a
		l.a = Point{t.X + lead*(st.Annulus[k].X-t.X), t.Z + lead*(st.Annulus[k].Z-t.Z)}
		q := st.normalPapillary(k)
		l.p = Point{q.X + lead*(st.Papillary[k].X-q.X) + dm*PapillaryPosterior,
			q.Z + lead*(st.Papillary[k].Z-q.Z) - dm*PapillaryApical}
		l.length *= growth
		l.chord += lead * f.prof[i].excess[k]
		l.compliant = 1 + lead*(f.prof[i].compliant[k]-1)
	}
	return s
}

// sweep solves all stations apart from each other and returns depth at s = 0 and mean overlap with their derivatives by
// growth and dm. It returns false when a station has no solution.
func (f *fitter) sweep(growth, dm, lead float64) (v [2]float64, dv [2][2]float64, ok bool) {
	const dg, dp = 1e-6, 1e-5
	n := len(f.x)
	var total float64
	for i := range f.x {
		p := &f.one
		p.sec[0] = f.section(i, growth, dm, lead)
		p.x[0] = f.x[i]
		it, good := p.newton(maxIterations)
		f.iter += it
		if !good {
			return v, dv, false
		}
		f.x[i] = p.x[0]
		f.asym[i] = p.out[0].leaf[0].c - p.out[0].leaf[1].c
		var grad [2]vec3
		for a, alt := range [2]section{f.section(i, growth+dg, dm, lead), f.section(i, growth, dm+dp, lead)} {
			p.assemble(p.out)
			p.sec[0] = alt
			p.evaluate(p.x, p.alt)
			for r := range p.step[0] {
				p.step[0][r] = -(p.alt[0].res[r] - p.out[0].res[r])
			}
			if !p.solveBlocks() {
				return v, dv, false
			}
			grad[a] = p.step[0]
			for r := range grad[a] {
				grad[a][r] /= [2]float64{dg, dp}[a]
			}
		}
		w := weight(i, n)
		total += w
		v[1] += w * f.x[i][2]
		dv[1][0] += w * grad[0][2]
		dv[1][1] += w * grad[1][2]
		if i == n/2 {
			a := [2]Point{f.section(i, growth, dm, lead).leaf[0].a, f.section(i, growth, dm, lead).leaf[1].a}
			v[0] = depth(a, f.x[i])
			w := math.Hypot(a[1].X-a[0].X, a[1].Z-a[0].Z)
			for q := range grad {
				dv[0][q] = -(grad[q][1]*(a[1].X-a[0].X) - grad[q][0]*(a[1].Z-a[0].Z)) / w
			}
		}
	}
	v[1] /= total
	dv[1][0] /= total
	dv[1][1] /= total
	return v, dv, true
}

// lead follows the fit from the template, where growth 1 and displacement 0 are exact, to the baseline's annulus and the
// goal (depth, mean overlap; NaN: no goal, normal lengths kept).
func (f *fitter) lead(goal [2]float64) (growth, dm float64, ok bool) {
	growth = 1
	start, _, ok := f.sweep(growth, dm, 0)
	if !ok {
		return growth, dm, false
	}
	saved := append([]vec3(nil), f.x...)
	for at, step := 0.0, 0.25; at < 1; {
		next := math.Min(at+step, 1)
		g, d, good := f.match(growth, dm, next, start, goal)
		if !good {
			copy(f.x, saved)
			step /= 2
			if step < 0.02 {
				return growth, dm, false
			}
			continue
		}
		growth, dm, at = g, d, next
		copy(saved, f.x)
	}
	return growth, dm, true
}

// match solves growth and displacement at one part of the way.
func (f *fitter) match(growth, dm, lead float64, start, goal [2]float64) (float64, float64, bool) {
	if math.IsNaN(goal[0]) {
		_, _, ok := f.sweep(growth, dm, lead)
		return growth, dm, ok
	}
	for it := 0; it < 25; it++ {
		v, dv, ok := f.sweep(growth, dm, lead)
		if !ok {
			return growth, dm, false
		}
		e0 := start[0] + lead*(goal[0]-start[0]) - v[0]
		e1 := start[1] + lead*(goal[1]-start[1]) - v[1]
		if math.Abs(e0)+math.Abs(e1) < fitMatchMM {
			return growth, dm, true
		}
		det := dv[0][0]*dv[1][1] - dv[0][1]*dv[1][0]
		sg := (e0*dv[1][1] - e1*dv[0][1]) / det
		sd := (dv[0][0]*e1 - dv[1][0]*e0) / det
		cap := math.Max(math.Abs(sg)/0.08, math.Abs(sd)/3)
		if math.IsNaN(cap) {
			return growth, dm, false
		}
		if cap > 1 {
			sg, sd = sg/cap, sd/cap
		}
		growth, dm = growth+sg, dm+sd
		if growth < 0.4 || growth > 3 || math.Abs(dm) > 30 {
			return growth, dm, false
		}
	}
	return growth, dm, false
}

// byShape places the closure line without mechanics: junction at the template's part of each section, depth in proportion
// to the section's width, overlap with the template's shape about the goal.
func (f *fitter) byShape(goal [2]float64) {
	n := len(f.x)
	var mean, total float64
	for i := range f.x {
		w := weight(i, n)
		mean += w * (1 - f.in.Line.Stations[i].S*f.in.Line.Stations[i].S)
		total += w
	}
	mean /= total
	central := span(f.in.Line.Stations[n/2].Annulus)
	for i, st := range f.in.Line.Stations {
		a := st.Annulus
		dx, dz, w := a[1].X-a[0].X, a[1].Z-a[0].Z, span(a)
		d := goal[0] * w / central
		f.x[i] = vec3{a[0].X + templateJunction*dx + d*dz/w, a[0].Z + templateJunction*dz - d*dx/w,
			goal[1] + (templateContactMidMM-templateContactEndMM)*(1-st.S*st.S-mean)}
		f.asym[i] = 0
	}
}

// shapeOverlap bends the overlap along the line, its mean kept at mean, until the orifice is the target's: first a
// deficit at the jet, less its mean, both in proportion to the sections' width, then a wider jet, then more unevenness; where the line leaks too much without a deficit its shape
// is flattened, and last the unevenness lowered. An orifice below dryOrificeCM2 counts as none.
func (f *fitter) shapeOverlap(t Targets, mean float64, rep *FitReport) {
	n := len(f.x)
	if t.JetSpreadMM > 0 {
		rep.JetSpreadMM = t.JetSpreadMM
	}
	free := make([]float64, n)
	for i := range free {
		free[i] = f.x[i][2]
	}
	target := math.Max(float64(t.EffectiveOrifice), dryOrificeCM2)
	goal := units.AreaFromCM2(target/Contraction) / f.in.Line.SpacingMM
	slack := units.AreaFromCM2(dryOrificeCM2) / f.in.Line.SpacingMM
	place := func(flat, deficit, spread, u float64) float64 {
		half := f.in.Line.LengthMM() / 2
		var bump, width, total, gap float64
		for i := range free {
			st := &f.in.Line.Stations[i]
			width += weight(i, n) * span(st.Annulus)
			bump += weight(i, n) * span(st.Annulus) * jet(st.S*half, t.JetPosition*half, spread)
			total += weight(i, n)
		}
		for i := range free {
			st := &f.in.Line.Stations[i]
			b := jet(st.S*half, t.JetPosition*half, spread) - bump/width
			f.x[i][2] = mean + flat*(free[i]-mean) - deficit*b*span(st.Annulus)/(width/total)
			gap += weight(i, n) * meanGap(f.x[i][2], u)
		}
		return gap - goal
	}
	wide := rep.JetSpreadMM * jetWideningMax
	switch u := unevennessStart; {
	case t.EffectiveOrifice < dryOrificeCM2 && place(1, 0, rep.JetSpreadMM, u) < slack:
	case place(1, 0, rep.JetSpreadMM, u) >= 0:
		if place(0, 0, rep.JetSpreadMM, u) >= 0 {
			rep.Flattening = 0
			rep.UnevennessMM = root(0, u, func(v float64) float64 { return place(0, 0, rep.JetSpreadMM, v) })
		} else {
			rep.Flattening = root(0, 1, func(v float64) float64 { return place(v, 0, rep.JetSpreadMM, u) })
		}
	case place(1, deficitMaxMM, rep.JetSpreadMM, u) >= 0:
		rep.DeficitMM = root(0, deficitMaxMM, func(v float64) float64 { return place(1, v, rep.JetSpreadMM, u) })
	case place(1, deficitMaxMM, wide, u) >= 0:
		rep.DeficitMM = deficitMaxMM
		rep.JetSpreadMM = root(rep.JetSpreadMM, wide, func(v float64) float64 { return place(1, deficitMaxMM, v, u) })
	default:
		rep.DeficitMM, rep.JetSpreadMM = deficitMaxMM, wide
		hi := u
		for hi < 100 && place(1, deficitMaxMM, wide, hi) < 0 {
			hi *= 2
		}
		rep.UnevennessMM = root(u, hi, func(v float64) float64 { return place(1, deficitMaxMM, wide, v) })
	}
	place(rep.Flattening, rep.DeficitMM, rep.JetSpreadMM, rep.UnevennessMM)
}

// jet is the shape of the local deficit: a bump of height 1.
func jet(x, centre, spread float64) float64 {
	z := (x - centre) / spread
	return math.Exp(-z * z / 2)
}

// root finds the rising sign change of f between lo and hi by bisection to the last bit that matters.
func root(lo, hi float64, f func(float64) float64) float64 {
	for i := 0; i < 100 && hi-lo > 1e-15*math.Max(1, math.Abs(hi)); i++ {
		mid := (lo + hi) / 2
		if f(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

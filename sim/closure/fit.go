package closure

import (
	"math"

	"annuloscope/sim/units"
)

// Fitted is a valve whose rest lengths reproduce a baseline. It is read-only after Fit or Template and may be shared.
type Fitted struct {
	Report FitReport

	spacing, pressure float64
	shift             Point // fitted papillary displacement
	base              []baseStation
	narrow, wide      variant // the same targets fitted with the narrowest and the widest jet
}

// variant is another fit of the same targets.
type variant struct {
	base       []baseStation // empty: no such variant
	unevenness float64
}

// baseStation is one station of the fitted baseline.
type baseStation struct {
	sec    section
	x      vec3
	excess [2]float64
	room   [2]float64 // chord excess that a change may add, mm
	pull   [2]Point   // on the annulus, N/mm
}

// fitter carries the search for growth and papillary displacement.
type fitter struct {
	in   *Input
	one  system // a single free section
	path path   // of that section's chords
	tmpl []section
	prof []profile
	x    []vec3
	asym []float64
	iter int
}

// Template returns the normal valve on the given input without targets: normal lengths for its annulus scaled to the
// template's diameter, then led to the input's own annulus. Status is NotConverged when that has no solution.
func Template(in *Input) (*Fitted, FitReport) { return fit(in, nil) }

// Fit finds rest lengths with which the baseline input shows the targets: leaflet growth and papillary displacement give
// depth and mean overlap, a local deficit at the jet and unevenness along the line give the orifice, and the lengths
// follow in closed form. It panics on a malformed input (no odd number of stations, pressure not positive, growth in
// the baseline, negative targets).
func Fit(in *Input, t Targets) (*Fitted, FitReport) {
	if !(t.DepthMM > -20 && t.DepthMM < 40) || !(t.ContactMM >= 0) || !(t.EffectiveOrifice >= 0) || t.JetSpreadMM < 0 {
		panic("closure: targets must be finite, contact and orifice not negative, depth between -20 and 40 mm")
	}
	return fit(in, &t)
}

func fit(in *Input, t *Targets) (*Fitted, FitReport) {
	check(in)
	if in.State.Growth != 0 {
		panic("closure: growth counts from the baseline, so the baseline's own growth must be 0")
	}
	n := len(in.Line.Stations)
	f := &fitter{in: in, tmpl: make([]section, n), prof: make([]profile, n), x: make([]vec3, n), asym: make([]float64, n)}
	f.one.resize(1)
	f.one.spacing, f.one.pressure, f.one.tol = 1, in.Pressure, fitToleranceMM
	out := &Fitted{spacing: in.Line.SpacingMM, pressure: in.Pressure, base: make([]baseStation, n)}
	rep := &out.Report
	rep.Status = Converged
	rep.start()
	half := in.Line.LengthMM() / 2
	for i, st := range in.Line.Stations {
		var ok bool
		f.tmpl[i], f.x[i], ok = templateSection(in, i)
		if !ok {
			rep.Status = Impossible
			return out, *rep
		}
		f.prof[i] = in.State.at(st.S*half, half)
	}
	goal := [2]float64{math.NaN(), math.NaN()}
	if t != nil {
		line := in.Line.LengthMM()
		meanGapMM := units.AreaFromCM2(float64(t.EffectiveOrifice.Anatomic(Contraction))) / line
		goal = [2]float64{t.DepthMM, t.ContactMM - meanGapMM}
	}
	growth, dm, ok := f.lead(goal)
	rep.Growth, rep.PapillaryMM, rep.Iterations = growth, dm, f.iter
	if !ok && t == nil {
		rep.Status = NotConverged
	}
	if !ok && t != nil {
		rep.Status, rep.PapillaryMM = FitByShape, 0
		dm = 0
		f.byShape(goal)
	}
	out.shift = Point{dm * PapillaryPosterior, -dm * PapillaryApical}
	if t != nil {
		f.variants(*t, goal[1], out)
		f.shapeOverlap(*t, goal[1], rep)
	}
	if !f.stations(out.base, out.shift) {
		rep.Status = Impossible
	}
	out.stiffness(f)
	out.findRoom(f)
	f.report(out, t)
	return out, *rep
}

// start sets what the search for the overlap starts from.
func (r *FitReport) start() {
	r.Growth, r.Flattening, r.DeficitMM = 1, 1, 0
	r.JetSpreadMM, r.UnevennessMM = DefaultJetSpreadMM, unevennessStart
}

// check panics on a malformed input.
func check(in *Input) {
	n := len(in.Line.Stations)
	if n < 3 || n%2 == 0 {
		panic("closure: the number of stations must be odd and at least 3")
	}
	if !(in.Line.SpacingMM > 0) || !(in.Pressure > 0) {
		panic("closure: spacing and pressure must be positive")
	}
	if !(in.State.Growth > -0.9) {
		panic("closure: growth must be above -0.9")
	}
}

// variants fits the narrowest and the widest jet and leaves the overlap as it was.
func (f *fitter) variants(t Targets, mean float64, out *Fitted) {
	free := append([]vec3(nil), f.x...)
	spread := t.JetSpreadMM
	if spread == 0 {
		spread = DefaultJetSpreadMM
	}
	for i, v := range []*variant{&out.narrow, &out.wide} {
		var rep FitReport
		rep.start()
		t.JetSpreadMM = spread * [2]float64{JetSpreadLowMM, JetSpreadHighMM}[i] / DefaultJetSpreadMM
		f.shapeOverlap(t, mean, &rep)
		base := make([]baseStation, len(f.x))
		if f.stations(base, out.shift) {
			v.base, v.unevenness = base, rep.UnevennessMM
		}
		copy(f.x, free)
	}
}

// stations sets the final lengths and the pulls on the annulus for the overlap in f.x.
func (f *fitter) stations(base []baseStation, shift Point) bool {
	for i := range f.x {
		b := &base[i]
		b.sec = f.section(i, 1, 0, 1)
		for k := range b.sec.leaf {
			b.sec.leaf[k].p.X += shift.X
			b.sec.leaf[k].p.Z += shift.Z
		}
		b.x, b.excess = f.x[i], f.prof[i].excess
		if !b.sec.closedForm(b.x, f.asym[i], f.in.Pressure) {
			return false
		}
		var o sectionOut
		var none [MaxClips]float64
		b.sec.place(b.x, &o)
		b.sec.base, b.sec.n0 = o.j, o.n
		if !b.sec.eval(b.x, [2]float64{}, &none, f.in.Pressure, &o) {
			return false
		}
		for k := range b.pull {
			b.pull[k] = pull(&b.sec, &o, k)
		}
	}
	return true
}

// stiffness reports the mean stiffness of the sections opened to a gap of 1 mm and the coupling length that follows.
func (out *Fitted) stiffness(f *fitter) {
	n := len(f.x)
	var compliance, count float64
	for i := range f.x {
		x := f.x[i]
		x[2] = -1
		if k := out.base[i].sec.openStiffness(x, f.asym[i], f.in.Pressure); k > 0 && k < 10 {
			w := weight(i, n)
			compliance += w / k
			count += w
		}
	}
	k := 0.03 // the feasibility sheet's value, when no section has a stiffness
	if count > 0 {
		k = count / compliance
	}
	out.Report.SectionStiffness = k
	out.Report.CouplingLengthMM = math.Sqrt(MarginTension / k)
}

// report fills what the fit implies.
func (f *fitter) report(out *Fitted, t *Targets) {
	rep := &out.Report
	n := len(out.base)
	var total float64
	for i := range out.base {
		l := &out.base[i].sec.leaf
		one := Lengths{l[0].length, l[1].length, l[0].chord, l[1].chord}
		if i == n/2 {
			rep.Central = one
		}
		w := weight(i, n)
		total += w
		rep.Mean.AnteriorMM += w * one.AnteriorMM
		rep.Mean.PosteriorMM += w * one.PosteriorMM
		rep.Mean.ChordAnteriorMM += w * one.ChordAnteriorMM
		rep.Mean.ChordPosteriorMM += w * one.ChordPosteriorMM
		e := meanGap(out.base[i].x[2], rep.UnevennessMM)
		rep.ContactMM += w * (e + out.base[i].x[2])
		rep.EffectiveOrifice += units.EffectiveCM2(Contraction * units.AreaToCM2(w*e*out.spacing))
	}
	for _, v := range []*float64{&rep.Mean.AnteriorMM, &rep.Mean.PosteriorMM, &rep.Mean.ChordAnteriorMM,
		&rep.Mean.ChordPosteriorMM, &rep.ContactMM} {
		*v /= total
	}
	if rep.Status == FitByShape {
		var tmpl float64
		for i := range f.tmpl {
			tmpl += weight(i, n) * (f.tmpl[i].leaf[0].length + f.tmpl[i].leaf[1].length) / total
		}
		rep.Growth = (rep.Mean.AnteriorMM + rep.Mean.PosteriorMM) / tmpl
	}
	rep.DepthMM = depth(f.in.Line.Stations[n/2].Annulus, out.base[n/2].x)
}

// depth of the junction below the line between the annulus points, mm.
func depth(a [2]Point, x vec3) float64 {
	dx, dz := a[1].X-a[0].X, a[1].Z-a[0].Z
	return -((x[1]-a[0].Z)*dx - (x[0]-a[0].X)*dz) / math.Hypot(dx, dz)
}

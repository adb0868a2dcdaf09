package valve

import (
	"math"

	"annuloscope/sim/closure"
	"annuloscope/sim/leaflet"
)

// shellUnknowns are what the fit of a shell moves.
type shellUnknowns struct {
	growth   float64 // factor on the lengths that the sections imply
	lineMM   float64 // depth at which the chords hold the closed margin
	branchMM float64 // below that the chords branch: the shorter they are, the less the valve opens
}

// shellFit is a patient's shell, fitted to the sections' baseline.
type shellFit struct {
	x        shellUnknowns
	tissue   leaflet.Anatomy
	whole    bool      // every station's overlap counts (shellOverlap)
	residual []float64 // mm per section: overlap of the sections less that of the shell; carries the unevenness of the line
	depth    float64   // mm, sections less the shell's own; the fit makes it small
	hang     float64   // mm, sections less the shell's depth as reported (shellDepth), added to every later one
	mean     float64   // mm of overlap along the line, likewise; part of residual
	tent     float64   // mm², likewise
	volume   float64   // mL, likewise
	opening  float64   // measured opening over the shell's, a factor on every later area
	solves   int
}

// shellFitter fits one patient's shell to the sections' baseline.
type shellFitter struct {
	b            *baseline
	closed, open *leaflet.Solver
	goOn         func() bool
	ref          *closure.Result
	fit          *shellFit
}

// fitShell finds the unknowns with which the shell, in the annulus as measured, has the depth and the mean overlap of the
// sections' baseline and the opening as measured. What is missed stays as a residual that is added to every later value:
// both engines then start from one baseline and differ in their changes only. start is where to begin: the last
// patient's fit, or nil. It returns false when the work was called off.
func fitShell(b *baseline, closed, open *leaflet.Solver, start *shellUnknowns, goOn func() bool) (*shellFit, bool) {
	f := &shellFitter{b: b, closed: closed, open: open, goOn: goOn, fit: &shellFit{whole: b.torn()}, ref: b.reference()}
	x := shellUnknowns{1.08, f.ref.DepthMM + shellLineBelowMM, shellBranchMM}
	if start != nil {
		x = *start
	}
	var low, high, openLow, openHigh float64 // branches with an opening too small and too large, once known
	for round := 0; ; round++ {
		if !f.shut(&x) || !f.stand(x) {
			return f.fit, false
		}
		miss := 1/f.fit.opening - 1 // of the shell's opening against the measured one
		if math.Abs(miss) < shellFitShare || round == shellFitOpenings {
			return f.fit, f.afresh(x)
		}
		if miss < 0 {
			low, openLow = x.branchMM, miss
		} else {
			high, openHigh = x.branchMM, miss
		}
		next := x.branchMM - miss/shellOpeningPerMM
		if openLow < 0 && openHigh > 0 {
			next = low - openLow*(high-low)/(openHigh-openLow)
		}
		x.branchMM = within(next, shellBranchLowMM, shellBranchHighMM)
	}
}

// shut finds growth and line depth for the closed valve by Broyden's method from slopes that hold for most patients; the
// best state found is kept.
func (f *shellFitter) shut(x *shellUnknowns) bool {
	m, ok := f.try(*x)
	if !ok {
		return false
	}
	jac := shellSlopes
	best, least := *x, math.Hypot(m[0], m[1])
	for range shellFitRounds {
		if math.Abs(m[0]) < shellFitMM && math.Abs(m[1]) < shellFitMM {
			break
		}
		det := jac[0][0]*jac[1][1] - jac[0][1]*jac[1][0]
		if math.Abs(det) < 1e-6 {
			break
		}
		d := [2]float64{(jac[0][1]*m[1] - jac[1][1]*m[0]) / det, (jac[1][0]*m[0] - jac[0][0]*m[1]) / det}
		long := math.Max(1, math.Max(math.Abs(d[0]), math.Abs(d[1])))
		y := *x
		y.growth = within(x.growth+d[0]/long*growthStep, growthLow, growthHigh)
		y.lineMM = within(x.lineMM+d[1]/long*lineStepMM, lineLowMM, lineHighMM)
		d = [2]float64{(y.growth - x.growth) / growthStep, (y.lineMM - x.lineMM) / lineStepMM}
		length := d[0]*d[0] + d[1]*d[1]
		if length < 1e-8 {
			break
		}
		n, ok := f.try(y)
		if !ok {
			return false
		}
		for i := range jac {
			wrong := n[i] - m[i] - jac[i][0]*d[0] - jac[i][1]*d[1]
			jac[i][0] += wrong * d[0] / length
			jac[i][1] += wrong * d[1] / length
		}
		*x, m = y, n
		if miss := math.Hypot(m[0], m[1]); miss < least {
			best, least = y, miss
		}
	}
	if best != *x {
		*x = best
		_, ok = f.try(best)
	}
	return ok
}

// afresh solves the fitted states cold and reads what they miss. The folds at the commissures depend on the way a state was
// reached; the states to come start cold or go on from these, so these must not carry the way of the fit.
func (f *shellFitter) afresh(x shellUnknowns) bool {
	f.closed.Reset()
	f.open.Reset()
	_, ok := f.try(x)
	return ok && f.stand(x)
}

// try solves the shell closed and measures what it misses of depth and mean overlap, mm.
func (f *shellFitter) try(x shellUnknowns) (miss [2]float64, ok bool) {
	fit, ref := f.fit, f.ref
	in := f.b.shellBaseline(x)
	r, ok := solveShell(f.closed, in, f.goOn)
	if !ok {
		return miss, false
	}
	fit.solves++
	fit.x, fit.tissue = x, in.Anatomy
	fit.read(ref, r)
	return [2]float64{-fit.depth, -fit.mean}, true
}

// read takes what a shell in the state as measured misses of the sections.
func (fit *shellFit) read(ref *closure.Result, r *leaflet.Result) {
	over := shellOverlap(nil, r, len(ref.S), fit.whole)
	fit.residual = resized(fit.residual, len(over))
	for i := range over {
		fit.residual[i] = ref.OverlapMM[i] - over[i]
	}
	fit.depth, fit.mean = ref.DepthMM-r.DepthMM, meanOf(fit.residual)
	fit.hang = ref.DepthMM - shellDepth(r, ref.ContactMM)
	fit.tent, fit.volume = 100*ref.TentingAreaCM2-r.TentingAreaMM2, ref.TentingVolumeML-r.TentingVolumeMM3/1000
}

// stand opens the valve in diastole.
func (f *shellFitter) stand(x shellUnknowns) bool {
	r, ok := solveShell(f.open, f.b.openedShell(f.b.shellBaseline(x)), f.goOn)
	if ok {
		f.fit.opening = within(100*float64(f.b.opening)/math.Max(r.OpenMM2, 1), 0.2, 5)
	}
	return ok
}

// reference is the sections' state as measured, which both engines start from.
func (b *baseline) reference() *closure.Result {
	in := closure.Input{Pressure: shellPressure(b.pressure)}
	pap := papillaryAt(&b.patient, false, [2]closure.PapillaryShift{})
	closure.BuildLine(&in.Line, b.shape.baseline, &pap, 0)
	in.State = b.state(false, in.Line.LengthMM())
	var w closure.Workspace
	var r closure.Result
	w.Solve(b.fitted, &in, nil, &r)
	return &r
}

// shellBaseline is the closed valve as measured.
func (b *baseline) shellBaseline(x shellUnknowns) *leaflet.Input {
	in := leaflet.NewInput(b.shellTissue(x))
	in.PressureNMM2 = shellPressure(b.pressure)
	st := b.state(false, b.input.Line.LengthMM())
	shellChange(&in, &st)
	return &in
}

// openedShell is the same valve in mid-diastole, in the annulus before treatment.
func (b *baseline) openedShell(closed *leaflet.Input) *leaflet.Input {
	in := *closed
	in.Annulus, in.Phase, in.PressureNMM2 = b.shape.restDiastole, leaflet.Diastole, shellPressure(diastolicMMHg)
	return &in
}

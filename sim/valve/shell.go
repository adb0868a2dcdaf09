package valve

import (
	"fmt"
	"math"

	"annuloscope/sim/closure"
	"annuloscope/sim/leaflet"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// shellEngine keeps the shells of one patient between solves.
type shellEngine struct {
	closed, open *leaflet.Solver
	coarse, cold bool      // its mesh; the fit has no history
	patient      *baseline // that fit belongs to
	fit          *shellFit
	before       shellState
	beforeState  State
	beforeShapes Shapes
	after        treated
	openSurface  Surface    // last settled
	way          shellState // of Follow
	pressed      float64    // N/mm², of the last closed state
	goOn         func() bool
	worst        float64 // mm, largest residual of the solves since the last Settle began
	failed       string  // first state that did not settle
}

func (e *shellEngine) forget() {
	e.closed.Reset()
	e.open.Reset()
}

func newShellEngine(coarse bool) *shellEngine {
	columns, rows := leaflet.ShownColumns, leaflet.ShownRows
	if coarse {
		columns, rows = leaflet.DragColumns, leaflet.DragRows
	}
	return &shellEngine{coarse: coarse, closed: leaflet.New(columns, rows), open: leaflet.New(columns, rows)}
}

// shellState is one solved state of the shell.
type shellState struct {
	overlap, contact, gap []float64 // per section
	leak                  units.AnatomicCM2
	depth                 float64        // mm
	closed, open          leaflet.Result // summary numbers; slices belong to surfaces
	closedSurface         Surface
	openSurface           Surface
	chordN, papillaryN    float64
	tension               float64
}

// Settle gives the report of the case last solved by this Solver with the shell in the place of the sections: the shell
// is solved closed and open before and after the repairs, on the annulus of the ring, and what clips add to its pull
// goes back to the ring. The same keys are filled and Report.Engines says how far the engines differ. When the shell
// fails its checks the sections' numbers stand and a finding says so. goOn, if not nil, is asked between the iterations
// (a few ms each); when it says false the work stops and Settle returns false with r unchanged.
//
// r must be what Solve returned last, with the same options; it panics when nothing was solved.
func (s *Solver) Settle(r *Report, o Options, goOn func() bool) bool {
	if s.plan == nil {
		panic("valve: Settle before Solve")
	}
	if s.shell == nil || s.shell.coarse != o.Coarse {
		s.shell = newShellEngine(o.Coarse)
	}
	e := s.shell
	e.goOn, e.worst, e.failed = goOn, 0, ""
	if !o.Warm && !e.cold { // a cold answer must not depend on what was solved before
		e.forget()
		e.patient = nil
	}
	out := *r
	eng := &Engines{Status: "settled"}
	if !s.shellBefore(&out, eng, o) {
		return false
	}
	if e.failed == "" && !s.shellAfter(&out, s.plan, eng, o) {
		return false
	}
	eng.ResidualMM = e.worst
	if e.failed != "" {
		eng.Status = e.failed
		r.Engines = eng
		r.Findings = append(r.Findings, Finding{Code: "shell-failed", Severity: caution,
			Text: "The three-dimensional leaflets did not settle (" + e.failed + "): the numbers are those of the sections."})
		return true
	}
	out.Engines = eng
	out.Provenance.Engine = ShellEngine
	out.Provenance.Status = joinStatus(out.Before.Status, out.After.Status)
	out.Provenance.Converged = out.Provenance.Status == converged
	out.Change = out.change()
	s.judge(&out, s.plan)
	if eng.RingResidualN > shellToleranceN {
		out.Findings = append(out.Findings, Finding{Code: "shell-ring", Severity: caution,
			Text: fmt.Sprintf("The three-dimensional leaflets and the annulus did not quite come to balance under the clips: the pull on a node was still changing by %.2f N.", eng.RingResidualN)})
	}
	if s.base.torn() {
		out.Findings = append(out.Findings, Finding{Code: "shell-torn", Severity: note,
			Text: "A torn leaflet in three dimensions may have two places of rest, everted and fallen shut. The model starts afresh each time and keeps the first it finds; a heart may take the other.", Source: "limit of the model"})
	}
	*r = out
	return true
}

// solve solves one state of the shell and notes when it does not settle.
func (e *shellEngine) solve(s *leaflet.Solver, in *leaflet.Input, what string) (*leaflet.Result, bool) {
	r, ok := solveShell(s, in, e.goOn)
	if !ok {
		return nil, false
	}
	e.worst = math.Max(e.worst, r.ResidualMM)
	if in.Phase == leaflet.Systole {
		e.pressed = in.PressureNMM2
	}
	if r.Status != leaflet.Converged && e.failed == "" {
		e.failed = what + ": " + r.Status.String()
	}
	return r, true
}

// shellInput is the closed shell on an annulus, with what has changed since the measurements.
func (b *baseline) shellInput(f *shellFit, annulus []r3.Vec, pap closure.Papillary, pressure float64) *leaflet.Input {
	in := leaflet.NewInput(f.tissue)
	in.RestAnnulus, in.Annulus = f.tissue.RestAnnulus, annulus
	in.Tips = b.shellTips(pap, f.x)
	in.PressureNMM2 = shellPressure(pressure)
	st := b.state(true, b.input.Line.LengthMM())
	shellChange(&in, &st)
	return &in
}

// keepClosed takes over a closed state: the overlaps with the fit's residual, and what follows from them on the line.
func (e *shellEngine) keepClosed(dst *shellState, f *closure.Fitted, line *closure.Line, r *leaflet.Result, clips []closure.Clip, reports []closure.ClipReport) {
	n := len(line.Stations)
	dst.overlap = shellOverlap(dst.overlap, r, n, e.fit.whole)
	for i := range dst.overlap {
		dst.overlap[i] += e.fit.residual[i]
	}
	dst.contact, dst.gap = resized(dst.contact, n), resized(dst.gap, n)
	dst.leak = f.Along(line, dst.overlap, clips, reports, dst.contact, dst.gap)
	dst.depth = shellDepth(r, dst.contact) + e.fit.hang
	dst.closed, dst.closedSurface = summary(r), surfaceOf(r)
	dst.closedSurface.part(r, dst.gap)
	dst.chordN, dst.papillaryN, dst.tension = 0, math.Max(r3.Norm(r.PapillaryForceN[0]), r3.Norm(r.PapillaryForceN[1])), 0
	for _, v := range r.ChordLoadN {
		dst.chordN += v
	}
	for _, v := range r.TensionNMM {
		dst.tension += v / float64(len(r.TensionNMM))
	}
}

// keepOpen takes over an open state.
func (dst *shellState) keepOpen(r *leaflet.Result) {
	dst.open, dst.openSurface = summary(r), surfaceOf(r)
	dst.open.Orifices = nil
	for _, q := range r.Orifices {
		q.Outline = append([]r3.Vec(nil), q.Outline...)
		dst.open.Orifices = append(dst.open.Orifices, q)
	}
}

// summary is a result without its slices, which belong to the solver.
func summary(r *leaflet.Result) leaflet.Result {
	out := *r
	out.X, out.Triangles, out.UV, out.GapMM, out.ContactNMM2, out.InContact, out.TensionNMM = nil, nil, nil, nil, nil, nil, nil
	out.Line, out.LineContactMM, out.LineGapMM, out.Orifices, out.AnnulusForceN = nil, nil, nil, nil, nil
	out.BondTensionN = append([]float64(nil), r.BondTensionN...)
	return out
}

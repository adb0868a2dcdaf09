package closure

import "math"

// Workspace holds the memory of a solve and the last solution to start from. It belongs to one goroutine. The zero value
// is ready; a solve with a warm workspace does not allocate.
type Workspace struct {
	// Interval asks for OrificeLow and OrificeHigh (costs about one more solve).
	Interval bool

	p      system
	alt    system // for the interval
	owner  *Fitted
	bare   []vec3 // last solution without clips
	bonded []vec3 // last solution with clips
	hasB   bool
	ended  bool      // the last solution without clips was held at the end of the walk: nothing to start from
	goal   []section // sections of the wanted input, for continuation
	saved  []vec3
	path   path       // of the chords, for continuation
	pulls  [2][]Point // pull on the annulus without clips, N/mm
	left   []float64  // share of the unevenness that is left beside the clips
	open   []float64  // share of each station that the clips do not keep shut
	clips  [MaxClips]Clip
	lambda float64 // coupling length of the last state, mm

	phase      Input    // of a course
	result     Result   // of a course
	phases     [][]vec3 // last solution of each phase
	phaseOwner *Fitted
	phaseEnded []bool // of each phase, see ended
	phaseKept  bool   // every phase holds a solution
	drift      []vec3 // of the middle phase since the last course
}

// Reset makes the next solve start cold, from the fitted baseline, so that it depends on nothing solved before.
func (w *Workspace) Reset() { w.owner, w.phaseOwner = nil, nil }

// Solve is a cold solve into a new Result.
func Solve(f *Fitted, in *Input, clips []Clip) *Result {
	var w Workspace
	w.Interval = true
	out := new(Result)
	w.Solve(f, in, clips, out)
	return out
}

// Solve finds the closure of the fitted valve for the current input with up to MaxClips clips and fills out. It starts
// from the workspace's last solution for the same valve, else from the baseline, and leads the inputs from the baseline
// in steps when that fails. It panics on a malformed input, more than MaxClips clips, or another number of stations
// than the fit's.
func (w *Workspace) Solve(f *Fitted, in *Input, clips []Clip, out *Result) {
	w.solve(f, in, clips, nil, out)
}

// SolveHeld is Solve with clips that keep the grip of the reports held (from Judge) instead of being judged in this state:
// a clip is placed once, and does not let go and grasp again because it has itself drawn the annulus together. It panics
// unless there is one report a clip.
func (w *Workspace) SolveHeld(f *Fitted, in *Input, clips []Clip, held []ClipReport, out *Result) {
	if len(held) != len(clips) {
		panic("closure: held clips need one report each")
	}
	w.solve(f, in, clips, held, out)
}

// Judge solves the closure without clips and appends what each clip would hold to dst, which is returned. out is filled
// as by Solve without clips.
func (w *Workspace) Judge(f *Fitted, in *Input, clips []Clip, out *Result, dst []ClipReport) []ClipReport {
	w.solve(f, in, nil, nil, out)
	for c := range clips {
		clips[c].check()
		dst = append(dst, w.judge(in, &clips[c]))
	}
	return dst
}

func (w *Workspace) solve(f *Fitted, in *Input, clips []Clip, held []ClipReport, out *Result) {
	check(in)
	n := len(in.Line.Stations)
	if n != len(f.base) {
		panic("closure: the current input must have the baseline's number of stations")
	}
	if len(clips) > MaxClips {
		panic("closure: too many clips")
	}
	w.prepare(f, in, out)
	p := &w.p
	out.Status, out.Iterations = Converged, 0
	w.run(f, w.bare, w.owner == f, out)
	w.owner = f
	copy(w.bare, p.x)
	w.keepPulls()
	copy(w.clips[:], clips)
	if w.grips(f, in, clips, held, out) {
		w.runBonded(out)
		copy(w.bonded, p.x)
		w.hasB = true
	}
	w.measure(f, in, out)
	if w.Interval {
		w.interval(f, in, out)
	}
}

// prepare sizes the memory and writes the sections of the current input.
func (w *Workspace) prepare(f *Fitted, in *Input, out *Result) {
	n := len(f.base)
	if w.owner != f {
		w.hasB = false
	}
	p := &w.p
	p.resize(n)
	if cap(w.bare) < n {
		w.bare, w.bonded, w.saved, w.goal = make([]vec3, n), make([]vec3, n), make([]vec3, n), make([]section, n)
		w.pulls = [2][]Point{make([]Point, n), make([]Point, n)}
		w.left, w.open = make([]float64, n), make([]float64, n)
	}
	w.bare, w.bonded, w.saved, w.goal = w.bare[:n], w.bonded[:n], w.saved[:n], w.goal[:n]
	w.pulls[0], w.pulls[1], w.left, w.open = w.pulls[0][:n], w.pulls[1][:n], w.left[:n], w.open[:n]
	out.resize(n)
	p.spacing, p.pressure, p.tension = in.Line.SpacingMM, in.Pressure, MarginTension
	half := in.Line.LengthMM() / 2
	out.ExcessClamped = false
	for i := range p.sec {
		b, st := &f.base[i], &in.Line.Stations[i]
		prof := in.State.at(st.S*half, half)
		out.ExcessClamped = out.ExcessClamped || prof.clamped
		s := b.sec
		for k := range s.leaf {
			l := &s.leaf[k]
			l.a = st.Annulus[k]
			l.p = Point{st.Papillary[k].X + f.shift.X, st.Papillary[k].Z + f.shift.Z}
			l.length *= 1 + in.State.Growth
			more, clamped := clampExcess(prof.excess[k]-b.excess[k], b.room[k])
			out.ExcessClamped = out.ExcessClamped || clamped
			l.chord = math.Max(l.chord+more, 0.5)
			l.compliant = prof.compliant[k]
		}
		p.sec[i] = s
	}
}

// run solves p from start when it is warm, from the fitted baseline, or by continuation; out collects iterations and
// status.
func (w *Workspace) run(f *Fitted, start []vec3, warm bool, out *Result) {
	p := &w.p
	warm = warm && !w.ended
	w.ended = false
	if warm {
		copy(p.x, start)
		it, ok := p.newton(maxIterations)
		out.Iterations += it
		if ok && w.trusted(f) {
			return
		}
	}
	w.toBase(f)
	it, ok := p.newton(maxIterations)
	out.Iterations += it
	if ok && w.trusted(f) {
		return
	}
	if !w.continueBare(f, out) {
		out.Status = NotConverged
	} else if out.Status == Converged {
		out.Status = Continued
	}
}

// trusted tells whether a solution that Newton's method found at once may stand: with longer chords it may lie on another
// branch, beyond the limits at which the walk along the chords ends.
func (w *Workspace) trusted(f *Fitted) bool {
	if w.p.room(-bearMost) > 0 {
		return true
	}
	for i := range w.p.sec {
		for k := range w.p.sec[i].leaf {
			if w.p.sec[i].leaf[k].chord > f.base[i].sec.leaf[k].chord {
				return false
			}
		}
	}
	return true
}

func (w *Workspace) toBase(f *Fitted) {
	for i := range w.p.x {
		w.p.x[i] = f.base[i].x
	}
}

// runBonded solves p with the clips' pull, from the last bonded state, from the state without clips, or by raising the
// pull in steps.
func (w *Workspace) runBonded(out *Result) {
	p := &w.p
	for _, start := range [2][]vec3{w.bonded, w.bare} {
		if copy(p.x, start); !w.hasB {
			copy(p.x, w.bare)
		}
		it, ok := p.newton(maxIterations)
		out.Iterations += it
		if ok {
			return
		}
	}
	copy(w.goal, p.sec)
	copy(p.x, w.bare)
	reached := w.lead(out, minLead, func(t float64) {
		for i := range p.sec {
			for c := range p.sec[i].amp {
				p.sec[i].amp[c] = t * w.goal[i].amp[c]
			}
		}
	})
	if reached < 1 {
		out.Status = NotConverged
	} else if out.Status == Converged {
		out.Status = Continued
	}
}

package closure

import "math"

// grips judges each clip by the solved state without clips, writes the reports, the clips' pull into the sections and
// the unevenness they leave beside them. It returns whether any clip has an effect.
//
// Rule: grip = Hold · logistic((ReachMM − gap)/0.25 mm) · healthy share, with the gap and the share of calcification
// averaged over the clip's box. All clips are judged by the same state, so their order does not matter. A clip on one
// leaflet only has no grip. Where held is given, each clip keeps that report instead of being judged.
func (w *Workspace) grips(f *Fitted, in *Input, clips []Clip, held []ClipReport, out *Result) bool {
	w.unbound(f, out)
	any := false
	for c := range clips {
		cl := &clips[c]
		cl.check()
		var r ClipReport
		if held != nil {
			r = held[c]
		} else {
			r = w.judge(in, cl)
		}
		any = any || r.Grip > 0
		out.Clips = append(out.Clips, r)
	}
	for c := range clips {
		w.bind(in, c, &clips[c], out.Clips[c].Grip)
	}
	return any
}

func (c *Clip) check() {
	if !(c.WidthMM > 0) || !(c.Hold >= 0 && c.Hold <= 1) || !(math.Abs(c.Position) <= 1) || !(c.ReachMM >= 0) {
		panic("closure: a clip needs a positive width, hold 0 to 1, position -1 to 1 and reach >= 0")
	}
}

// unbound takes every clip out of the sections and the reports.
func (w *Workspace) unbound(f *Fitted, out *Result) {
	w.lambda = f.Report.CouplingLengthMM * math.Sqrt(w.p.tension/MarginTension)
	out.CouplingLengthMM = w.lambda
	out.Clips = out.Clips[:0]
	for i := range w.p.sec {
		w.p.sec[i].amp = [MaxClips]float64{}
		w.left[i], w.open[i] = 1, 1
	}
}

// bind writes the pull of clip c with the grip given into the sections and the unevenness it leaves beside it.
func (w *Workspace) bind(in *Input, c int, cl *Clip, grip float64) {
	p := &w.p
	half := in.Line.LengthMM() / 2
	lambda := w.lambda
	p.widths[c] = cl.WidthMM
	for i := range p.sec {
		x := in.Line.Stations[i].S * half
		b := grip * box(x, cl.Position*half, cl.WidthMM, clipEdgeMM)
		p.sec[i].amp[c] = b
		w.left[i] *= beside(x, half, cl, grip, lambda)
		w.open[i] *= 1 - b
	}
}

// beside is the share of unevenness that a clip leaves at x (mm): none at a full bond, all of it far away.
func beside(x, half float64, c *Clip, grip, lambda float64) float64 {
	away := softplus(math.Abs(x-c.Position*half)-c.WidthMM/2, clipEdgeMM)
	rho := grip * math.Exp(-away/lambda)
	return math.Sqrt(1 - rho*rho)
}

// judge is the report of one clip on the solved state without clips.
func (w *Workspace) judge(in *Input, c *Clip) ClipReport {
	p := &w.p
	half := in.Line.LengthMM() / 2
	var sum, gap float64
	var healthy, length [2]float64
	for i := range p.sec {
		b := box(in.Line.Stations[i].S*half, c.Position*half, c.WidthMM, clipEdgeMM)
		sum += b
		gap += b * p.out[i].g
		for k := range healthy {
			healthy[k] += b * p.sec[i].leaf[k].compliant
			length[k] += b * p.sec[i].leaf[k].length
		}
	}
	r := ClipReport{GapBeforeMM: gap / sum, Detached: c.Grasp != HoldsBoth}
	reached := logistic((c.ReachMM - r.GapBeforeMM) / gripRoundingMM)
	r.Grip = c.Hold * reached
	for k := range healthy {
		healthy[k] /= sum
		r.Grip *= healthy[k]
		r.HeldMM[k] = reached * healthy[k] * math.Min(math.Max(c.ReachMM-r.GapBeforeMM/2, 0), heldShare*length[k]/sum)
	}
	if r.Detached {
		r.Grip = 0
		r.HeldMM[1-int(c.Grasp-HoldsAnterior)] = 0
	}
	r.Grasped = r.Grip > 0.5*c.Hold && c.Hold > 0
	r.PoorGrip = c.Hold > 0 && !r.Detached && (r.Grip < PoorGrip*c.Hold || math.Min(r.HeldMM[0], r.HeldMM[1]) < PoorHeldMM)
	return r
}

package closure

import "math"

// lead applies the parts t of a change in growing steps from 0 to 1, solving each from the last, and returns the part that
// was reached; the state and the sections belong to it. It gives up when a step falls below least.
func (w *Workspace) lead(out *Result, least float64, apply func(t float64)) float64 {
	p := &w.p
	copy(w.saved, p.x)
	at, step := 0.0, 0.25
	for tries := 0; at < 1 && step >= least && tries < maxContinuing; tries++ {
		next := math.Min(1, at+step)
		apply(next)
		it, ok := p.newton(maxIterations)
		out.Iterations += it
		if ok {
			at, step = next, step*1.5
			copy(w.saved, p.x)
			continue
		}
		copy(p.x, w.saved)
		step /= 2
	}
	if at < 1 {
		apply(at)
		p.evaluate(p.x, p.out)
	}
	return at
}

// continueBare leads annulus, papillary points, leaflet lengths, stiffness and pressure from the baseline to the wanted
// input, then the chords. It returns false when the first part stalls. When the second stalls, the chord excess has no
// closed state beyond the part that was reached (a runaway flail): it stays there and is flagged as clamped.
func (w *Workspace) continueBare(f *Fitted, out *Result) bool {
	p := &w.p
	copy(w.goal, p.sec)
	pressure := p.pressure
	w.toBase(f)
	reached := w.lead(out, minLead, func(t float64) {
		p.pressure = f.pressure + t*(pressure-f.pressure)
		for i := range p.sec {
			p.sec[i] = mix(&f.base[i].sec, &w.goal[i], t)
		}
	})
	if reached < 1 {
		return false
	}
	w.path.p = p
	w.path.resize(len(p.sec))
	for i := range p.sec {
		for k := range p.sec[i].leaf {
			w.path.start[i][k], w.path.goal[i][k] = f.base[i].sec.leaf[k].chord, w.goal[i].leaf[k].chord
		}
	}
	reached = w.path.walk()
	out.Iterations += w.path.workings
	w.ended = reached < 1
	out.ExcessClamped = out.ExcessClamped || w.ended
	return true
}

// mix is the section at part t of the way from a to b, with the chords of a and no clips.
func mix(a, b *section, t float64) section {
	s := *b
	s.amp = [MaxClips]float64{}
	for k := range s.leaf {
		l, u, v := &s.leaf[k], &a.leaf[k], &b.leaf[k]
		l.a = Point{u.a.X + t*(v.a.X-u.a.X), u.a.Z + t*(v.a.Z-u.a.Z)}
		l.p = Point{u.p.X + t*(v.p.X-u.p.X), u.p.Z + t*(v.p.Z-u.p.Z)}
		l.length = u.length + t*(v.length-u.length)
		l.chord = u.chord
		l.compliant = u.compliant + t*(v.compliant-u.compliant)
	}
	return s
}

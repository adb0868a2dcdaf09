package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// measures is the working memory of Result.
type measures struct {
	push    []r3.Vec  // contact force per vertex
	contact []float64 // per column: contact length
	slot    []float64 // per column: closest distance
	throat  []r3.Vec  // per column: where that is
	station []r3.Vec  // per station: middle of both throats
	lines   scan
	orifice []r3.Vec
	probe   contact // a contact of its own, so that measuring on the way does not change the solve
}

// Stations is the number of stations of Result.Line, from s = −1 to 1.
const Stations = 81

// Result measures the present state, converged or not. The Result belongs to the solver: the next call overwrites it.
// It panics before the first Set. Cost about that of three iterations; no allocation after the first call.
func (s *Solver) Result() *Result {
	if !s.ready {
		panic("leaflet: Result before Set")
	}
	l, r, m := s.fine, &s.result, &s.m
	if s.onCoarse {
		s.prolong() // a picture of the state on its way; the fine level starts from it only when the coarse one is done
	}
	sh, h := l.sheet, l.shape
	n := len(sh.x)
	if r.S != h.s || r.T != h.t || len(r.X) != n {
		r.S, r.T, r.Triangles = h.s, h.t, sh.tris
		r.UV = make([][2]float64, n)
		for v := range r.UV {
			r.UV[v] = [2]float64{float64(v%h.s) / float64(h.s), float64(v/h.s) / float64(h.t-1)}
		}
		r.Line = make([]float64, Stations)
		for i := range r.Line {
			r.Line[i] = -1 + 2*float64(i)/(Stations-1)
		}
		r.X, r.InContact = make([]r3.Vec, n), make([]bool, n)
		r.GapMM, r.ContactNMM2, r.TensionNMM = make([]float64, n), make([]float64, n), make([]float64, n)
		r.LineContactMM, r.LineGapMM = make([]float64, Stations), make([]float64, Stations)
		m.push, m.contact, m.slot, m.throat = make([]r3.Vec, n), make([]float64, h.s), make([]float64, h.s), make([]r3.Vec, h.s)
		m.station = make([]r3.Vec, Stations)
	}
	copy(r.X, sh.x)
	r.Status, r.Iterations, r.Crossings, r.Cold = s.status, s.iterations, s.crossings, s.cold
	r.ResidualMM = l.relax.rms
	if s.onCoarse {
		r.ResidualMM = s.coarse.relax.rms
	}
	m.lend(sh)
	defer m.lend(sh)
	sh.contact.radius = 0 // nothing searched yet
	r.ThicknessMM = contactThickness
	sh.contact.detect(sh, searchNear)
	r.StrainEnergyMJ = sh.evaluate(false)
	sh.meanTension(r.TensionNMM)
	s.contactField()
	s.gapField()
	s.alongLine()
	s.section()
	s.forces()
	r.ProjectedGapMM2 = m.lines.uncovered(sh, h.s, contactCount/2*contactThickness)
	s.orifices()
	return r
}

// lend exchanges the contact of the sheet and the probe, which takes over the rules of the other.
func (m *measures) lend(sh *sheet) {
	if len(m.probe.near) != len(sh.x) || len(m.probe.ball) != len(sh.tris) {
		m.probe.init(sh)
	}
	p := &m.probe
	p.thickness, p.stiffness, p.exclusion, p.never = sh.contact.thickness, sh.contact.stiffness, sh.contact.exclusion, sh.contact.never
	sh.contact, m.probe = m.probe, sh.contact
}

// contactField fills the contact pressure per vertex from the barrier forces.
func (s *Solver) contactField() {
	sh, r, push := s.fine.sheet, &s.result, s.m.push
	c := &sh.contact
	clear(push)
	for v := range sh.x {
		for i := c.first[v]; i < c.first[v+1]; i++ {
			t := &c.touching[i]
			f := c.push(sh, v, t)
			push[v] = r3.Add(push[v], f)
			for k, i := range sh.tris[t.tri] {
				push[i] = r3.Sub(push[i], r3.Scale(t.w[k], f))
			}
		}
	}
	r.ContactForceN = 0
	for v := range push {
		f := r3.Norm(push[v])
		r.ContactNMM2[v] = f / sh.area[v]
		if j := v % s.s; j > 0 && 2*j < s.s {
			r.ContactForceN += f
		}
	}
}

// alongLine fills everything that runs along the coaptation line.
func (s *Solver) alongLine() {
	h, r, m := s.fine.shape, &s.result, &s.m
	for j := range h.s {
		m.contact[j], m.slot[j], m.throat[j] = s.column(j)
	}
	pick := func(v []float64, u float64) float64 {
		j, k, f := h.between(u)
		return (1-f)*v[j] + f*v[k]
	}
	point := func(u float64) r3.Vec {
		j, k, f := h.between(u)
		return r3.Add(r3.Scale(1-f, m.throat[j]), r3.Scale(f, m.throat[k]))
	}
	var sum, count [4]float64
	r.ContactMinMM, r.GapMaxMM, r.GapA1P1MM, r.GapA2P2MM, r.GapA3P3MM = math.Inf(1), 0, 0, 0, 0
	gaps := [3]*float64{&r.GapA1P1MM, &r.GapA2P2MM, &r.GapA3P3MM}
	for i, pos := range r.Line {
		ua, up := h.columnAt(Anterior, pos), h.columnAt(Posterior, pos)
		r.LineContactMM[i] = (pick(m.contact, ua) + pick(m.contact, up)) / 2
		r.LineGapMM[i] = max(0, (pick(m.slot, ua)+pick(m.slot, up))/2-contactCount*contactThickness)
		m.station[i] = r3.Scale(0.5, r3.Add(point(ua), point(up)))
		third := min(int((pos+1)*1.5), 2)
		r.GapMaxMM = max(r.GapMaxMM, r.LineGapMM[i])
		*gaps[third] = max(*gaps[third], r.LineGapMM[i])
		if math.Abs(pos) <= lineMeasured {
			sum[third] += r.LineContactMM[i]
			count[third]++
			sum[3] += r.LineContactMM[i]
			count[3]++
			r.ContactMinMM = min(r.ContactMinMM, r.LineContactMM[i])
		}
	}
	r.ContactA1P1MM, r.ContactA2P2MM, r.ContactA3P3MM = sum[0]/count[0], sum[1]/count[1], sum[2]/count[2]
	r.ContactMeanMM = sum[3] / count[3]
	r.SlotMM2, r.GapWidthMM = 0, 0
	for i := range Stations - 1 {
		ds := r3.Norm(r3.Sub(m.station[i+1], m.station[i]))
		a, b := r.LineGapMM[i], r.LineGapMM[i+1]
		r.SlotMM2 += (a + b) / 2 * ds
		r.GapWidthMM += ds * above(a, b, 1)
	}
}

// above is the part of a linear run from a to b that lies above limit.
func above(a, b, limit float64) float64 {
	switch {
	case a >= limit && b >= limit:
		return 1
	case a < limit && b < limit:
		return 0
	}
	return (max(a, b) - limit) / math.Abs(a-b)
}

// column measures column j: length in contact, closest distance, and its place (a mean weighted towards the closest
// rows, so that it moves smoothly).
func (s *Solver) column(j int) (contact, closest float64, throat r3.Vec) {
	r := &s.result
	limit := contactCount * contactThickness
	closest = math.Inf(1)
	for i := range s.t {
		closest = min(closest, r.GapMM[i*s.s+j])
	}
	weight := 0.0
	for i := range s.t {
		v := i*s.s + j
		w := math.Exp((closest - r.GapMM[v]) / throatBlend)
		weight += w
		throat = r3.Add(throat, r3.Scale(w, r.X[v]))
		if i > 0 {
			l := r3.Norm(r3.Sub(r.X[v], r.X[v-s.s]))
			contact += l * (1 - above(r.GapMM[v], r.GapMM[v-s.s], limit))
		}
	}
	return contact, closest, r3.Scale(1/weight, throat)
}

package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// section measures the long-axis section s = 0 from its septal-lateral line, and the tenting volume.
func (s *Solver) section() {
	h, r := s.fine.shape, &s.result
	ua, up := h.columnAt(Anterior, 0), h.columnAt(Posterior, 0)
	a, p := s.onColumn(ua, 0), s.onColumn(up, 0)
	e := r3.Unit(r3.Sub(p, a))
	up3 := r3.Vec{Z: 1}
	n := r3.Unit(r3.Sub(up3, r3.Scale(r3.Dot(up3, e), e)))
	ta, tp := s.top(ua), s.top(up)
	j := r3.Scale(0.5, r3.Add(s.onColumn(ua, ta), s.onColumn(up, tp)))
	r.DepthMM = -r3.Dot(r3.Sub(j, a), n)
	edge := float64(s.t - 1)
	r.MarginDepthMM = -r3.Dot(r3.Sub(r3.Scale(0.5, r3.Add(s.onColumn(ua, edge), s.onColumn(up, edge))), a), n)

	// Area under the line: a, anterior leaflet, j, posterior leaflet back, p.
	area := 0.0
	last := [2]float64{0, 0}
	visit := func(x r3.Vec) {
		d := r3.Sub(x, a)
		q := [2]float64{r3.Dot(d, e), r3.Dot(d, n)}
		area -= (q[0] - last[0]) * (q[1] + last[1]) / 2
		last = q
	}
	for i := 1.0; i < ta; i++ {
		visit(s.onColumn(ua, i))
	}
	visit(s.onColumn(ua, ta))
	visit(j)
	visit(s.onColumn(up, tp))
	for i := math.Ceil(tp) - 1; i >= 0; i-- {
		visit(s.onColumn(up, i))
	}
	r.TentingAreaMM2 = area
	r.TentingVolumeMM3 = s.volume()
	if s.in.Phase == Diastole {
		r.DepthMM, r.MarginDepthMM, r.TentingAreaMM2, r.TentingVolumeMM3 = 0, 0, 0, 0
	}
}

// onColumn is the point at fractional column u and fractional row i.
func (s *Solver) onColumn(u, i float64) r3.Vec {
	c, w := s.fine.shape.corners(u, i/float64(s.t-1))
	var x r3.Vec
	for k, v := range c {
		x = r3.Add(x, r3.Scale(w[k], s.result.X[v]))
	}
	return x
}

// top is the fractional row where contact begins on column u, coming from the annulus; without contact the row of
// the closest approach, weighted as in column.
func (s *Solver) top(u float64) float64 {
	r := &s.result
	gap := func(i int) float64 {
		j, k, f := s.fine.shape.between(u)
		return (1-f)*r.GapMM[i*s.s+j] + f*r.GapMM[i*s.s+k]
	}
	limit := contactCount * contactThickness
	closest := math.Inf(1)
	for i := range s.t {
		g := gap(i)
		if g <= limit {
			if i == 0 {
				return 0
			}
			before := gap(i - 1)
			return float64(i) - (limit-g)/(before-g)
		}
		closest = min(closest, g)
	}
	sum, weight := 0.0, 0.0
	for i := range s.t {
		w := math.Exp((closest - gap(i)) / throatBlend)
		weight += w
		sum += w * float64(i)
	}
	return sum / weight
}

// volume is what lies between the annular surface (a fan on the mean of the annulus) and the leaflets, without the
// layer between leaflets in contact.
func (s *Solver) volume() float64 {
	sh, r := s.fine.sheet, &s.result
	v := 0.0
	for _, t := range sh.tris {
		v -= r3.Dot(r.X[t[0]], r3.Cross(r.X[t[1]], r.X[t[2]])) / 6 // normals point into the lumen
	}
	cap := func(row int, sign float64) {
		var mid r3.Vec
		loop := r.X[row*s.s : (row+1)*s.s]
		for _, x := range loop {
			mid = r3.Add(mid, r3.Scale(1/float64(len(loop)), x))
		}
		for j, x := range loop {
			v += sign * r3.Dot(mid, r3.Cross(x, loop[(j+1)%len(loop)])) / 6
		}
	}
	cap(0, 1)
	cap(s.t-1, -1)
	for i := range r.X {
		if j := i % s.s; r.InContact[i] && j != 0 && j != s.s/2 {
			v -= sh.area[i] * r.GapMM[i] / 2
		}
	}
	return v
}

// forces sums chords, bonds and the pull on the annulus.
func (s *Solver) forces() {
	sh, h, r := s.fine.sheet, s.fine.shape, &s.result
	r.ChordLoadN = [ChordGroups]float64{}
	r.PapillaryForceN = [2]r3.Vec{}
	for i := range sh.chords {
		c := &sh.chords[i]
		r.ChordLoadN[c.group] += c.tension
		r.PapillaryForceN[c.muscle] = r3.Add(r.PapillaryForceN[c.muscle], r3.Scale(c.tension, c.dir))
	}
	r.BondTensionN = resize(r.BondTensionN, len(s.in.Bonds))
	for b := range r.BondTensionN {
		var sum r3.Vec
		for i := range sh.springs {
			if sh.springs[i].bond == b {
				sum = r3.Add(sum, sh.springs[i].force)
			}
		}
		r.BondTensionN[b] = r3.Norm(sum)
	}
	n := len(s.in.Annulus)
	r.AnnulusForceN = resize(r.AnnulusForceN, n)
	clear(r.AnnulusForceN)
	for j := range h.s {
		k := int(h.index[j])
		f := h.index[j] - float64(k)
		r.AnnulusForceN[k%n] = r3.Add(r.AnnulusForceN[k%n], r3.Scale(1-f, sh.force[j]))
		r.AnnulusForceN[(k+1)%n] = r3.Add(r.AnnulusForceN[(k+1)%n], r3.Scale(f, sh.force[j]))
	}
}

// orifices cuts the open margin into loops wherever the leaflets touch along the line (diastole only).
func (s *Solver) orifices() {
	r, m := &s.result, &s.m
	r.Orifices = r.Orifices[:0]
	m.orifice = m.orifice[:0]
	r.OpenMM2 = 0
	if s.in.Phase != Diastole {
		return
	}
	for i := 0; i < Stations; i++ {
		if r.LineGapMM[i] == 0 {
			continue
		}
		first := i
		for i+1 < Stations && r.LineGapMM[i+1] > 0 {
			i++
		}
		// The leaflets part between the last closed station and the first open one.
		o := Orifice{SFrom: r.Line[max(first-1, 0)], STo: r.Line[min(i+1, Stations-1)]}
		from := len(m.orifice)
		m.orifice = s.marginRun(m.orifice, Anterior, o.STo, o.SFrom)
		m.orifice = s.marginRun(m.orifice, Posterior, o.SFrom, o.STo)
		o.Outline = m.orifice[from:len(m.orifice):len(m.orifice)]
		var area r3.Vec
		for k, x := range o.Outline {
			area = r3.Add(area, r3.Cross(x, o.Outline[(k+1)%len(o.Outline)]))
		}
		o.AreaMM2 = r3.Norm(area) / 2
		if o.AreaMM2 >= smallestOrifice {
			r.Orifices = append(r.Orifices, o)
			r.OpenMM2 += o.AreaMM2
		}
	}
}

// marginRun appends the margin of one leaflet from station a to b, every vertex in between and both ends.
func (s *Solver) marginRun(out []r3.Vec, side Side, a, b float64) []r3.Vec {
	h := s.fine.shape
	row := float64(s.t - 1)
	u, w := h.columnAt(side, a), h.columnAt(side, b) // both rise: column numbers grow along this direction of travel
	out = append(out, s.onColumn(u, row))
	for j := math.Floor(u) + 1; j < w; j++ {
		out = append(out, s.onColumn(j, row))
	}
	return append(out, s.onColumn(w, row))
}

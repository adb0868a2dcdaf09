package closure

import "math"

// closedForm sets the rest lengths of section s so that x solves it without margin forces: the overlaps of the leaflets
// differ by asym and their rounded minimum is the contact. It returns false when a length is not positive.
func (s *section) closedForm(x vec3, asym, pressure float64) bool {
	var o sectionOut
	s.place(x, &o)
	mid := o.c + math.Sqrt(asym*asym+4*TipRoundingMM*TipRoundingMM)/2
	var none [MaxClips]float64
	s.leaf[0].length, s.leaf[0].chord, s.leaf[1].length, s.leaf[1].chord = 1, 1, 1, 1
	amp := s.amp
	s.amp = none
	ok := s.eval(x, [2]float64{}, &none, pressure, &o)
	s.amp = amp
	if !ok {
		return false
	}
	for k, sg := range side {
		l, f := &s.leaf[k], &o.leaf[k]
		c := mid + sg*asym/2
		el, _ := strain(f.tens, leafletToe, leafletScale, leafletStiff)
		ec, _ := strain(f.tens*math.Cos(f.delta), chordToe, chordScale, chordStiff)
		l.chord = (f.h - c) / (1 + ec*l.chordGive)
		l.length = (f.arc + c) / (1 + el*l.compliant)
		if !(l.chord > 0.5 && l.length > 0.5) {
			return false
		}
	}
	return true
}

// openStiffness is the closing force per length (N/mm²) that moves the margins of section s by 1 mm each when it stands
// open with its junction and (negative) overlap at x.
func (s section) openStiffness(x vec3, asym, pressure float64) float64 {
	if !s.closedForm(x, asym, pressure) {
		return math.NaN()
	}
	var o sectionOut
	var none [MaxClips]float64
	s.place(x, &o)
	if !s.eval(x, [2]float64{}, &none, pressure, &o) {
		return math.NaN()
	}
	a, b := &o.leaf[0], &o.leaf[1]
	_, da := smoothMin(a.c, b.c)
	rhs := vec3{-a.dr[2], -b.dr[2], -da*a.dc[2] - (1-da)*b.dc[2]}
	var jac, none3 mat3
	for r := range jac {
		for c := range jac[r] {
			jac[r][c] = o.jac[r][c]
		}
	}
	if !solve3(&jac, &none3, &rhs) {
		return math.NaN()
	}
	var y float64
	for k, sg := range side {
		dj := &o.dj[k]
		for c, v := range rhs {
			y += sg * (dj[0][c]*o.n.X + dj[1][c]*o.n.Z) * v / 2
		}
	}
	return 1 / y
}

// templateSection is the normal valve's section at station i: the annulus scaled to a septal-lateral diameter of
// templateAPMM at s = 0, depth in proportion to the section's width, contact falling from the middle to the ends.
func templateSection(in *Input, i int) (section, vec3, bool) {
	mid := &in.Line.Stations[len(in.Line.Stations)/2]
	scale := templateAPMM / span(mid.Annulus)
	st := &in.Line.Stations[i]
	a := scaledAnnulus(st.Annulus, scale)
	var s section
	for k := range s.leaf {
		s.leaf[k] = leafletIn{a: a[k], p: st.normalPapillary(k), bulge: BellyShare * BellyShare, compliant: 1, chordGive: 1}
	}
	dx, dz := a[1].X-a[0].X, a[1].Z-a[0].Z
	w := math.Hypot(dx, dz)
	depth := templateDepthMM * w / templateAPMM
	x := vec3{
		a[0].X + templateJunction*dx + depth*dz/w,
		a[0].Z + templateJunction*dz - depth*dx/w,
		templateContactEndMM + (templateContactMidMM-templateContactEndMM)*(1-st.S*st.S),
	}
	ok := s.closedForm(x, 0, in.Pressure)
	return s, x, ok
}

// normalPapillary is the papillary point of the template.
func (st *Station) normalPapillary(k int) Point {
	if st.Undisplaced == ([2]Point{}) {
		return st.Papillary[k]
	}
	return st.Undisplaced[k]
}

func span(a [2]Point) float64 { return math.Hypot(a[1].X-a[0].X, a[1].Z-a[0].Z) }

// scaledAnnulus scales a section's annulus in x about its middle.
func scaledAnnulus(a [2]Point, scale float64) [2]Point {
	m, h := (a[0].X+a[1].X)/2, (a[1].X-a[0].X)/2*scale
	return [2]Point{{m - h, a[0].Z}, {m + h, a[1].Z}}
}

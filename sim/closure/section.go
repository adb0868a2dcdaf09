package closure

import "math"

// vec3 holds the unknowns of a section: junction x, z and signed overlap σ (mm).
type vec3 [3]float64

// section is one station with its rest lengths and its place in the coupled line.
type section struct {
	leaf [2]leafletIn
	base [2]Point // leaflet junctions in the baseline
	n0   Point    // direction from anterior to posterior across the closure line in the baseline
	amp  [MaxClips]float64
}

// sectionOut is an evaluated section. The columns of jac are x, z, σ and the two margin forces.
type sectionOut struct {
	leaf  [2]leafletOut
	res   vec3
	jac   [3][5]float64
	c, g  float64    // contact, gap (mm)
	clip  float64    // clip force, N/mm
	force [2]float64 // closing force that reaches each leaflet, N/mm
	j     [2]Point   // leaflet junctions
	n     Point
	dj    [2][2][3]float64 // derivative of each leaflet junction (X, Z) by x, z, σ
}

var side = [2]float64{1, -1}

// contactGap splits the signed overlap: contact·gap = ε², contact − gap = σ; dc is the derivative of contact.
func contactGap(sigma float64) (c, g, dc float64) {
	root := math.Sqrt(sigma*sigma + 4*ContactRoundingMM*ContactRoundingMM)
	if sigma > 0 {
		c = (sigma + root) / 2
		g = ContactRoundingMM * ContactRoundingMM / c
	} else {
		g = (root - sigma) / 2
		c = ContactRoundingMM * ContactRoundingMM / g
	}
	return c, g, c / root
}

// place sets the junctions of both leaflets and their derivatives.
func (s *section) place(x vec3, o *sectionOut) {
	var dc float64
	o.c, o.g, dc = contactGap(x[2])
	px := (s.leaf[0].p.X + s.leaf[1].p.X) / 2
	pz := (s.leaf[0].p.Z + s.leaf[1].p.Z) / 2
	hx, hz := x[0]-px, x[1]-pz
	h := math.Sqrt(hx*hx + hz*hz)
	ux, uz := hx/h, hz/h
	o.n = Point{uz, -ux}
	for k, sg := range side {
		half := sg * o.g / 2
		o.j[k] = Point{x[0] - half*o.n.X, x[1] - half*o.n.Z}
		turn, slide := half/h, -sg*(dc-1)/2
		o.dj[k] = [2][3]float64{
			{1 + turn*ux*o.n.X, turn * ux * o.n.Z, slide * o.n.X},
			{turn * uz * o.n.X, 1 + turn*uz*o.n.Z, slide * o.n.Z},
		}
	}
}

// clipForce is the pull per length (N/mm) of the clips at gap g and its derivative.
func clipForce(amp *[MaxClips]float64, widths *[MaxClips]float64, g float64) (f, df float64) {
	for i, a := range amp {
		if a == 0 {
			continue
		}
		w := widths[i]
		e := math.Exp(-clipStiffness * g * w / clipForceMax)
		f += a * clipForceMax / w * (1 - e)
		df += a * clipStiffness * e
	}
	return f, df
}

// screen lets a closing force reach the leaflets only as far as they are apart: pressing goes into contact, opening
// still peels. It returns the force that remains and its derivatives by force and overlap.
func screen(f, c, g, dc float64) (out, df, dsigma float64) {
	root := math.Sqrt(f*f + screeningDelta*screeningDelta)
	push := (f + root - screeningDelta) / 2
	sum := c + g
	return f - dc*push, 1 - dc*(1+f/root)/2, -2 * c * g / (sum * sum * sum) * push
}

// smoothMin is the smaller of a and b, rounded by TipRoundingMM, and its derivative by a (that by b is the rest to 1).
func smoothMin(a, b float64) (m, da float64) {
	root := math.Sqrt((a-b)*(a-b) + 4*TipRoundingMM*TipRoundingMM)
	return (a + b - root) / 2, (1 - (a-b)/root) / 2
}

// eval fills residuals and derivatives for unknowns x and the margin's forces m (N/mm) on both leaflets. It returns
// false where a leaflet has no shape. place must have run for the same x.
func (s *section) eval(x vec3, m [2]float64, widths *[MaxClips]float64, pressure float64, o *sectionOut) bool {
	dc := o.c / (o.c + o.g)
	clip, dclip := clipForce(&s.amp, widths, o.g)
	o.clip = clip
	fd, fc := (m[0]+m[1])/2+clip, (m[0]-m[1])/2
	open, dopen, dsig := screen(fd, o.c, o.g, dc)
	dsig += dopen * dclip * (dc - 1)
	o.force = [2]float64{open + fc, open - fc}
	dforce := [2][2]float64{{(dopen + 1) / 2, (dopen - 1) / 2}, {(dopen - 1) / 2, (dopen + 1) / 2}}
	var dcol [2][5]float64
	for k, sg := range side {
		l := &o.leaf[k]
		if !s.leaf[k].eval(o.j[k], o.force[k], pressure, sg, l) {
			return false
		}
		o.res[k] = l.r
		dj := &o.dj[k]
		for i := 0; i < 3; i++ {
			o.jac[k][i] = l.dr[0]*dj[0][i] + l.dr[1]*dj[1][i]
			dcol[k][i] = l.dc[0]*dj[0][i] + l.dc[1]*dj[1][i]
		}
		o.jac[k][2] += l.dr[2] * dsig
		dcol[k][2] += l.dc[2] * dsig
		for i := 0; i < 2; i++ {
			o.jac[k][3+i] = l.dr[2] * dforce[k][i]
			dcol[k][3+i] = l.dc[2] * dforce[k][i]
		}
	}
	least, da := smoothMin(o.leaf[0].c, o.leaf[1].c)
	o.res[2] = least - o.c
	for i := range o.jac[2] {
		o.jac[2][i] = da*dcol[0][i] + (1-da)*dcol[1][i]
	}
	o.jac[2][2] -= dc
	return true
}

package closure

import "math"

// leafletIn is one leaflet of one section: an arc from the annulus A to the junction J, then a straight tail along the
// chord to the papillary point P.
type leafletIn struct {
	a, p      Point
	length    float64 // rest length of the leaflet, mm
	chord     float64 // rest length of the chord, mm
	bulge     float64 // share of the free arc's surplus of length over its chord, 1 without basal and strut chords
	compliant float64 // share of the strain law and of bending that calcification leaves, 0 to 1
	chordGive float64 // share of the chord's strain law, 1 in use, 0 for an inextensible chord
}

// leafletOut holds the residual, the overlap, their derivatives by (J.X, J.Z, force) and the shape of the arc.
type leafletOut struct {
	r, c   float64 // surplus of length, overlap of the tail below J (mm)
	dr, dc [3]float64
	d, t   float64 // chord of the arc (mm) and angle between chord and end tangent (rad)
	h      float64 // J to P (mm)
	delta  float64 // kink at J (rad)
	bear   float64 // 1 without a margin's force, below 0 where no kink can answer it (see floorC1)
	tens   float64 // tension of the arc, N/mm
	arc    float64 // arc length, mm
	u      Point   // direction of the tail upward
}

// strain of a law and its derivative at tension t (N/mm).
func strain(t, toe, scale, stiff float64) (e, de float64) {
	x := math.Exp(-t / scale)
	return toe*(1-x) + t/stiff, toe/scale*x + 1/stiff
}

// floorC1 is y above y1 and an exponential continuation with the same slope below, so it stays positive.
func floorC1(y, y1 float64) (f, df float64) {
	if y >= y1 {
		return y, 1
	}
	f = y1 * math.Exp((y-y1)/y1)
	return f, f / y1
}

// arcRatio is t/sin t and its derivative.
func arcRatio(t, sin, cos float64) (a, da float64) {
	if math.Abs(t) < 1e-3 {
		return 1 + t*t/6, t / 3
	}
	return t / sin, (sin - t*cos) / (sin * sin)
}

// tensionRatio is 1/sin t, continued linearly below tetherAngle, and its derivative.
func tensionRatio(t, sin, cos float64) (b, db float64) {
	if t < tetherAngle {
		sin, cos = math.Sincos(tetherAngle)
		db = -cos / (sin * sin)
		return 1/sin + db*(t-tetherAngle), db
	}
	return 1 / sin, -cos / (sin * sin)
}

// eval solves the leaflet for junction j (mm), closing force f (N/mm, perpendicular to the tail, towards the other
// leaflet) and pressure (N/mm²); sg is +1 for the anterior leaflet, −1 for the posterior. It returns false when the arc
// has no shape (angle near π).
func (l *leafletIn) eval(j Point, f, pressure, sg float64, o *leafletOut) bool {
	hx, hz := j.X-l.p.X, j.Z-l.p.Z
	h := math.Sqrt(hx*hx + hz*hz)
	ux, uz := hx/h, hz/h
	vx, vz := l.a.X-j.X, l.a.Z-j.Z
	d := math.Sqrt(vx*vx + vz*vz)
	theta := math.Atan2(sg*(ux*vz-uz*vx), ux*vx+uz*vz)
	sinT, cosT := (sg*(ux*vz-uz*vx))/d, (ux*vx+uz*vz)/d
	dd := [2]float64{-vx / d, -vz / d}
	dth := [2]float64{sg * (vz/(d*d) + uz/h), sg * (-vx/(d*d) - ux/h)}

	qf := 2 * l.compliant / (pressure * d)
	q := qf * f
	sF, dsF := floorC1(sinT, 0.05)
	o.bear = 1 + q*cosT
	yF, dyF := floorC1(o.bear, 0.3)
	num := q * sF
	den := num*num + yF*yF
	delta := math.Atan(num / yF)
	dq := (yF*sF - num*dyF*cosT) / den
	dtheta := (yF*q*dsF*cosT + num*dyF*q*sinT) / den
	dd2 := dq * (-q / d)

	t := theta - delta
	if !(t < maxAngle && t > -maxAngle) {
		return false
	}
	sin, cos := math.Sincos(t)
	ar, dar := arcRatio(t, sin, cos)
	ar, dar = 1+l.bulge*(ar-1), l.bulge*dar
	tr, dtr := tensionRatio(t, sin, cos)
	tens := pressure * d / 2 * tr
	cosD := yF / math.Sqrt(den)
	sinD := num / math.Sqrt(den)
	el, del := strain(tens, leafletToe, leafletScale, leafletStiff)
	ec, dec := strain(tens*cosD, chordToe, chordScale, chordStiff)
	ec, dec = ec*l.chordGive, dec*l.chordGive
	el *= l.compliant
	del *= l.compliant

	o.d, o.t, o.h, o.delta, o.tens, o.arc, o.u = d, t, h, delta, tens, d*ar, Point{ux, uz}
	o.c = h - l.chord*(1+ec)
	o.r = o.arc + o.c - l.length*(1+el)
	grad := [3][4]float64{ // by J.X, J.Z, f: derivatives of d, delta, t, h
		{dd[0], dtheta*dth[0] + dd2*dd[0], 0, ux},
		{dd[1], dtheta*dth[1] + dd2*dd[1], 0, uz},
		{0, dq * qf, 0, 0},
	}
	grad[0][2] = dth[0] - grad[0][1]
	grad[1][2] = dth[1] - grad[1][1]
	grad[2][2] = -grad[2][1]
	for i, g := range grad {
		dT := pressure / 2 * (tr*g[0] + d*dtr*g[2])
		dChord := dT*cosD - tens*sinD*g[1]
		o.dc[i] = g[3] - l.chord*dec*dChord
		o.dr[i] = ar*g[0] + d*dar*g[2] + o.dc[i] - l.length*del*dT
	}
	return true
}

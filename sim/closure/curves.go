package closure

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// arcSteps is the number of segments by which an arc is drawn and measured.
const arcSteps = 12

// CurvePoints is the number of points of one leaflet's curve: the arc from the annulus to the junction, then the tip.
const CurvePoints = arcSteps + 2

// arcPoints writes the belly of leaflet k from the annulus to the junction, arcSteps+1 points: the straight line plus
// BellyShare of the mechanical arc's offset from it.
func arcPoints(s *section, o *sectionOut, k int, dst []Point) {
	l := &o.leaf[k]
	a := s.leaf[k].a
	// The chord of the first part q of the arc has the angle t(1−q) to the whole chord and the length d·sin(tq)/sin t.
	dirX, dirZ := (o.j[k].X-a.X)/l.d, (o.j[k].Z-a.Z)/l.d
	scale := l.d
	bent := math.Abs(math.Sin(l.t)) > 1e-6
	if bent {
		scale = l.d / math.Sin(l.t)
	}
	for i := 0; i <= arcSteps; i++ {
		q := float64(i) / arcSteps
		along, off := l.d*q, 0.0
		if bent {
			length := scale * math.Sin(l.t*q)
			sin, cos := math.Sincos(side[k] * l.t * (1 - q))
			along, off = along+BellyShare*(length*cos-along), BellyShare*length*sin
		}
		dst[i] = Point{a.X + along*dirX - off*dirZ, a.Z + along*dirZ + off*dirX}
	}
}

// tip is the free edge of leaflet k.
func tip(o *sectionOut, k int) Point {
	l := &o.leaf[k]
	c := math.Max(l.c, 0)
	return Point{o.j[k].X - c*l.u.X, o.j[k].Z - c*l.u.Z}
}

// tent measures one section against the line between its annulus points: area below and above it (mm²) and the greatest
// height above it (mm).
func tent(s *section, o *sectionOut) (below, above, height float64) {
	var pts [2*arcSteps + 2]Point
	arcPoints(s, o, 0, pts[:arcSteps+1])
	var rev [arcSteps + 1]Point
	arcPoints(s, o, 1, rev[:])
	for i := range rev {
		pts[arcSteps+1+i] = rev[arcSteps-i]
	}
	a, b := s.leaf[0].a, s.leaf[1].a
	w := math.Hypot(b.X-a.X, b.Z-a.Z)
	ux, uz := (b.X-a.X)/w, (b.Z-a.Z)/w
	var lastX, lastZ float64
	for i, q := range pts {
		x := (q.X-a.X)*ux + (q.Z-a.Z)*uz
		z := (q.Z-a.Z)*ux - (q.X-a.X)*uz
		height = math.Max(height, z)
		if i > 0 {
			up, down := splitArea(lastX, lastZ, x, z)
			above += up
			below += down
		}
		lastX, lastZ = x, z
	}
	return below, above, height
}

// splitArea is the area of one step of a curve above and below z = 0.
func splitArea(x0, z0, x1, z1 float64) (above, below float64) {
	dx := x1 - x0
	switch {
	case z0 >= 0 && z1 >= 0:
		return dx * (z0 + z1) / 2, 0
	case z0 <= 0 && z1 <= 0:
		return 0, -dx * (z0 + z1) / 2
	}
	t := z0 / (z0 - z1)
	first, second := dx*t*z0/2, dx*(1-t)*z1/2
	if z0 > 0 {
		return first, -second
	}
	return second, -first
}

// Curve writes the curve of a leaflet at station i of the last solve in the section frame (mm): annulus, arc, junction,
// tip. dst must have room for CurvePoints; it returns dst[:CurvePoints].
func (w *Workspace) Curve(i int, k Leaflet, dst []Point) []Point {
	s, o := &w.p.sec[i], &w.p.out[i]
	arcPoints(s, o, int(k), dst[:arcSteps+1])
	dst[arcSteps+1] = tip(o, int(k))
	return dst[:CurvePoints]
}

// Curve3 writes the same curve in the valve frame; line is the input's line of the last solve.
func (w *Workspace) Curve3(line *Line, i int, k Leaflet, dst []r3.Vec) []r3.Vec {
	var buf [CurvePoints]Point
	for j, q := range w.Curve(i, k, buf[:]) {
		dst[j] = r3.Vec{X: line.Stations[i].XMM, Y: -q.X, Z: q.Z}
	}
	return dst[:CurvePoints]
}

// Junction returns the point where the leaflets meet at station i of the last solve, section frame.
func (w *Workspace) Junction(i int) Point { return Point{w.p.x[i][0], w.p.x[i][1]} }

// flail measures free tips: the distance from a leaflet's tip to the nearest point of the other leaflet, at its greatest
// over the stretches with a chord fault, and the length of line over which it exceeds FlailThresholdMM.
func (w *Workspace) flail(in *Input, out *Result) {
	out.FlailGapMM, out.FlailWidthMM = 0, 0
	var faulty [2]bool
	for _, f := range in.State.Faults {
		faulty[f.Leaflet] = true
	}
	if !faulty[0] && !faulty[1] {
		return
	}
	half := in.Line.LengthMM() / 2
	n := len(w.p.sec)
	var other [CurvePoints]Point
	for i := range w.p.sec {
		prof := in.State.at(in.Line.Stations[i].S*half, half)
		var wide float64
		for k := range faulty {
			if !faulty[k] || prof.excess[k] < FlailThresholdMM {
				continue
			}
			d := distance(tip(&w.p.out[i], k), w.Curve(i, Leaflet(1-k), other[:])) * w.open[i]
			out.FlailGapMM = math.Max(out.FlailGapMM, d)
			wide = math.Max(wide, logistic((d-FlailThresholdMM)/0.1))
		}
		out.FlailWidthMM += weight(i, n) * w.p.spacing * wide
	}
}

// distance of q to a polyline, mm.
func distance(q Point, line []Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		dx, dz := b.X-a.X, b.Z-a.Z
		t := ((q.X-a.X)*dx + (q.Z-a.Z)*dz) / math.Max(dx*dx+dz*dz, 1e-30)
		t = math.Min(1, math.Max(0, t))
		best = math.Min(best, math.Hypot(q.X-a.X-t*dx, q.Z-a.Z-t*dz))
	}
	return best
}

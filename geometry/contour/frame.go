package contour

import (
	"fmt"
	"math"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/spatial/r3"
)

// Frame is a place and three axes: where the standard frame of package geometry lies in the frame of the measured points.
type Frame struct {
	Origin  r3.Vec // mm
	X, Y, Z r3.Vec // unit, right-handed
}

// ToStandard returns p in the standard frame.
func (f Frame) ToStandard(p r3.Vec) r3.Vec {
	d := r3.Sub(p, f.Origin)
	return r3.Vec{X: r3.Dot(d, f.X), Y: r3.Dot(d, f.Y), Z: r3.Dot(d, f.Z)}
}

// FromStandard returns the place in the measured frame of a point q of the standard frame.
func (f Frame) FromStandard(q r3.Vec) r3.Vec {
	return r3.Add(f.Origin, r3.Add(r3.Scale(q.X, f.X), r3.Add(r3.Scale(q.Y, f.Y), r3.Scale(q.Z, f.Z))))
}

// Given are landmarks the user knows, in the frame and unit of the points; nil means find it. Commissures come in pairs.
type Given struct {
	A2, P2                                           *r3.Vec
	PosteromedialCommissure, AnterolateralCommissure *r3.Vec
	AtrialSide                                       *r3.Vec // any point well on the atrial side of the annulus
	Normal                                           *r3.Vec // of the annulus plane, towards the atrium; nil: least squares
}

func (g Given) scaled(k float64) Given {
	if k == 0 {
		k = 1
	}
	for _, p := range []**r3.Vec{&g.A2, &g.P2, &g.PosteromedialCommissure, &g.AnterolateralCommissure, &g.AtrialSide} {
		if *p != nil {
			q := r3.Scale(k, **p)
			*p = &q
		}
	}
	return g
}

func (g Given) check() error {
	if (g.PosteromedialCommissure == nil) != (g.AnterolateralCommissure == nil) {
		return fmt.Errorf("contour: one commissure is given: give both or none")
	}
	names := []string{"A2", "P2", "PosteromedialCommissure", "AnterolateralCommissure", "AtrialSide"}
	for i, p := range []*r3.Vec{g.A2, g.P2, g.PosteromedialCommissure, g.AnterolateralCommissure, g.AtrialSide} {
		if p != nil && !(math.Abs(p.X)+math.Abs(p.Y)+math.Abs(p.Z) < 1e6) {
			return fmt.Errorf("contour: landmark %s = %v is not finite: correct it", names[i], *p)
		}
	}
	if n := g.Normal; n != nil {
		if l := r3.Norm(*n); !(l > 0) || math.IsInf(l, 0) {
			return fmt.Errorf("contour: landmark Normal = %v has no direction: give three numbers that are not all 0", *n)
		}
		if g.AtrialSide != nil {
			return fmt.Errorf("contour: both Normal and AtrialSide are given: give one of them")
		}
	}
	return nil
}

// landmarkSet holds four places on the curve as indices of a dense closed curve (fractional), any of which may be given.
type landmarkSet struct {
	pm, al, a2, p2 float64
	found          []string // names of those found, not given
}

// findFrame decides the landmarks and the frame of a closed curve of evenly spaced points (counter-clockwise or not).
func findFrame(curve []r3.Vec, g Given, detail int) (Frame, landmarkSet, error) {
	plane := geometry.FitPlane(curve)
	sign := 0.0 // +1: plane.Normal points to the atrium
	if g.Normal != nil {
		plane.Normal, sign = r3.Unit(*g.Normal), 1
	}
	if g.AtrialSide != nil {
		h := plane.Height(*g.AtrialSide)
		if math.Abs(h) < 1 {
			return Frame{}, landmarkSet{}, fmt.Errorf("contour: landmark AtrialSide lies %.2g mm from the plane of the annulus: give a point farther away", math.Abs(h))
		}
		sign = math.Copysign(1, h)
	}
	index := func(p *r3.Vec) float64 { return nearestIndex(curve, *p) }
	var l landmarkSet
	if g.PosteromedialCommissure != nil {
		l.pm, l.al = index(g.PosteromedialCommissure), index(g.AnterolateralCommissure)
		return frameFromCommissures(curve, plane, sign, l, g)
	}
	low, high, sign, err := lowsAndHighs(curve, plane, sign, detail)
	if err != nil {
		return Frame{}, l, err
	}
	z := r3.Scale(sign, plane.Normal)
	l.found = append(l.found, "commissures")
	mid := r3.Scale(0.5, r3.Add(geometry.AtIndex(curve, low[0]), geometry.AtIndex(curve, low[1])))
	front, err := chooseFront(curve, plane, mid, high, g)
	if err != nil {
		return Frame{}, l, err
	}
	l.a2, l.p2 = high[front], high[1-front]
	for _, given := range []struct {
		p  *r3.Vec
		to *float64
		as string
	}{{g.A2, &l.a2, "A2"}, {g.P2, &l.p2, "P2"}} {
		if given.p != nil {
			*given.to = index(given.p)
		} else {
			l.found = append(l.found, given.as)
		}
	}
	y := r3.Sub(geometry.AtIndex(curve, l.a2), mid)
	y = r3.Sub(y, r3.Scale(r3.Dot(y, z), z))
	x := r3.Cross(y, z)
	l.pm, l.al = low[0], low[1]
	if r3.Dot(r3.Sub(geometry.AtIndex(curve, low[0]), mid), x) < 0 {
		l.pm, l.al = low[1], low[0]
	}
	return makeFrame(curve, plane, z, l), l, nil
}

// frameFromCommissures takes x from the given commissures; A2 (or the flatter half) tells front from back and, with the
// handedness of the frame, which side is the atrium.
func frameFromCommissures(curve []r3.Vec, plane geometry.Plane, sign float64, l landmarkSet, g Given) (Frame, landmarkSet, error) {
	pm, al := geometry.AtIndex(curve, l.pm), geometry.AtIndex(curve, l.al)
	mid := r3.Scale(0.5, r3.Add(pm, al))
	x := r3.Sub(pm, al)
	x = r3.Sub(x, r3.Scale(r3.Dot(x, plane.Normal), plane.Normal))
	if r3.Norm(x) < 1 {
		return Frame{}, l, fmt.Errorf("contour: the given commissures lie %.2g mm apart on the curve: they must be opposite", r3.Norm(x))
	}
	x = r3.Unit(x)
	y := r3.Cross(plane.Normal, x)
	across := [2]float64{crossIndex(curve, mid, y, x), crossIndex(curve, mid, r3.Scale(-1, y), x)}
	if math.IsNaN(across[0]) || math.IsNaN(across[1]) {
		return Frame{}, l, fmt.Errorf("contour: the middle between the given commissures lies outside the contour: correct them")
	}
	front, err := chooseFront(curve, plane, mid, across, g)
	if err != nil {
		return Frame{}, l, err
	}
	z := plane.Normal
	if front == 1 {
		z = r3.Scale(-1, z)
	}
	if sign != 0 && r3.Dot(z, plane.Normal)*sign < 0 {
		return Frame{}, l, fmt.Errorf("contour: the given commissures, A2 and atrial side contradict each other: the contour is mirrored, or the commissures are exchanged")
	}
	l.a2, l.p2 = across[front], across[1-front]
	if g.A2 != nil {
		l.a2 = nearestIndex(curve, *g.A2)
	} else {
		l.found = append(l.found, "A2")
	}
	if g.P2 != nil {
		l.p2 = nearestIndex(curve, *g.P2)
	} else {
		l.found = append(l.found, "P2")
	}
	return makeFrame(curve, plane, z, l), l, nil
}

// makeFrame puts the origin at the middle of the commissures in the plane and x towards the posteromedial one.
func makeFrame(curve []r3.Vec, plane geometry.Plane, z r3.Vec, l landmarkSet) Frame {
	pm, al := geometry.AtIndex(curve, l.pm), geometry.AtIndex(curve, l.al)
	x := r3.Sub(pm, al)
	x = r3.Unit(r3.Sub(x, r3.Scale(r3.Dot(x, z), z)))
	return Frame{Origin: plane.Project(r3.Scale(0.5, r3.Add(pm, al))), X: x, Y: r3.Cross(z, x), Z: z}
}

// chooseFront tells which of two opposite places is A2: the one nearer to the given A2 (farther from the given P2), else
// the one nearer to the line between the commissures, since the anterior part is flatter.
func chooseFront(curve []r3.Vec, plane geometry.Plane, mid r3.Vec, pair [2]float64, g Given) (int, error) {
	p := [2]r3.Vec{geometry.AtIndex(curve, pair[0]), geometry.AtIndex(curve, pair[1])}
	if g.A2 != nil || g.P2 != nil {
		near := 0.0 // positive when p[0] is A2
		if g.A2 != nil {
			near += r3.Norm(r3.Sub(p[1], *g.A2)) - r3.Norm(r3.Sub(p[0], *g.A2))
		}
		if g.P2 != nil {
			near += r3.Norm(r3.Sub(p[0], *g.P2)) - r3.Norm(r3.Sub(p[1], *g.P2))
		}
		if near >= 0 {
			return 0, nil
		}
		return 1, nil
	}
	flat := func(q r3.Vec) float64 { return r3.Norm(r3.Sub(plane.Project(q), plane.Project(mid))) }
	a, b := flat(p[0]), flat(p[1])
	if math.Abs(a-b) < minDifference*(a+b) {
		return 0, fmt.Errorf("contour: the two halves of the contour are alike (%.1f and %.1f mm deep), so front and back cannot be told apart: give the landmark A2", a, b)
	}
	if a < b {
		return 0, nil
	}
	return 1, nil
}

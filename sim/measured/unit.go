package measured

import (
	"fmt"
	"math"

	"annuloscope/geometry"
	"annuloscope/geometry/meshio"
	"annuloscope/sim/fault"

	"gonum.org/v1/gonum/spatial/r3"
)

// Unit is the unit of the coordinates.
type Unit string

// The units.
const (
	Auto       Unit = "auto"
	Millimetre Unit = "mm"
	Centimetre Unit = "cm"
	Metre      Unit = "m"
)

var units = []Unit{Millimetre, Centimetre, Metre}

// Scale is how many millimetres one of the unit is; it panics on Auto.
func (u Unit) Scale() float64 {
	switch u {
	case Millimetre:
		return 1
	case Centimetre:
		return 10
	case Metre:
		return 1000
	}
	panic("measured: the unit " + string(u) + " has no scale")
}

// unitOf checks the unit given, or finds the one in which the annulus has the size of an annulus.
func unitOf(in Input) (u Unit, found bool, err error) {
	round := roughPerimeter(in.Annulus.Points)
	fits := func(u Unit) bool {
		mm := round * u.Scale()
		return mm >= leastRoundMM && mm <= mostRoundMM
	}
	looks := Auto
	for _, v := range units {
		if fits(v) {
			looks = v
		}
	}
	stated := Auto
	for _, l := range []*meshio.Polyline{&in.Annulus, in.Sinus, in.Artery} {
		if l == nil || l.Unit == "" {
			continue
		}
		if u := Unit(l.Unit); stated != Auto && u != stated || in.Unit != Auto && in.Unit != "" && u != in.Unit {
			return "", false, &fault.Field{Path: "unit", Value: l.Unit, Problem: "a header states another unit than the other curves or the unit given",
				Allowed: "one unit for all curves", Fix: "convert the curves to one unit"}
		}
		stated = Unit(l.Unit)
	}
	if in.Unit == Auto || in.Unit == "" {
		in.Unit = stated
	}
	allowed := fmt.Sprintf("an annulus %g to %g mm round", leastRoundMM, mostRoundMM)
	switch in.Unit {
	case Auto:
		if looks == Auto {
			return "", false, &fault.Field{Path: "annulus", Value: fmt.Sprintf("about %.3g units round", round),
				Problem: "has the size of an annulus neither in mm nor in cm nor in m", Allowed: allowed, Fix: "check the points, or convert them to mm"}
		}
		return looks, true, nil
	case Millimetre, Centimetre, Metre:
		if fits(in.Unit) {
			return in.Unit, false, nil
		}
		fix := "check the points"
		if looks != Auto {
			fix = "the points look like " + string(looks)
		}
		return "", false, &fault.Field{Path: "unit", Value: string(in.Unit), Problem: fmt.Sprintf("makes the annulus about %.3g mm round", round*in.Unit.Scale()),
			Allowed: allowed, Fix: fix}
	}
	return "", false, &fault.Field{Path: "unit", Value: string(in.Unit), Problem: "no such unit", Allowed: "auto, mm, cm, m", Fix: "choose one of them"}
}

// roughPerimeter is that of a circle with the points' mean distance from their centre.
func roughPerimeter(p []r3.Vec) float64 {
	if len(p) == 0 {
		return math.NaN()
	}
	var centre r3.Vec
	for _, q := range p {
		centre = r3.Add(centre, r3.Scale(1/float64(len(p)), q))
	}
	sum := 0.0
	for _, q := range p {
		sum += r3.Norm(r3.Sub(q, centre))
	}
	return 2 * math.Pi * sum / float64(len(p))
}

// ordered tells whether the order of the points is that of the curve: the file says that it may be, and the line through
// the points is not much longer than a curve through them need be.
func ordered(p meshio.Polyline, closed bool) bool {
	n := len(p.Points)
	if !p.Ordered || n < 4 {
		return false
	}
	if closed {
		return geometry.Perimeter(p.Points) < tidy*roughPerimeter(p.Points)
	}
	// A shuffled open curve steps to and fro: its median step is then of the size of the curve.
	far := 0.0
	for _, q := range p.Points {
		far = math.Max(far, r3.Norm(r3.Sub(q, p.Points[0])))
	}
	return geometry.Length(p.Points) < 2*tidy*math.Pi/2*far
}

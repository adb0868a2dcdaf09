package orifice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"annuloscope/sim/hydraulic"
	"annuloscope/sim/units"
)

// Orifice is one opening between two bonds or a bond and a commissure.
type Orifice struct {
	Area        units.AnatomicCM2
	Outline     []r2.Vec // closed polygon in plan, mm, counter-clockwise seen from the atrium, first point not repeated
	FromMM      float64  // ends along x
	ToMM        float64
	MarginShare float64 // 0 excursion rules, 1 margin rules
}

// HeldBond is a bond with a hold, as drawn and loaded.
type HeldBond struct {
	Bond
	From, To r2.Vec  // ends of the bonded segment in plan, mm
	SpanMM   float64 // length of free margin chord next to it, both sides together, mm
}

// Result is the open valve.
type Result struct {
	Orifices    []Orifice // anterolateral first; none of area 0
	Bonds       []HeldBond
	Total       units.AnatomicCM2
	Effective   units.EffectiveCM2
	Contraction float64 // effective ÷ anatomic, hydraulic.Contraction

	septalLateralMM, commissuralMM float64
}

// Solve opens the valve. The error is that of Input.Validate; a valve wholly covered by bonds is no error: it has
// no orifice and area 0.
func Solve(in Input) (Result, error) {
	if err := in.Validate(); err != nil {
		return Result{}, err
	}
	bonds := sorted(in.Bonds)
	mix := mixture(in, bonds)
	res := Result{Contraction: hydraulic.Contraction, septalLateralMM: in.SeptalLateralMM,
		commissuralMM: in.CommissuralMM}
	half := in.CommissuralMM / 2
	cuts := []float64{-half}
	var firm []Bond
	for _, b := range bonds {
		if b.Hold >= SplitHold {
			cuts, firm = append(cuts, b.Position*half), append(firm, b)
		}
	}
	cuts = append(cuts, half)
	typical := stretches(in, firm)
	for i := 1; i < len(cuts); i++ {
		if o, ok := cell(in, mix, typical, cuts[i-1], cuts[i]); ok {
			res.Orifices = append(res.Orifices, o)
			res.Total += o.Area
		}
	}
	res.Effective = res.Total.Effective(res.Contraction)
	res.Bonds = held(in, bonds)
	return res, nil
}

// cell measures and outlines the opening between two cuts; false when nothing is open there.
func cell(in Input, mix []weighted, typical []stretch, a, b float64) (Orifice, bool) {
	area := 0.0
	for _, m := range mix {
		for _, s := range m.parts {
			area += m.weight * s.areaBetween(a, b)
		}
	}
	if area <= 0 {
		return Orifice{}, false
	}
	o := Orifice{Area: units.AnatomicCM2(units.AreaToCM2(area)), Outline: outline(in, mix, a, b, area)}
	if len(o.Outline) == 0 {
		return Orifice{}, false
	}
	o.FromMM, o.ToMM = math.Inf(1), math.Inf(-1)
	for _, p := range o.Outline {
		o.FromMM, o.ToMM = math.Min(o.FromMM, p.X), math.Max(o.ToMM, p.X)
	}
	for _, s := range typical {
		if mid := (s.from + s.to) / 2; mid > a && mid < b {
			o.MarginShare = s.marginShare
		}
	}
	return o, true
}

// held places the bonds in plan and gives each the free chord beside it.
func held(in Input, bonds []Bond) []HeldBond {
	half := in.CommissuralMM / 2
	inside := func(x float64) float64 { return math.Max(-half, math.Min(half, x)) }
	var out []HeldBond
	for i, b := range bonds {
		centre, w := b.Position*half, b.WidthMM/2
		left, right := -half, half
		if i > 0 {
			left = bonds[i-1].Position*half + bonds[i-1].WidthMM/2
		}
		if i+1 < len(bonds) {
			right = bonds[i+1].Position*half - bonds[i+1].WidthMM/2
		}
		span := math.Max(0, centre-w-left) + math.Max(0, right-centre-w)
		out = append(out, HeldBond{Bond: b, SpanMM: span,
			From: onLine(in, inside(centre-w)), To: onLine(in, inside(centre+w))})
	}
	return out
}

// BondTension estimates the force in N that pulls each held bond apart in diastole at a pressure difference in mmHg
// (use the peak gradient): the margins are strings under the pressure on a strip of leaflet a quarter of the
// septal-lateral diameter deep, and a string hands half of its load to each end, so a bond carries half the free
// spans beside it and its own width, times its hold. An estimate: no source gives a diastolic bond force.
func (r Result) BondTension(gradientMMHg float64) []float64 {
	load := units.PressureFromMMHg(math.Max(gradientMMHg, 0)) * loadedDepth * r.septalLateralMM // N/mm
	var out []float64
	for _, b := range r.Bonds {
		out = append(out, b.Hold*load*(b.SpanMM/2+b.WidthMM))
	}
	return out
}

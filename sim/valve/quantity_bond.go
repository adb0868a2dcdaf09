package valve

import "math"

// normalSeptalLateralMM is the mid-systolic mean of normal annuli (anatomy.md S01: 28 ± 4 mm).
const normalSeptalLateralMM = 28.0

// bondQuantities are the durability argument of an edge repair: what the bond carries, closed and open, and how much of the
// annulus's widening is left. They apply where a clip or stitch holds.
var bondQuantities = []Quantity{
	{"bond.tension_n", "Bond: pull when closed", "N", 2, Lower, "Greatest pull of a clip or stitch on the edges it joins", midSystole,
		"stiffness of the bond × the gap it holds shut", "constants of the bond are invented", common,
		func(s *State) float64 { return bond(s, func(c *Clip) float64 { return c.TensionN }) }},
	{"bond.diastolic_tension_n", "Bond: pull when open", "N", 2, Lower, "Greatest pull of a clip or stitch while blood flows in", midDiastole,
		"pressure difference on the tissue beside the bond", "an estimate from the opening's geometry", common,
		func(s *State) float64 { return bond(s, func(c *Clip) float64 { return c.Opening }) }},
	{"bond.annulus_left_mm", "Bond: annulus left too wide", "mm", 1, Lower, "Septal-lateral diameter above the normal mean of 28 mm, which the bond has to hold together", midSystole,
		"septal-lateral diameter − 28 mm", "0 when not above", "S01", func(s *State) float64 {
			return where(bonded(s), math.Max(0, s.Annulus.SeptalLateralMM-normalSeptalLateralMM))
		}},
}

func bonded(s *State) bool { return !math.IsNaN(bond(s, func(*Clip) float64 { return 0 })) }

// bond is the largest value of the bonds that hold, NaN without any.
func bond(s *State, of func(*Clip) float64) float64 {
	most := math.NaN()
	for i := range s.Clips {
		if c := &s.Clips[i]; c.Condition == "held" || c.Condition == "poor grip" {
			if v := of(c); !(v <= most) {
				most = v
			}
		}
	}
	return most
}

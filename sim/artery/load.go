package artery

import "math"

// Share says where a force per length on the vein goes; the three add to 1.
type Share struct {
	VeinWall float64
	Fat      float64
	Artery   float64
}

// BandShare returns how a unit of band force at a station is shared.
func BandShare(s Station, t Tissue) Share {
	return shareOut(t.filled(), below(s)*spread(tissueAbove(s.DepthMM, s.LumenMM/2), s.AsideMM, s.LumenMM/2))
}

// AnchorShare returns how a unit of one-sided anchor force at a station is shared. An anchor pushes towards the
// artery wherever it lies.
func AnchorShare(s Station, t Tissue) Share {
	inner := below(s)
	away := math.Hypot(s.DepthMM, s.AsideMM)
	return shareOut(t.filled(), (inner+outerBacking*(1-inner))*spread(tissueAbove(away, s.LumenMM/2), 0, s.LumenMM/2))
}

func shareOut(t Tissue, reach float64) Share {
	wall := t.VeinWall / (t.VeinWall + t.Fat)
	a := (1 - wall) * reach
	return Share{VeinWall: wall, Artery: a, Fat: 1 - wall - a}
}

// spread is the part of a line load on an elastic half-space that crosses a strip of half width a, centred aside of
// the load, at depth z below it (Flamant; all mm): ∫ 2z³/(π(x²+z²)²) dx. Between 0 and 1; on the line of force it
// falls from 1 at z = 0 and far below approaches 4a/(πz).
func spread(z, aside, a float64) float64 {
	f := func(x float64) float64 { return (x*z/(x*x+z*z) + math.Atan2(x, z)) / math.Pi }
	return f(math.Abs(aside)+a) - f(math.Abs(aside)-a)
}

// tissueAbove is the thickness of tissue in mm between contact line and near wall, never quite 0 (contactBlend).
func tissueAbove(depth, radius float64) float64 {
	gap := depth - radius
	return (gap + math.Sqrt(gap*gap+contactBlend*contactBlend)) / 2
}

// below is how much of the lumen lies on the heart's side of the contact line: 0 outside, 1 inside, smooth between.
func below(s Station) float64 {
	u := math.Max(0, math.Min(1, (s.DepthMM/(s.LumenMM/2)+1)/2))
	return u * u * (3 - 2*u)
}

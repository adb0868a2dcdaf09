package orifice

import (
	"math"
	"sort"

	"annuloscope/sim/units"
)

// stretch is one opening of one set of firm bonds: a half-ellipse of heights over [from, to].
type stretch struct {
	from, to    float64 // mm along x
	area        float64 // mm²
	marginShare float64
}

// height returns the opening height in mm at x.
func (s stretch) height(x float64) float64 {
	half := (s.to - s.from) / 2
	u := (x - (s.from+s.to)/2) / half
	if u <= -1 || u >= 1 {
		return 0
	}
	return 2 * s.area / (math.Pi * half) * math.Sqrt(1-u*u)
}

// areaBetween returns the part of its area between two x, mm².
func (s stretch) areaBetween(a, b float64) float64 {
	half, mid := (s.to-s.from)/2, (s.from+s.to)/2
	return s.area * (ellipseShare((b-mid)/half) - ellipseShare((a-mid)/half))
}

// stretches opens the valve with a set of firm bonds. The line is covered by the union of the bonded segments; the
// slack of a stretch (edge minus chord) is spread evenly over the line between the centres of the bonds beside it, so
// each bond takes its width from the chord and from the edge, and overlapping bonds never give any back.
func stretches(in Input, bonds []Bond) []stretch {
	half, edge := in.CommissuralMM/2, in.MarginMM/2
	excursion := uncombine(units.AreaFromCM2(float64(in.Intact)), MarginLimitMM2(in.CommissuralMM, edge))
	left := append([]Bond{}, bonds...)
	sort.SliceStable(left, func(i, j int) bool { return leftEnd(left[i], half) < leftEnd(left[j], half) })
	var out []stretch
	end, centre := -half, -1.0 // right end (mm) and rightmost centre (position) of what is covered so far
	for i := 0; i <= len(left); i++ {
		to, next := half, 1.0
		if i < len(left) {
			to = leftEnd(left[i], half)
			for _, b := range left[i:] {
				next = math.Min(next, b.Position)
			}
		}
		if chord := to - end; chord > 0 {
			slack := (edge - in.CommissuralMM) * math.Max(0, next-centre) / 2
			share := ellipseShare(to/half) - ellipseShare(end/half)
			if area, margin := combine(excursion*share, MarginLimitMM2(chord, chord+slack)); area > 0 {
				out = append(out, stretch{end, to, area, margin})
			}
		}
		if i < len(left) {
			end = math.Max(end, left[i].Position*half+left[i].WidthMM/2)
			centre = math.Max(centre, left[i].Position)
		}
	}
	return out
}

func leftEnd(b Bond, half float64) float64 { return b.Position*half - b.WidthMM/2 }

// weighted is one set of firm bonds with its probability-like weight.
type weighted struct {
	weight float64
	parts  []stretch
}

// mixture lists the openings of all subsets of bonds with weight Π hold · Π (1−hold); weights of 0 are left out.
func mixture(in Input, bonds []Bond) []weighted {
	var out []weighted
	for set := range 1 << len(bonds) {
		w, firm := 1.0, make([]Bond, 0, len(bonds))
		for i, b := range bonds {
			if set>>i&1 == 1 {
				w, firm = w*b.Hold, append(firm, b)
			} else {
				w *= 1 - b.Hold
			}
		}
		if w > 0 {
			out = append(out, weighted{w, stretches(in, firm)})
		}
	}
	return out
}

// sorted returns the bonds with a hold, anterolateral first.
func sorted(bonds []Bond) []Bond {
	var out []Bond
	for _, b := range bonds {
		if b.Hold > 0 {
			out = append(out, b)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Position < out[j].Position })
	return out
}

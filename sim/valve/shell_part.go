package valve

import (
	"math"

	"annuloscope/sim/leaflet"

	"gonum.org/v1/gonum/spatial/r3"
)

// part draws the margins of a closed surface apart, or together, until the gap that is seen along the line is the gap
// that is reported (gap, mm, one value per section). The two differ by the residual of the fit: where the sections have
// a gap the shell may touch. Both leaflets move by half of the difference along the septal-lateral direction: wholly where
// they are closest, not at all where they are partReachMM farther from each other. The rest of the surface is as solved.
func (s *Surface) part(r *leaflet.Result, gap []float64) {
	touch := r.ThicknessMM * contactShare
	left, right := s.Points[s.Columns/2].X, s.Points[0].X
	for j := 1; j < s.Columns; j++ {
		if 2*j == s.Columns {
			continue
		}
		at := (2*s.Points[j].X - left - right) / (right - left) / lineShare
		if math.Abs(at) > 1 {
			continue
		}
		wanted := sampled(gap, at)
		closest := math.Inf(1)
		for i := range s.Rows {
			closest = min(closest, s.GapMM[i*s.Columns+j])
		}
		more := wanted + touch - closest
		if closest < touch {
			more = wanted + (touch-closest)*wanted/(wanted+partBlendMM) // nothing moves where nothing gapes
		}
		side := r3.Vec{Y: more / 2}
		if 2*j > s.Columns {
			side.Y = -side.Y
		}
		for i := 1; i < s.Rows; i++ {
			v := i*s.Columns + j
			w := 1 - (s.GapMM[v]-closest)/partReachMM
			if w <= 0 {
				continue
			}
			s.Points[v] = r3.Add(s.Points[v], r3.Scale(w, side))
			s.GapMM[v] = max(0, s.GapMM[v]+w*more)
			if s.InContact[v] = s.GapMM[v] <= touch; !s.InContact[v] {
				s.ContactNMM2[v] = 0
			}
		}
	}
}

// sampled is a value along the line at s from −1 to 1.
func sampled(v []float64, s float64) float64 {
	at := (s + 1) / 2 * float64(len(v)-1)
	k := min(max(int(at), 0), len(v)-2)
	t := at - float64(k)
	return (1-t)*v[k] + t*v[k+1]
}

package closure

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// PapillaryShift is one muscle's displacement (mm): apical (−z), lateral (away from the mid-plane x = 0) and posterior
// (−y of the valve frame).
type PapillaryShift struct{ ApicalMM, LateralMM, PosteriorMM float64 }

// Papillary holds the muscles' tips in the valve frame, anterolateral (x < 0) first, and their displacements.
type Papillary struct {
	Tips   [2]r3.Vec
	Shifts [2]PapillaryShift
}

// DefaultPapillary gives the tips of the template valve: 22 mm apart (anatomy.md M08, 20-25 mm, from memory), 8 mm
// behind the commissural line and 26 mm below the annulus (25-32 mm from it, M08).
func DefaultPapillary() Papillary {
	return Papillary{Tips: [2]r3.Vec{{X: -11, Y: -8, Z: -26}, {X: 11, Y: -8, Z: -26}}}
}

// Undisplaced returns the muscles without their displacements.
func (p Papillary) Undisplaced() Papillary { return Papillary{Tips: p.Tips} }

// moved returns the tip of muscle m after its displacement.
func (p *Papillary) moved(m int) r3.Vec {
	out := [2]float64{-1, 1}
	d := p.Shifts[m]
	return r3.Add(p.Tips[m], r3.Vec{X: out[m] * d.LateralMM, Y: -d.PosteriorMM, Z: -d.ApicalMM})
}

// papillaryPoint is the effective papillary point of a section at s and x (mm, valve frame) in the section frame. The
// muscles share the section by the weights ½(1 ∓ sin(πs/2)); a tip beside the plane by o counts as lying deeper by
// √(H²+o²) − H with H = papillaryReachMM, so that the section sees the chord at its length in space.
func (p *Papillary) papillaryPoint(s, x float64) Point {
	far := (1 + math.Sin(math.Pi*s/2)) / 2
	var q Point
	for m, w := range [2]float64{1 - far, far} {
		tip := p.moved(m)
		o := tip.X - x
		deeper := math.Sqrt(papillaryReachMM*papillaryReachMM+o*o) - papillaryReachMM
		q.X += w * -tip.Y
		q.Z += w * (tip.Z - deeper)
	}
	return q
}

// BuildLine cuts n sections (0 = DefaultStations; odd, at least 3, so that s = 0 is a station) from a closed annulus
// polyline in the valve frame (mm, any start, no repeated last point). The sections are parallel to the y-z plane; the
// one at s stands at x = middle + s·CommissureLimit·half commissural width, both from the polyline's extreme x. In each
// plane the crossing with the greatest y is the anterior annulus and that with the least y the posterior one. It panics
// on a polyline of fewer than 8 points or an even n; dst's memory is reused.
func BuildLine(dst *Line, annulus []r3.Vec, pap *Papillary, n int) {
	if n == 0 {
		n = DefaultStations
	}
	if n < 3 || n%2 == 0 {
		panic("closure: the number of stations must be odd and at least 3")
	}
	if len(annulus) < 8 {
		panic("closure: an annulus polyline needs at least 8 points")
	}
	rest := pap.Undisplaced()
	lo, hi := annulus[0].X, annulus[0].X
	for _, v := range annulus {
		lo, hi = math.Min(lo, v.X), math.Max(hi, v.X)
	}
	mid, half := (lo+hi)/2, (hi-lo)/2*CommissureLimit
	if cap(dst.Stations) < n {
		dst.Stations = make([]Station, n)
	}
	dst.Stations = dst.Stations[:n]
	dst.SpacingMM = 2 * half / float64(n-1)
	for i := range dst.Stations {
		s := stationS(i, n)
		st := Station{S: s, XMM: mid + s*half}
		st.Annulus[Anterior], st.Annulus[Posterior] = crossings(annulus, st.XMM)
		q, q0 := pap.papillaryPoint(s, st.XMM), rest.papillaryPoint(s, st.XMM)
		st.Papillary, st.Undisplaced = [2]Point{q, q}, [2]Point{q0, q0}
		dst.Stations[i] = st
	}
}

// stationS is the position of station i of n, exactly antisymmetric.
func stationS(i, n int) float64 { return float64(2*i-(n-1)) / float64(n-1) }

// crossings returns the anterior and posterior crossing of the closed polyline with the plane at x, in the section frame.
func crossings(poly []r3.Vec, x float64) (ant, post Point) {
	top, bottom := math.Inf(-1), math.Inf(1)
	a := poly[len(poly)-1]
	for _, b := range poly {
		if (a.X <= x) != (b.X <= x) {
			t := (x - a.X) / (b.X - a.X)
			y, z := a.Y+t*(b.Y-a.Y), a.Z+t*(b.Z-a.Z)
			if y > top {
				top, ant = y, Point{-y, z}
			}
			if y < bottom {
				bottom, post = y, Point{-y, z}
			}
		}
		a = b
	}
	return ant, post
}

// ScallopCentre is the position of scallop 1, 2 or 3 (A1/P1, A2/P2, A3/P3): the middle of its third of the line.
func ScallopCentre(number int) float64 {
	if number < 1 || number > 3 {
		panic("closure: a scallop is 1, 2 or 3")
	}
	return float64(number-2) * 2 / 3
}

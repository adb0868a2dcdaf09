package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// assembleFullRing ties every annulus point to its place on a rigid ring: the rest shape scaled to the ring's two
// diameters and height. The fibrous part between the trigones is too stiff to be gathered: the ring lies along it and is
// tied to it only weakly (RingOnFibrous), and the posterior annulus is drawn to the ring. The middle of
// the ring's front lies at A2. The septal-lateral diameter comes out
// a little above the ring's (1.4 mm for a 34 mm ring on a 43 mm annulus) since the fibrous part does not follow.
func (s *Solver) assembleFullRing(in *Input) {
	f := in.FullRing
	if f == nil {
		return
	}
	s.seat = grow(s.seat, s.n)
	s.ringSeat(in.FullRing, s.seat)
	for i := range s.n {
		k := tensor(r3.Vec{}, 0, s.ringSpring(in, i))
		s.addForm([]int{i}, []float64{1}, &k)
		s.addPush(i, &k, r3.Sub(s.seat[i], s.rest[i]))
	}
}

// ringSpring is the spring holding annulus point i to the ring, N/mm.
func (s *Solver) ringSpring(in *Input, i int) float64 {
	a, b := (i+s.n-1)%s.n, (i+1)%s.n
	share := in.FullRing.Stiffness
	if share == 0 {
		share = 1
	}
	hold := share * RingSpring * (1 - (1-RingOnFibrous)*in.Annulus.Fibrous[i])
	return hold * (span(r3.Sub(s.rest[i], s.rest[a])) + span(r3.Sub(s.rest[b], s.rest[i]))) / 2
}

// ringSeat writes the place of every annulus point on the ring.
func (s *Solver) ringSeat(f *FullRing, seat []r3.Vec) {
	ratio := f.Ratio
	if ratio == 0 {
		ratio = RingRatio
	}
	mk := &s.marks
	now := measure(s.rest[:s.n], mk)
	ex, ey := mk.Commissural, mk.Septal
	ez := r3.Cross(ex, ey)
	sx, sy := f.SizeMM/now.CommissuralMM, ratio*f.SizeMM/now.SeptalLateralMM
	mean := 0.0
	for _, p := range s.rest[:s.n] {
		mean += r3.Dot(p, ez) / float64(s.n)
	}
	origin := r3.Scale(0.5, r3.Add(at(s.rest[:s.n], mk.Anterolateral), at(s.rest[:s.n], mk.Posteromedial)))
	for i, p := range s.rest[:s.n] {
		d := r3.Sub(p, origin)
		q := r3.Add(r3.Scale(sx*r3.Dot(d, ex), ex), r3.Scale(sy*r3.Dot(d, ey), ey))
		q = r3.Add(q, r3.Scale(mean-r3.Dot(origin, ez)+(r3.Dot(p, ez)-mean)*f.HeightShare, ez))
		seat[i] = r3.Add(origin, q)
	}
	drift := r3.Sub(at(s.rest[:s.n], mk.A2), at(seat, mk.A2))
	for i := range seat {
		seat[i] = r3.Add(seat[i], drift)
	}
}

// ringResult reads the forces between ring and annulus.
func (s *Solver) ringResult(in *Input, x []r3.Vec) (out FullRingResult) {
	if in.FullRing == nil {
		return out
	}
	for i := range s.n {
		d := r3.Sub(s.seat[i], x[i])
		hold := s.ringSpring(in, i)
		a, b := (i+s.n-1)%s.n, (i+1)%s.n
		out.MaxNPerMM = math.Max(out.MaxNPerMM, 2*hold*span(d)/(span(r3.Sub(s.rest[i], s.rest[a]))+span(r3.Sub(s.rest[b], s.rest[i]))))
		out.SeptalLateralN += math.Abs(r3.Dot(d, s.marks.Septal)) * hold / 2
	}
	return out
}

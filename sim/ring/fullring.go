package ring

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// assembleFullRing ties every annulus point to its place on a rigid ring: the rest shape scaled to the ring's two
// diameters and height. The fibrous part between the trigones is too stiff to be gathered: the ring lies along it and is
// tied to it only weakly (RingOnFibrous), and the posterior annulus is drawn to the ring. The middle of
// the ring's front lies at A2. A 34 mm ring on a 43 mm annulus gives a septal-lateral diameter of 25.53 mm, its own is 25.5;
// the commissures slide a little along it (33.6 mm apart).
func (s *Solver) assembleFullRing(in *Input) {
	f := in.FullRing
	if f == nil {
		return
	}
	s.seat = grow(s.seat, s.n)
	s.ringSeat(in, s.seat)
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
func (s *Solver) ringSeat(in *Input, seat []r3.Vec) {
	f := in.FullRing
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
	s.outline = grow(s.outline, s.n)
	for i, p := range s.rest[:s.n] {
		d := r3.Sub(p, origin)
		q := r3.Add(r3.Scale(sx*r3.Dot(d, ex), ex), r3.Scale(sy*r3.Dot(d, ey), ey))
		q = r3.Add(q, r3.Scale(mean-r3.Dot(origin, ez)+(r3.Dot(p, ez)-mean)*f.HeightShare, ez))
		s.outline[i] = r3.Add(origin, q)
	}
	drift := r3.Sub(at(s.rest[:s.n], mk.A2), at(s.outline, mk.A2))
	for i := range s.outline {
		s.outline[i] = r3.Add(s.outline[i], drift)
	}
	s.spread(in.Annulus.Fibrous, seat)
}

// spread seats the annulus along the ring's outline: from A2 to either trigone at the fibrous part's own length (it is not
// gathered; at most to a quarter of the outline), and the posterior arc evenly over the rest. Points seated at their own
// angle instead would have to lie inside the stiff trigones of a small ring, and the cord folded back on itself there.
func (s *Solver) spread(fibrous []float64, seat []r3.Vec) {
	rest := s.rest[:s.n]
	start := s.marks.A2
	before, after, ok := trigones(fibrous, start)
	if !ok {
		copy(seat, s.outline)
		return
	}
	s.along[0], s.along[1] = lengths(s.along[0], rest), lengths(s.along[1], s.outline)
	own, l, o := s.along[0], s.along[0][s.n], s.along[1][s.n]
	begin := lengthAt(own, start)
	round := lengthAt(s.along[1], start)
	front := lengthAt(own, after) - begin // from A2 on, in the order of the points
	back := begin - lengthAt(own, before) // and the other way
	to, from := math.Min(front, o/4), math.Min(back, o/4)
	for i := range seat {
		d := own[i] - begin // length from A2 on
		if d < 0 {
			d += l
		}
		switch {
		case d < front:
			d *= to / front
		case d > l-back:
			d = o - (l-d)*from/back
		default:
			d = to + (d-front)*(o-to-from)/(l-front-back)
		}
		seat[i] = pointAlong(s.outline, s.along[1], round+d)
	}
}

// trigones returns the fractional indices before and after start at which the annulus is half fibrous; before may be
// negative and after beyond the number of points. ok is false when start is not in a fibrous part with two ends.
func trigones(fibrous []float64, start float64) (before, after float64, ok bool) {
	n := len(fibrous)
	find := func(step int) (float64, bool) {
		i := int(math.Round(start))
		if fibrous[wrap(i, n)] < 0.5 {
			return 0, false
		}
		for range n {
			a, b := fibrous[wrap(i, n)], fibrous[wrap(i+step, n)]
			if b < 0.5 {
				return float64(i) + float64(step)*(a-0.5)/(a-b), true
			}
			i += step
		}
		return 0, false
	}
	before, ok = find(-1)
	if ok {
		after, ok = find(1)
	}
	return before, after, ok && before < start && start < after
}

func wrap(i, n int) int { return ((i % n) + n) % n }

// lengths writes the length of the closed line x from its first point to every point, and to the first again, into dst.
func lengths(dst []float64, x []r3.Vec) []float64 {
	n := len(x)
	dst = grow(dst, n+1)
	dst[0] = 0
	for i := range x {
		dst[i+1] = dst[i] + span(r3.Sub(x[(i+1)%n], x[i]))
	}
	return dst
}

// lengthAt is the length to a fractional index, which may go round.
func lengthAt(sum []float64, p float64) float64 {
	n := len(sum) - 1
	turns := math.Floor(p / float64(n))
	q := p - turns*float64(n)
	i := min(int(q), n-1)
	return turns*sum[n] + sum[i] + (q-float64(i))*(sum[i+1]-sum[i])
}

// pointAlong is the point of the closed line x at the length d from its first point; sum is that of lengths.
func pointAlong(x []r3.Vec, sum []float64, d float64) r3.Vec {
	n := len(x)
	d = math.Mod(math.Mod(d, sum[n])+sum[n], sum[n])
	i := min(sort.SearchFloat64s(sum[1:], d), n-1) // the first piece that ends there or beyond
	a, b := x[i], x[(i+1)%n]
	return r3.Add(a, r3.Scale((d-sum[i])/(sum[i+1]-sum[i]), r3.Sub(b, a)))
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

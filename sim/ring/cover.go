package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// lowered is the vein moved down to the level of the annulus; stations keep their labels.
func lowered(a *Annulus, v *Vein) Vein {
	out := *v
	mk := marks(a)
	up := r3.Cross(mk.Commissural, mk.Septal)
	out.Rest = make([]r3.Vec, len(v.Rest))
	out.Elevation = make([]float64, len(v.Rest))
	for j, p := range v.Rest {
		out.Rest[j] = r3.Sub(p, r3.Scale(v.Elevation[j], up))
	}
	return out
}

// reached is how near to its trigone an anchor counts as there, in annulus points.
const reached = 1e-6

// coverPosterior is in with vein and band run on from each anchor to the trigone beyond it, and on the atrium between
// them. An end whose anchor already reaches its trigone stays as it is. It reports whether anything had to change.
func coverPosterior(in *Input) (out Input, changed bool) {
	out = *in
	band := *in.Band
	n := float64(len(in.Annulus.Rest))
	from, to := PosteriorArc(&in.Annulus)
	v := &in.Vein
	place := unwrapped(v.Partner, n)
	p, d := lookup(v.Station, place, band.ProximalMM), lookup(v.Station, place, band.DistalMM)
	// Bring the band into the same turn as the arc.
	turn := n * math.Round(((from+to)/2-(p+d)/2)/n)
	p, d = p+turn, d+turn
	ends := [2]float64{to, from}
	if p < d {
		ends = [2]float64{from, to}
	}
	lo, hi := 0, len(v.Rest)
	var grown Vein
	if short := ends[0] - p; short*(p-d) > reached*math.Abs(p-d) {
		for v.Station[lo] < band.ProximalMM {
			lo++
		}
		grown = extension(in, lo, place[lo]+turn, ends[0])
	}
	var tail Vein
	if short := ends[1] - d; short*(d-p) > reached*math.Abs(d-p) {
		for v.Station[hi-1] > band.DistalMM {
			hi--
		}
		tail = extension(in, hi-1, place[hi-1]+turn, ends[1])
	}
	out.Vein = Vein{}
	for k := len(grown.Rest) - 1; k >= 0; k-- {
		appendPoint(&out.Vein, &grown, k)
	}
	for j := lo; j < hi; j++ {
		appendPoint(&out.Vein, v, j)
		if s := v.Station[j]; s >= band.ProximalMM && s <= band.DistalMM {
			last := len(out.Vein.OnAtrium) - 1
			changed = changed || out.Vein.OnAtrium[last] != 1
			out.Vein.OnAtrium[last] = 1
		}
	}
	for k := range tail.Rest {
		appendPoint(&out.Vein, &tail, k)
	}
	if len(grown.Rest) > 0 || len(tail.Rest) > 0 {
		changed = true
		relabel(&out.Vein, len(grown.Rest), hi-lo)
		q := unwrapped(out.Vein.Partner, n)
		shift := n * math.Round(((from+to)/2-(q[0]+q[len(q)-1])/2)/n)
		if len(grown.Rest) > 0 {
			band.ProximalMM = station(out.Vein.Station, q, ends[0]-shift)
		}
		if len(tail.Rest) > 0 {
			band.DistalMM = station(out.Vein.Station, q, ends[1]-shift)
		}
	}
	out.Band = &band
	return out, changed
}

// extension continues the vein from its point j, whose unwrapped partner is p, beyond the partner end, keeping the
// offset from the annulus it has at j in the annulus's own frame. Points come in the order away from j.
func extension(in *Input, j int, p, end float64) (out Vein) {
	rest, n := in.Annulus.Rest, float64(len(in.Annulus.Rest))
	mk := marks(&in.Annulus)
	up := r3.Cross(mk.Commissural, mk.Septal)
	frame := func(q float64) (at3, along, across r3.Vec) {
		q = math.Mod(math.Mod(q, n)+n, n)
		along = r3.Sub(at(rest, math.Mod(q+1, n)), at(rest, math.Mod(q-1+n, n)))
		along = r3.Unit(r3.Sub(along, r3.Scale(r3.Dot(along, up), up)))
		return at(rest, q), along, r3.Cross(along, up)
	}
	origin, along, across := frame(p)
	d := r3.Sub(in.Vein.Rest[j], origin)
	a, b, c := r3.Dot(d, along), r3.Dot(d, across), r3.Dot(d, up)
	spacing := 0.0 // partner index per vein point
	perimeter := measure(rest, &mk).PerimeterMM
	k := max(1, min(j, len(in.Vein.Rest)-1))
	spacing = (in.Vein.Station[k] - in.Vein.Station[k-1]) * n / perimeter
	beyond := (in.Constants.AnchorLength/2 + 2) * n / perimeter
	sign := 1.0
	if end < p {
		sign = -1
	}
	count := int(math.Ceil((math.Abs(end-p) + beyond) / spacing))
	for i := 1; i <= count; i++ {
		q := p + sign*spacing*float64(i)
		o, t, s := frame(q)
		x := r3.Add(r3.Add(o, r3.Scale(c, up)), r3.Add(r3.Scale(a, t), r3.Scale(b, s)))
		out.Rest = append(out.Rest, x)
		out.Station = append(out.Station, 0)
		out.OnAtrium = append(out.OnAtrium, 1)
		out.Partner = append(out.Partner, math.Mod(math.Mod(q, n)+n, n))
		out.Distance = append(out.Distance, in.Vein.Distance[j])
		out.Elevation = append(out.Elevation, in.Vein.Elevation[j])
		if in.Vein.Clearance != nil {
			out.Clearance = append(out.Clearance, in.Vein.Clearance[j])
		}
	}
	return out
}

// appendPoint adds point k of from to v.
func appendPoint(v, from *Vein, k int) {
	v.Rest = append(v.Rest, from.Rest[k])
	v.Station = append(v.Station, from.Station[k])
	v.OnAtrium = append(v.OnAtrium, from.OnAtrium[k])
	v.Partner = append(v.Partner, from.Partner[k])
	v.Distance = append(v.Distance, from.Distance[k])
	v.Elevation = append(v.Elevation, from.Elevation[k])
	if from.Clearance != nil {
		v.Clearance = append(v.Clearance, from.Clearance[k])
	}
}

// relabel gives a grown vein stations: the kept points (behind the added ones) keep theirs, the others count on by their
// spacing, into negative numbers before the first.
func relabel(v *Vein, added, kept int) {
	for k := added - 1; k >= 0; k-- {
		v.Station[k] = v.Station[k+1] - span(r3.Sub(v.Rest[k+1], v.Rest[k]))
	}
	for k := added + kept; k < len(v.Rest); k++ {
		v.Station[k] = v.Station[k-1] + span(r3.Sub(v.Rest[k], v.Rest[k-1]))
	}
}

// unwrapped makes a list of fractional indices continuous.
func unwrapped(p []float64, n float64) []float64 {
	out := append([]float64(nil), p...)
	for k := 1; k < len(out); k++ {
		out[k] -= n * math.Round((out[k]-out[k-1])/n)
	}
	return out
}

// lookup interpolates y at x; xs rises.
func lookup(xs, ys []float64, x float64) float64 {
	k := 1
	for k < len(xs)-1 && xs[k] < x {
		k++
	}
	return ys[k-1] + (ys[k]-ys[k-1])*(x-xs[k-1])/(xs[k]-xs[k-1])
}

// station is the station where the monotone list q of partners passes p.
func station(st, q []float64, p float64) float64 {
	if q[len(q)-1] > q[0] {
		return lookup(q, st, p)
	}
	rev, rst := make([]float64, len(q)), make([]float64, len(q))
	for k := range q {
		rev[len(q)-1-k], rst[len(q)-1-k] = q[k], st[k]
	}
	return lookup(rev, rst, p)
}

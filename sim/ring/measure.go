package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// at is the point at a fractional index of a closed line.
func at(x []r3.Vec, p float64) r3.Vec {
	a, b, t := partner(p, len(x))
	return r3.Add(r3.Scale(1-t, x[a]), r3.Scale(t, x[b]))
}

// measure takes the four measures of a ring; the landmarks move with the tissue.
func measure(x []r3.Vec, m *Marks) Measures {
	var out Measures
	out.SeptalLateralMM = math.Abs(r3.Dot(r3.Sub(at(x, m.A2), at(x, m.P2)), m.Septal))
	out.CommissuralMM = math.Abs(r3.Dot(r3.Sub(at(x, m.Posteromedial), at(x, m.Anterolateral)), m.Commissural))
	a2 := 0.0
	for i, p := range x {
		q := x[(i+1)%len(x)]
		out.PerimeterMM += span(r3.Sub(q, p))
		a2 += r3.Dot(p, m.Commissural)*r3.Dot(q, m.Septal) - r3.Dot(q, m.Commissural)*r3.Dot(p, m.Septal)
	}
	out.AreaMM2 = math.Abs(a2) / 2
	return out
}

// folds counts the runs of pieces of the closed line now that point away from their direction at rest.
func folds(rest, now []r3.Vec) int {
	n, count := len(rest), 0
	turned := func(i int) bool {
		a, b := wrap(i, n), wrap(i+1, n)
		return r3.Dot(r3.Sub(rest[b], rest[a]), r3.Sub(now[b], now[a])) < 0
	}
	for i := range n {
		if turned(i) && !turned(i-1) {
			count++
		}
	}
	return count
}

// report fills out from the displacements in s.u.
func (s *Solver) report(in *Input, out *Result) {
	out.EnergyNMM = s.energy(s.u, nil)
	x := s.x
	for id, p := range x {
		s.last[id] = r3.Sub(p, s.rest[id])
	}
	out.Annulus = append(out.Annulus[:0], x[:s.n]...)
	out.Vein = out.Vein[:0]
	for j, p := range in.Vein.Rest {
		out.Vein = append(out.Vein, r3.Add(p, s.last[s.n+j]))
	}
	out.Before = measure(s.rest[:s.n], &s.marks)
	out.After = measure(x[:s.n], &s.marks)
	out.Folds = folds(s.rest[:s.n], out.Annulus)
	s.reportBand(in, out)
	out.Posterior = CableResult{}
	if s.postAt >= 0 {
		out.Posterior = s.cableResult(&s.cables[s.postAt])
	}
	out.Ties = out.Ties[:0]
	for k := range in.Ties {
		out.Ties = append(out.Ties, s.cableResult(&s.cables[s.tiesAt+k]))
	}
	out.Rods.ForceN = grow(out.Rods.ForceN, s.m)
	s.rodForces(x, out.Rods.ForceN)
	out.FullRing = s.ringResult(in, x)
}

func (s *Solver) cableResult(c *cable) CableResult {
	l := c.length(s.x)
	_, t, _ := c.pull(l)
	return CableResult{TensionN: t, AchievedMM: c.length(s.rest) - l, StretchMM: c.stretchAt(t)}
}

// reportBand splits the band's force on every vein point into the contact part, tension × change of direction, and the
// anchor part, change of tension × direction; together they are the whole force.
func (s *Solver) reportBand(in *Input, out *Result) {
	contact := grow(out.Band.ContactNPerMM, s.m)
	out.Band = BandResult{State: s.state, ContactNPerMM: contact}
	if s.bandAt < 0 {
		return
	}
	c := &s.cables[s.bandAt]
	b := &out.Band
	b.CableResult = s.cableResult(c)
	b.SlackTakenMM = s.slack
	for k, w := range s.placed {
		b.SlipMM += (w - c.weight[k]) * span(r3.Sub(s.rest[c.ids[k+1]], s.rest[c.ids[k]]))
	}
	for j := range s.m {
		var ta, tb r3.Vec
		var wa, wb, la, lb float64
		if j > 0 {
			d := r3.Sub(s.x[s.n+j], s.x[s.n+j-1])
			la, wa = span(d), c.weight[j-1]
			ta = r3.Scale(1/la, d)
		}
		if j+1 < s.m {
			d := r3.Sub(s.x[s.n+j+1], s.x[s.n+j])
			lb, wb = span(d), c.weight[j]
			tb = r3.Scale(1/lb, d)
		}
		if j == 0 {
			ta = tb
		}
		if j+1 == s.m {
			tb = ta
		}
		contact[j] = r3.Scale(b.TensionN*(wa+wb)/(la+lb), r3.Sub(tb, ta))
		anchor := r3.Scale(b.TensionN*(wb-wa)/2, r3.Add(ta, tb))
		if wb > wa {
			b.ProximalAnchorN = r3.Add(b.ProximalAnchorN, anchor)
		} else {
			b.DistalAnchorN = r3.Add(b.DistalAnchorN, anchor)
		}
	}
}

// span is the length of v. It is the one length used throughout, so that rest and deformed lengths of an unmoved
// segment are the same bits; faster than r3.Norm, and mm cannot overflow.
func span(v r3.Vec) float64 { return math.Sqrt(v.X*v.X + v.Y*v.Y + v.Z*v.Z) }

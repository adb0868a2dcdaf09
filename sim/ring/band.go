package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// assembleCables sets up the sinus band and the posterior band.
func (s *Solver) assembleCables(in *Input) {
	s.cables = s.cables[:0]
	s.bandAt, s.postAt, s.slack = -1, -1, 0
	if b := in.Band; b != nil && !b.State.Separated && (b.ShorteningMM > 0 || b.TensionN > 0) {
		s.bandAt = len(s.cables)
		s.cables = append(s.cables, s.store[s.bandAt])
		c := &s.cables[s.bandAt]
		s.runBand(c, in, b.ProximalMM, b.DistalMM)
		free := c.length(s.rest)
		s.placed = append(s.placed[:0], c.weight...)
		s.slack = slackTaken(b.ShorteningMM, b.SlackMM+s.cornerSlack(c, in))
		c.stiff, c.held = in.Constants.BandStiffness, heldTension(b)
		c.target = free - (b.ShorteningMM - s.slack)
		if c.held > 0 {
			c.target, s.slack = free, 0
		}
		s.runBand(c, in, b.ProximalMM+b.State.ProximalShiftMM, b.DistalMM-b.State.DistalShiftMM)
		s.store[s.bandAt] = *c
	}
	if p := in.Posterior; p != nil && (p.DownsizingPercent > 0 || p.ShorteningMM > 0 || p.TensionN > 0) {
		s.postAt = len(s.cables)
		s.cables = append(s.cables, s.store[s.postAt])
		c := &s.cables[s.postAt]
		s.runPosterior(c, in)
		free := c.length(s.rest)
		cut := p.ShorteningMM
		if cut <= 0 {
			cut = free * p.DownsizingPercent / 100
		}
		c.stiff, c.held, c.target = in.Constants.BandStiffness, p.TensionN, free-cut
		if c.held > 0 {
			c.target = free
		}
		s.store[s.postAt] = *c
	}
	s.tiesAt = len(s.cables)
	for _, t := range in.Ties {
		k := len(s.cables)
		s.cables = append(s.cables, s.store[k])
		c := &s.cables[k]
		c.reset()
		c.ids, c.weight = append(c.ids, t.A, t.B), append(c.weight, 1)
		c.stiff, c.held, c.target = in.Constants.BandStiffness, t.TensionN, c.length(s.rest)
		if c.held <= 0 {
			c.target -= t.ShorteningMM
		}
		s.store[k] = *c
	}
}

// heldTension is the constant tension of a tension-controlled band: an anchor cannot hold more than its grip.
func heldTension(b *Band) float64 {
	if b.TensionN <= 0 {
		return 0
	}
	t := b.TensionN
	if b.ProximalGripN > 0 {
		t = min(t, b.ProximalGripN)
	}
	if b.DistalGripN > 0 {
		t = min(t, b.DistalGripN)
	}
	return t
}

// runBand lays the sinus band between two stations. Anchors that have passed each other leave nothing under it.
func (s *Solver) runBand(c *cable, in *Input, proximal, distal float64) {
	c.reset()
	st, w := in.Vein.Station, in.Constants.AnchorLength
	for j := range s.m {
		c.ids = append(c.ids, s.n+j)
		if j > 0 {
			a, b := st[j-1], st[j]
			c.weight = append(c.weight, max(0, ramp(a, b, proximal, w)-ramp(a, b, distal, w)))
		}
	}
}

// cornerSlack is what the band gains by lying on the inner wall of the curved lumen: Σ clearance × turning angle.
func (s *Solver) cornerSlack(c *cable, in *Input) float64 {
	if in.Vein.Clearance == nil {
		return 0
	}
	total := 0.0
	for j := 1; j+1 < s.m; j++ {
		p := s.rest[s.n+j-1 : s.n+j+2]
		a, b := r3.Sub(p[1], p[0]), r3.Sub(p[2], p[1])
		turn := math.Atan2(span(r3.Cross(a, b)), r3.Dot(a, b))
		total += in.Vein.Clearance[j] * turn * (c.weight[j-1] + c.weight[j]) / 2
	}
	return total
}

// slackTaken is how much of a pulled length the slack swallows: slack·(1 − e^(−pulled/slack)). The first millimetres
// vanish in the slack, later ones pull; the law is smooth and its rate falls from 1 to 0. The form is invented.
func slackTaken(pulled, slack float64) float64 {
	if slack <= 0 || pulled <= 0 {
		return 0
	}
	return -slack * math.Expm1(-pulled/slack)
}

// runPosterior lays a band on the annulus over the given share of the arc from trigone to trigone.
func (s *Solver) runPosterior(c *cable, in *Input) {
	from, to := PosteriorArc(&in.Annulus)
	cover := in.Posterior.Cover
	if cover == 0 {
		cover = 1
	}
	// Arc length measured from a cut in the middle of the fibrous part, where no band ever lies.
	n := s.n
	cut := int(math.Floor(to + (from+float64(n)-to)/2))
	c.reset()
	var lo, hi, at float64
	for pass := range 2 {
		at = 0
		for k := range n {
			i, j := (cut+k)%n, (cut+k+1)%n
			l := span(r3.Sub(s.rest[j], s.rest[i]))
			if pass == 0 {
				if d := from - float64(cut+k-n); d >= 0 && d < 1 {
					lo = at + d*l
				}
				if d := to - float64(cut+k-n); d >= 0 && d < 1 {
					hi = at + d*l
				}
			} else {
				w := in.Constants.AnchorLength
				mid, half := (lo+hi)/2, (hi-lo)/2*cover
				if k == 0 {
					c.ids = append(c.ids, i)
				}
				c.ids = append(c.ids, j)
				c.weight = append(c.weight, max(0, ramp(at, at+l, mid-half, w)-ramp(at, at+l, mid+half, w)))
			}
			at += l
		}
	}
}

// PosteriorArc is the arc from the anterolateral over P2 to the posteromedial trigone as fractional indices, to > from
// (to may exceed N): where Fibrous crosses one half. It panics if there is no such arc.
func PosteriorArc(a *Annulus) (from, to float64) {
	n := len(a.Rest)
	from, to = -1, -1
	for i := range n {
		f, g := a.Fibrous[i], a.Fibrous[(i+1)%n]
		if f >= 0.5 && g < 0.5 {
			from = float64(i) + (f-0.5)/(f-g)
		}
		if f < 0.5 && g >= 0.5 {
			to = float64(i) + (0.5-f)/(g-f)
		}
	}
	if from < 0 || to < 0 {
		panic("ring: annulus.fibrous never crosses one half; mark the inter-trigone part")
	}
	if to < from {
		to += float64(n)
	}
	return from, to
}

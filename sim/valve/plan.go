package valve

import (
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/closure"
	"annuloscope/sim/repair"
	"annuloscope/sim/ring"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	stitchReachMM    = 20.0 // a needle reaches any gap
	goodHoldMM       = 5.0  // leaflet length below which a grip is called poor; common practice, no source
	holdSoftMM       = 0.7  // softness of that rule
	papillaryPerPct  = 0.25 // mm that a papillary muscle moves inward per % of ventricular reduction; chosen
	supportPerPct    = 0.004
	restrictionMaxMM = 6.0
	elongatedSpanMM  = 14.0 // stretch of margin whose chords are long; chosen
)

// plan is what the repairs ask of the physics.
type plan struct {
	band      *ring.Band
	rods      *ring.Rods
	posterior *ring.PosteriorBand
	fullRing  *ring.FullRing
	shiftPct  float64 // inward move of the posterior foundation, % of its distance from the middle

	clips     []closure.Clip
	clipSteps []repair.Step

	papillary [2]closure.PapillaryShift // anterolateral, posteromedial: added to the patient's own

	resistance float64 // factor on the body's resistance
	volume     float64 // factor on the ventricle's volume
	radialN    float64 // N/mm outward push of an anchor
	proximal   float64
	distal     float64
	hasAnchors bool
	hasRepairs bool
}

func newPlan(steps []repair.Step) plan {
	p := plan{resistance: 1, volume: 1, hasRepairs: len(steps) > 0}
	for _, s := range steps {
		switch s.Kind {
		case repair.SinusBand:
			p.sinusBand(s)
		case repair.SinusRods:
			p.rods = &ring.Rods{ProximalMM: s.Value("proximal_mm"), DistalMM: s.Value("distal_mm"),
				Count: int(s.Value("count")), BendingNMM2: s.Value("stiffness_n_mm2")}
		case repair.EdgeClip, repair.EdgeStitch:
			p.clips = append(p.clips, clipOf(s))
			p.clipSteps = append(p.clipSteps, s)
		case repair.PosteriorBand:
			p.posterior = &ring.PosteriorBand{DownsizingPercent: s.Value("downsizing_pct")}
		case repair.FullRing:
			p.fullRing = &ring.FullRing{SizeMM: s.Value("size_mm"), HeightShare: 0.5, Stiffness: s.Value("stiffness")}
		case repair.Papillary:
			p.papillary[0].ApicalMM -= s.Value("anterolateral_mm")
			p.papillary[1].ApicalMM -= s.Value("posteromedial_mm")
		case repair.Ventricle:
			p.reshape(s.Value("reduction_pct"))
		case repair.Unloading:
			p.unload(s)
		}
	}
	return p
}

func (p *plan) sinusBand(s repair.Step) {
	p.hasAnchors = true
	p.proximal, p.distal, p.radialN = s.Value("proximal_mm"), s.Value("distal_mm"), s.Value("radial_n_per_mm")
	p.band = &ring.Band{
		ProximalMM: p.proximal, DistalMM: p.distal,
		ShorteningMM: s.Value("shortening_mm") * Delayed(s.Value("delay_days"), s.Value("day")),
		SlackMM:      s.Value("slack_mm"), ProximalGripN: s.Value("grip_n"), DistalGripN: s.Value("grip_n"),
		State: ring.BandState{Separated: s.Value("separated") == 1},
	}
}

// clipOf maps a step to a bond. How well a clip holds follows from the leaflet length it holds: a smooth step at
// goodHoldMM; a detached clip holds one leaflet and bonds nothing.
func clipOf(s repair.Step) closure.Clip {
	c := closure.Clip{Position: s.Value("position"), WidthMM: s.Value("width_mm"), ReachMM: stitchReachMM, Hold: 1}
	if s.Kind == repair.EdgeClip {
		c.ReachMM = s.Value("reach_mm")
		c.Hold = 1 / (1 + math.Exp((0.6*goodHoldMM-s.Value("leaflet_held_mm"))/holdSoftMM))
		if s.Value("detached") == 1 {
			c.Grasp = closure.HoldsPosterior
		}
	}
	return c
}

func (p *plan) reshape(pct float64) {
	p.shiftPct = pct
	for m := range p.papillary {
		p.papillary[m].LateralMM -= papillaryPerPct * pct
		p.papillary[m].PosteriorMM -= papillaryPerPct * pct
		p.papillary[m].ApicalMM -= 0.5 * papillaryPerPct * pct
	}
	p.volume *= 1 - pct/100
}

func (p *plan) unload(s repair.Step) {
	p.resistance *= 1 - s.Value("resistance_pct")/100
	p.volume *= 1 - s.Value("volume_pct")/100
	for m := range p.papillary {
		d := s.Value("papillary_mm")
		p.papillary[m].ApicalMM -= d
		p.papillary[m].LateralMM -= d / 2
		p.papillary[m].PosteriorMM -= d / 2
	}
}

// shift returns the foundation's move for a reshaped ventricle: every point towards the middle by its share, the fibrous
// part not at all.
func (p *plan) shift(s *shape) []r3.Vec {
	if p.shiftPct == 0 {
		return nil
	}
	out := make([]r3.Vec, len(s.rest))
	for i, q := range s.rest {
		k := -supportPerPct * p.shiftPct * (1 - s.fibrous[i])
		out[i] = r3.Vec{X: k * q.X, Y: k * q.Y}
	}
	return out
}

// faults returns the patient's long or torn chords.
func faults(p *anatomy.Patient) []closure.ChordFault {
	leaflet := closure.Posterior
	if p.Chord.OnAnterior >= 0.5 {
		leaflet = closure.Anterior
	}
	var out []closure.ChordFault
	if p.Chord.RupturedMM > 0 {
		out = append(out, closure.ChordFault{Leaflet: leaflet, Position: p.Chord.Position, WidthMM: p.Chord.RupturedMM, Ruptured: true})
	}
	if p.Chord.ElongatedMM > 0 {
		out = append(out, closure.ChordFault{Leaflet: leaflet, Position: p.Chord.Position,
			WidthMM: math.Max(elongatedSpanMM, p.Chord.RupturedMM+8), ElongationMM: p.Chord.ElongatedMM})
	}
	return out
}

func calcified(p *anatomy.Patient, lineMM float64) []closure.Calcification {
	from, to := p.Leaflet.CalcifiedFrom, p.Leaflet.CalcifiedTo
	if to <= from {
		return nil
	}
	return []closure.Calcification{{Leaflet: closure.Posterior, Position: (from + to) / 2, WidthMM: (to - from) / 2 * lineMM, Severity: 1}}
}

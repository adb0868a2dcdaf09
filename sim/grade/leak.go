package grade

import (
	"math"
	"sort"
	"strings"

	"annuloscope/sim/units"
)

// Orifice is an effective regurgitant orifice with the range its models disagree over; Value NaN when not known.
type Orifice struct{ Value, Low, High units.EffectiveCM2 }

// ExactOrifice is an orifice without disagreement.
func ExactOrifice(v units.EffectiveCM2) Orifice { return Orifice{v, v, v} }

// LeakInput is what a leak is graded on. NaN where not measured.
type LeakInput struct {
	Orifice         Orifice
	VolumeML        Interval
	FractionPct     Interval
	VenaContractaCM Interval
	EarlySpeedMPS   Interval
	Elliptical      bool // the orifice is a slit (European secondary threshold)
	LowFlow         bool // low forward flow (European secondary threshold)
	Biplane         bool // the vena contracta is a mean of two planes
}

// LeakGrade is a leak by one scheme.
type LeakGrade struct {
	Scheme     Scheme
	Class      Class // NotGiven with the reason in Note
	Criteria   []Criterion
	Discordant bool   // counted criteria point to different classes
	Note       string // why no class is given, or how a discordance was settled; empty otherwise
}

// Below these an orifice or volume is called none or trace. Chosen; no source.
const (
	traceOrificeCM2 = 0.02
	traceVolumeML   = 3.0
)

// Leak grades a leak by a scheme. No class is given when the orifice interval spans classes or nothing was measured.
func Leak(scheme Scheme, in LeakInput) LeakGrade {
	values := [5]Interval{{float64(in.Orifice.Value), float64(in.Orifice.Low), float64(in.Orifice.High)},
		in.VolumeML, in.FractionPct, in.VenaContractaCM, in.EarlySpeedMPS}
	g := LeakGrade{Scheme: scheme}
	for i, l := range scheme.ladders(in) {
		if len(l.rungs) > 0 {
			g.Criteria = append(g.Criteria, l.judge(values[i]))
		}
	}
	g.Class, g.Discordant = overall(g.Criteria)
	switch {
	case g.Criteria[0].Spans:
		g.Class, g.Note = NotGiven, "no grade: the orifice lies between two classes within the model's own uncertainty"
	case g.Class == NotGiven:
		g.Note = "no grade: nothing measured that the scheme grades"
	case float64(in.Orifice.High) < traceOrificeCM2 && !(in.VolumeML.High >= traceVolumeML):
		g.Class, g.Discordant = None, false
		g.Note = "orifice below 0.02 cm² and volume below 3 mL (chosen limits)"
	case g.Discordant:
		g.Note = "criteria disagree (" + said(g.Criteria) + "); shown is the lower median, our own rule"
	}
	return g
}

// overall is the lower median of the counted classes and whether they have no class in common.
func overall(cs []Criterion) (Class, bool) {
	var counted []Class
	low, high := 0, 4
	for _, c := range cs {
		if c.Counted {
			counted = append(counted, c.Class)
			a, b := c.Class.steps()
			low, high = max(low, a), min(high, b)
		}
	}
	if len(counted) == 0 {
		return NotGiven, false
	}
	sort.SliceStable(counted, func(i, j int) bool {
		a, _ := counted[i].steps()
		b, _ := counted[j].steps()
		return a < b
	})
	c := counted[(len(counted)-1)/2]
	if c == Moderate && low == high && low >= 2 && low <= 3 { // another criterion names the step
		c = map[int]Class{2: ModerateLower, 3: ModerateUpper}[low]
	}
	return c, low > high
}

func said(cs []Criterion) string {
	var parts []string
	for _, c := range cs {
		if c.Counted {
			parts = append(parts, c.Name+" "+c.Class.String())
		}
	}
	return strings.Join(parts, ", ")
}

// NotMeasured is an interval of NaN.
func NotMeasured() Interval { return Interval{math.NaN(), math.NaN(), math.NaN()} }

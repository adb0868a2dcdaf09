package cohort

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/stat"
)

// Outcome names of the responses.
const (
	WidthFall     = "fall of the septal-lateral diameter, %"
	OrificeFall   = "fall of the effective orifice, cm²"
	Narrowing     = "narrowing of the artery, worst view, %"
	gradientLimit = 5.0 // mmHg; physics.md A3 (S7, S12)

	// Seen is the narrowing in the worst view, %, from which an angiogram shows compression. Chosen: that of artery.RiskRule
	// for "possible"; readers of angiograms tell 20 to 30 % (from memory).
	Seen = 25.0
)

// Responses lists the outcome names.
func Responses() []string { return []string{WidthFall, OrificeFall, Narrowing} }

// Summary adds members up. Its memory does not grow with their number: ranks and quantiles are those of the first
// sampleLimit members, which are as random as any. Members must be added in the order of their index for the same bytes.
type Summary struct {
	N            int
	Repairs      bool
	Rejected     map[string]int
	ByGroup      [groups]Part
	NotConverged int // counted in N and nowhere else: their numbers are not to be used
	Engine       string
	Unsettled    int // patients with the sections' numbers although the shell was asked for

	paths   []anatomy.Parameter
	moments []moments
}

// moments are the running mean and spread of one drawn number by group.
type moments struct {
	of Marginal
	at anatomy.Parameter // its path is empty where the number is no parameter of its own
	by [groups]moment
}

// Part is one group's count. Shares are of the patients in whom the repairs fit.
type Part struct {
	N, Fits, Risk, Likely, Gradient int
	Narrowed                        int // artery seen narrowed by Seen or more; Risk also counts a loaded vein close to an artery that keeps its shape
	Unfit                           map[string]int
	Before, After                   map[string]int // leak classes; After only where the repairs fit

	anatomy  [][]float64 // columns of the bounded sample, fitted patients
	response [][]float64
}

// moment is a running mean and spread (Welford).
type moment struct {
	n        int
	mean, m2 float64
}

func (m *moment) add(v float64) {
	m.n++
	d := v - m.mean
	m.mean += d / float64(m.n)
	m.m2 += d * (v - m.mean)
}

// NewSummary returns an empty summary.
func NewSummary(p Plan) *Summary {
	s := &Summary{Repairs: len(p.Repairs) > 0, Rejected: map[string]int{}, Engine: cmp.Or(p.Engine, valve.SectionsEngine), paths: Drawn()}
	for g := range s.ByGroup {
		s.ByGroup[g] = Part{Unfit: map[string]int{}, Before: map[string]int{}, After: map[string]int{},
			anatomy: make([][]float64, len(s.paths)), response: make([][]float64, len(Responses()))}
	}
	for _, m := range Marginals() {
		at, _ := anatomy.Find(m.Path)
		s.moments = append(s.moments, moments{of: m, at: at})
	}
	return s
}

// Add counts one member.
func (s *Summary) Add(m *Member) {
	s.N++
	p := &s.ByGroup[m.Group]
	for _, why := range m.Rejected {
		s.Rejected[why]++
	}
	if s.Engine == valve.ShellEngine && m.Engine != valve.ShellEngine {
		s.Unsettled++
	}
	for i := range s.moments {
		if mm := &s.moments[i]; mm.at.Path != "" {
			mm.by[m.Group].add(*mm.at.At(&m.Case.Patient))
		}
	}
	if m.Failure != "" {
		s.NotConverged++
		return
	}
	p.N++
	p.Before[class(&m.Before)]++
	if !m.Fits {
		p.Unfit[m.Unfit]++
		return
	}
	p.Fits++
	p.After[class(&m.After)]++
	if m.After.Artery.Risk != "low" {
		p.Risk++
	}
	if m.After.Artery.Risk == "likely" {
		p.Likely++
	}
	if m.After.Artery.WorstViewNarrowing >= Seen {
		p.Narrowed++
	}
	if m.After.Opening.MeanGradientMMHg > gradientLimit {
		p.Gradient++
	}
	if s.N > sampleLimit {
		return
	}
	for i, q := range s.paths {
		p.anatomy[i] = append(p.anatomy[i], *q.At(&m.Case.Patient))
	}
	b, a := &m.Before, &m.After
	p.response[0] = append(p.response[0], 100*(1-a.Annulus.SeptalLateralMM/b.Annulus.SeptalLateralMM))
	p.response[1] = append(p.response[1], float64(b.Regurgitation.EffectiveOrificeCM2-a.Regurgitation.EffectiveOrificeCM2))
	p.response[2] = append(p.response[2], a.Artery.WorstViewNarrowing)
}

// Quantiles returns the 5th, 25th, 50th, 75th and 95th percentile of a response (index in Responses) in a group; ok is
// false when nobody was treated.
func (s *Summary) Quantiles(g Group, response int) (q [5]float64, ok bool) {
	v := append([]float64(nil), s.ByGroup[g].response[response]...)
	if len(v) == 0 {
		return q, false
	}
	sort.Float64s(v)
	for i, p := range [5]float64{0.05, 0.25, 0.5, 0.75, 0.95} {
		q[i] = stat.Quantile(p, stat.Empirical, v, nil)
	}
	return q, true
}

// copies are numbers that follow from one other drawn number and so would only repeat its correlation.
var copies = []string{"leaflet.margin_mm", "artery.deep_from_mm", "sinus.cover_to_mm", "heart.end_systolic_diameter_mm"}

// Deciding returns the rank correlations of every number drawn on its own with a response in a group, strongest first.
func (s *Summary) Deciding(g Group, response int) []Rank {
	p := &s.ByGroup[g]
	var out []Rank
	for i, q := range s.paths {
		if slices.Contains(copies, q.Path) {
			continue
		}
		x, y := pairs(p.anatomy[i], p.response[response])
		rho, low, high := Spearman(x, y)
		if !math.IsNaN(rho) {
			out = append(out, Rank{q.Path, Responses()[response], len(x), rho, low, high})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return math.Abs(out[i].Rho) > math.Abs(out[j].Rho) })
	return out
}

// pairs drops pairs in which a number was not stated.
func pairs(x, y []float64) (a, b []float64) {
	for i := range x {
		if !math.IsNaN(x[i]) && !math.IsNaN(y[i]) {
			a, b = append(a, x[i]), append(b, y[i])
		}
	}
	return a, b
}

// Drift is the mean and spread that a number has among the accepted patients, beside the source's.
type Drift struct {
	Marginal Marginal
	Group    Group
	N        int
	Mean, SD float64
}

// Drifts lists them for every number that was drawn in a group with at least 10 patients.
func (s *Summary) Drifts() []Drift {
	var out []Drift
	for i := range s.moments {
		m := s.moments[i].of
		for g, mm := range s.moments[i].by {
			if m.SD[g] > 0 && mm.n >= 10 {
				out = append(out, Drift{m, Group(g), mm.n, mm.mean, math.Sqrt(mm.m2 / float64(mm.n-1))})
			}
		}
	}
	return out
}

// Gap is a comparison with the outside that nothing was tuned to.
type Gap struct {
	What, Source   string
	Outside, Model float64 // shares; Model NaN when nobody counts
}

// Gaps compares the patients with a leak with what is common knowledge of sinus devices.
func (s *Summary) Gaps() []Gap {
	n, fits, risk, narrowed := 0, 0, 0, 0
	for _, g := range []Group{Functional, Degenerative} {
		p := s.ByGroup[g]
		n, fits, risk, narrowed = n+p.N, fits+p.Fits, risk+p.Risk, narrowed+p.Narrowed
	}
	return []Gap{
		{"repair does not fit", "common practice, no source: about one in five", 0.2, share(n-fits, n)},
		{"artery compression where it fits, as an angiogram shows it (narrowing of 25 % or more)", "common practice, no source: about a third", 1.0 / 3, share(narrowed, fits)},
		{"artery compression where it fits, as the risk rule counts it (possible or likely: also flow reserve, and a loaded vein within 1 mm)",
			"common practice, no source: about a third", 1.0 / 3, share(risk, fits)},
	}
}

// share is a/b, NaN for nothing.
func share(a, b int) float64 {
	if b == 0 {
		return math.NaN()
	}
	return float64(a) / float64(b)
}

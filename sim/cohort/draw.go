package cohort

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"

	"gonum.org/v1/gonum/mat"
)

// Mix is the share of each group; they need not add to 1, but one must be above 0.
type Mix [groups]float64

// EqualMix gives a third to each group.
func EqualMix() Mix { return Mix{1, 1, 1} }

// Only gives everything to one group.
func Only(g Group) Mix {
	var m Mix
	m[g] = 1
	return m
}

const ejectionShare = "heart.ejection_share"

// sampler draws patients; it is read only once made.
type sampler struct {
	mix       Mix
	marginals []Marginal
	lower     [groups]*mat.TriDense // Cholesky factor of the copula's correlation matrix
	often     []Frequency
}

// newSampler panics when the shares are not usable or the table's correlations cannot hold together.
func newSampler(mix Mix) *sampler {
	if !(mix[0]+mix[1]+mix[2] > 0) || mix[0] < 0 || mix[1] < 0 || mix[2] < 0 {
		panic("cohort: the shares of the groups must be positive")
	}
	s := &sampler{mix: mix, marginals: Marginals(), often: Frequencies()}
	at := map[string]int{}
	for i, m := range s.marginals {
		at[m.Path] = i
	}
	for g := range s.lower {
		n := len(s.marginals)
		c := mat.NewSymDense(n, nil)
		for i := range n {
			c.SetSym(i, i, 1)
		}
		for _, r := range Correlations() {
			c.SetSym(at[r.A], at[r.B], r.Rho[g])
		}
		var chol mat.Cholesky
		if !chol.Factorize(c) {
			panic("cohort: the correlations of group " + Group(g).String() + " cannot hold together")
		}
		s.lower[g] = new(mat.TriDense)
		chol.LTo(s.lower[g])
	}
	return s
}

// source returns the random numbers of one patient.
func source(seed uint64, index int) *rand.Rand { return rand.New(rand.NewPCG(seed, uint64(index))) }

func (s *sampler) group(r *rand.Rand) Group {
	u := r.Float64() * (s.mix[0] + s.mix[1] + s.mix[2])
	for g, w := range s.mix {
		if u -= w; u < 0 {
			return Group(g)
		}
	}
	return Degenerative
}

// draw makes one patient of a group, not yet checked.
func (s *sampler) draw(r *rand.Rand, g Group) anatomy.Patient {
	p := anatomy.Normal()
	p.Mechanism = g.Mechanism()
	z := make([]float64, len(s.marginals))
	for i := range z {
		z[i] = r.NormFloat64()
	}
	share := 0.0
	for i, m := range s.marginals {
		if m.SD[g] == 0 {
			continue
		}
		x := 0.0
		for j := 0; j <= i; j++ {
			x += s.lower[g].At(i, j) * z[j]
		}
		v := m.quantile(g, x)
		if m.Path == ejectionShare {
			share = v
			continue
		}
		q, _ := anatomy.Find(m.Path)
		*q.At(&p) = v
	}
	p.Heart.EndSystolicML = p.Heart.EndDiastolicML * (1 - share)
	p.Heart.EndSystolicDiameter = lvesdNormal * math.Cbrt(p.Heart.EndSystolicML)
	p.Leaflet.MarginMM = marginPerMM * p.Annulus.CommissuralMM
	s.variants(r, &p)
	return p
}

// quantile turns a standard normal number into the marginal's.
func (m Marginal) quantile(g Group, z float64) float64 {
	if !m.Log {
		return m.Mean[g] + m.SD[g]*z
	}
	v := math.Log1p(m.SD[g] * m.SD[g] / (m.Mean[g] * m.Mean[g]))
	return math.Exp(math.Log(m.Mean[g]) - v/2 + math.Sqrt(v)*z)
}

// variants draws what is there or not. Every variant uses its random number whatever the others are.
func (s *sampler) variants(r *rand.Rand, p *anatomy.Patient) {
	has := func(i int) bool { return r.Float64() < s.often[i].Share }
	if !has(archedCourse) {
		p.Sinus.ArchMM = 0
	}
	deep := has(arteryDeep)
	marginal, at := has(marginalCrossed), marginalFrom+(marginalTo-marginalFrom)*r.Float64()
	diagonal := has(diagonalCrossed)
	u := r.Float64()
	switch {
	case u < s.often[leftDominant].Share:
		p.Dominance = anatomy.LeftDominant
	case u < s.often[leftDominant].Share+s.often[balancedDominant].Share:
		p.Dominance = anatomy.BalancedDominant
	}
	d := arteryDiameter[p.Dominance]
	p.Artery.DiameterMM = d[0] + d[1]*r.NormFloat64()
	p.Sinus.CoverToMM = coverShare * p.Sinus.LengthMM
	p.Artery.DeepFromMM, p.Artery.DeepToMM = p.Artery.CrossingMM, p.Artery.CrossingMM
	if deep {
		p.Artery.DeepToMM = math.Max(p.Artery.CrossingMM, math.Min(deepEndMost, deepEndShare*p.Sinus.LengthMM))
	}
	if marginal {
		p.Artery.MarginalMM = at
	}
	if diagonal {
		p.Artery.DiagonalMM = diagonalAt * p.Sinus.LengthMM
	}
}

// reason says in a few words why a patient or a repair cannot be, without its numbers, so that like can be counted with
// like.
func reason(err error) string {
	var f *fault.Field
	if !errors.As(err, &f) {
		return err.Error()
	}
	problem, _, _ := strings.Cut(f.Problem, " (")
	problem, _, _ = strings.Cut(problem, ";")
	if i := strings.LastIndex(problem, ": "); i >= 0 {
		problem = problem[i+2:] // the cause, after the numbers
	}
	return f.Path + ": " + problem
}

func virtual(index int, g Group, p anatomy.Patient) casefile.Case {
	return casefile.Case{Name: fmt.Sprintf("virtual-%d", index), Title: "Virtual patient " + fmt.Sprint(index),
		Note: "A virtual " + g.String() + " patient drawn from published means and spreads; no person.", Patient: p}
}

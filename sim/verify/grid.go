package verify

import (
	"fmt"
	"math"
)

// GCI safety factor for three grids (users.md).
const safety = 1.25

// OrderSpread is how far an observed order may lie from the scheme's for the grids to count as asymptotic. Chosen.
const OrderSpread = 0.5

// Study is a grid convergence study of three grids with a constant refinement ratio.
type Study struct {
	Order      float64 // observed; NaN when the differences change sign or grow
	Limit      float64 // Richardson value
	FinePct    float64 // grid convergence index of the finest grid, %
	CoarsePct  float64 // of the middle grid, %
	Asymptotic bool    // the two indices agree with the order within 10 %
}

// Converge studies the values on the fine, middle and coarse grid, each r > 1 times coarser than the last (users.md,
// "Verification and validation": safety factor 1.25).
func Converge(fine, middle, coarse, r float64) Study {
	if !(r > 1) {
		panic("verify: the refinement ratio must be above 1")
	}
	d1, d2 := middle-fine, coarse-middle
	if d1 == 0 && d2 == 0 {
		return Study{Order: math.NaN(), Limit: fine}
	}
	s := Study{Order: math.Log(d2/d1) / math.Log(r)} // NaN when the signs differ
	if !(s.Order > 0) {
		s.Order, s.Limit, s.FinePct, s.CoarsePct = math.NaN(), math.NaN(), math.NaN(), math.NaN()
		return s
	}
	k := math.Pow(r, s.Order) - 1
	s.Limit = fine - d1/k
	s.FinePct = 100 * safety * math.Abs(d1/fine) / k
	s.CoarsePct = 100 * safety * math.Abs(d2/middle) / k
	s.Asymptotic = math.Abs(s.CoarsePct/(s.FinePct*(k+1))-1) < 0.1
	return s
}

// grid adds a grid study by a scheme of the given order: expected is the Richardson limit, ours the finest grid, the
// tolerance a share of the limit.
func (s *sheet) grid(quantity, unit string, fine, middle, coarse, r, order, share float64, source string) {
	c := Converge(fine, middle, coarse, r)
	spread := max(fine, middle, coarse) - min(fine, middle, coarse)
	source += fmt.Sprintf("; spread over the grids %.2g %%", 100*math.Abs(spread/fine))
	s.add(Grid, quantity, unit, c.Limit, fine, share*math.Abs(c.Limit), source)
	row := &s.rows[len(s.rows)-1]
	row.Order = Number(c.Order)
	if !c.Asymptotic || math.Abs(c.Order-order) > OrderSpread {
		row.Verdict = NotAsymptotic
	}
}

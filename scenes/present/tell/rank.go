package tell

import (
	"math"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/valve"
)

// Mark says how a value of a comparison stands.
type Mark uint8

// The marks.
const (
	Unmarked   Mark = iota // the untreated valve, no direction is better, or no difference at the precision shown
	Best                   // better than every other that is not as good, among three or more
	BetterThan             // than untreated
	WorseThan
	Moved // changed, where no direction is better
)

// Ranked is one quantity over the columns of a comparison.
type Ranked struct {
	Quantity valve.Quantity
	Applies  bool      // to any column
	Values   []float64 // NaN where it does not apply or is not solved
	Marks    []Mark
}

// Rank compares a quantity over the columns, at the precision shown. Which direction is better is in the quantity's one
// definition; a quantity without one gets no better and no worse.
func Rank(q valve.Quantity, c *study.Comparison) Ranked {
	r := Ranked{Quantity: q, Values: make([]float64, len(c.Columns)), Marks: make([]Mark, len(c.Columns))}
	p := math.Pow(10, float64(q.Decimals))
	shown := make([]float64, len(c.Columns)) // as shown, larger is better
	best, worst := math.Inf(-1), math.Inf(1)
	for i := range c.Columns {
		v := math.NaN()
		if k := &c.Columns[i]; k.Solved {
			v = q.Of(&k.Report.After)
		}
		r.Values[i] = v
		r.Applies = r.Applies || !math.IsNaN(v)
		shown[i] = math.Round(v * p)
		if q.Better == valve.Lower {
			shown[i] = -shown[i]
		}
		if !math.IsNaN(v) {
			best, worst = math.Max(best, shown[i]), math.Min(worst, shown[i])
		}
	}
	for i, x := range shown {
		switch {
		case math.IsNaN(x) || len(shown) == 0:
		case q.Better == valve.Neutral:
			if i > 0 && x != shown[0] && !math.IsNaN(shown[0]) {
				r.Marks[i] = Moved
			}
		case x == best && best > worst && len(shown) > 2: // of two, the second is better or worse
			r.Marks[i] = Best
		case i == 0 || math.IsNaN(shown[0]) || x == shown[0]:
		case x > shown[0]:
			r.Marks[i] = BetterThan
		default:
			r.Marks[i] = WorseThan
		}
	}
	return r
}

// Verdict words column i: the change against the untreated valve with a triangle that points the way the number went,
// and best, better or worse. The best carries a star.
func (r *Ranked) Verdict(w *words.Words, i int) string {
	change := ""
	if d := r.Values[i] - r.Values[0]; i > 0 && !math.IsNaN(d) {
		switch {
		case !moved(r.Values[0], r.Values[i], r.Quantity.Decimals):
			change = w.T("compare.same")
		case d > 0:
			change = "▲ " + w.Signed(d, r.Quantity.Decimals)
		default:
			change = "▼ " + w.Signed(d, r.Quantity.Decimals)
		}
	}
	word := ""
	switch r.Marks[i] {
	case Best:
		word = "★ " + w.T("compare.best")
	case BetterThan:
		word = w.T("table.better")
	case WorseThan:
		word = w.T("table.worse")
	}
	switch {
	case change == "":
		return word
	case word == "":
		return change
	}
	return change + " " + word
}

// Main tells whether a quantity is among the few shown first.
func Main(path string) bool { return mainQuantities[path] }

var mainQuantities = map[string]bool{
	"annulus.septal_lateral_mm": true, "coaptation.contact_mm.mean": true, "coaptation.gap_mm.max": true, "coaptation.depth_mm": true,
	"regurgitation.effective_orifice_cm2": true, "regurgitation.volume_ml": true, "opening.anatomic_area_cm2": true,
	"opening.mean_gradient_mmhg": true, "sinus.tension_n": true, "sinus.transmitted_fraction": true,
	"artery.worst_view_narrowing_pct": true, "artery.min_clearance_mm": true, "beat.forward_sv_ml": true,
}

package valve

import "math"

// Better says which way a quantity gets better for the valve.
type Better int

// The directions.
const (
	Neutral Better = iota
	Lower
	Higher
)

// Quantity is the one definition of a number that a user meets. Labels, tooltips, the glossary, the JSON Schema of
// the report, table headings and command help are all made from this table.
type Quantity struct {
	Path     string // JSON path within a state
	Label    string // full words
	Unit     string
	Decimals int
	Better   Better
	Meaning  string
	Phase    string
	Formula  string
	Limits   string
	Source   string
	Of       func(*State) float64 // NaN where it does not apply
}

// Quantities lists every number of a State in the order in which people meet them.
func Quantities() []Quantity {
	var all []Quantity
	for _, g := range [][]Quantity{annulusQuantities, closureQuantities, leakQuantities, openingQuantities, bondQuantities, vesselQuantities, vesselDetailQuantities, beatQuantities} {
		all = append(all, g...)
	}
	return all
}

// FindQuantity returns the definition with that path.
func FindQuantity(path string) (Quantity, bool) {
	for _, q := range Quantities() {
		if q.Path == path {
			return q, true
		}
	}
	return Quantity{}, false
}

// Change is one quantity before and after.
type Change struct {
	Quantity      Quantity
	Before, After float64
	Improved      int // +1 better, −1 worse, 0 the same at the shown precision or neutral
}

// Changes lists every quantity that applies before or after, in table order.
func (r *Report) Changes() []Change {
	var out []Change
	for _, q := range Quantities() {
		b, a := q.Of(&r.Before), q.Of(&r.After)
		if math.IsNaN(a) && math.IsNaN(b) {
			continue
		}
		c := Change{Quantity: q, Before: b, After: a}
		unit := math.Pow(10, -float64(q.Decimals))
		if d := a - b; math.Abs(d) >= unit/2 && q.Better != Neutral {
			c.Improved = 1
			if (d > 0) != (q.Better == Higher) {
				c.Improved = -1
			}
		}
		out = append(out, c)
	}
	return out
}

// change maps the path of every quantity that applies before and after to its change.
func (r *Report) change() map[string]float64 {
	out := map[string]float64{}
	for _, c := range r.Changes() {
		if d := c.After - c.Before; !math.IsNaN(d) {
			out[c.Quantity.Path] = d
		}
	}
	return out
}

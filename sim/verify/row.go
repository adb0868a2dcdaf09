package verify

import (
	"encoding/json"
	"math"
)

// Kind says what stands behind an expected value.
type Kind string

// The kinds. Only an Exact row can FAIL.
const (
	Exact     Kind = "exact"
	Published Kind = "published"
	Secondary Kind = "secondary"
	Practice  Kind = "common practice"
	Memory    Kind = "from memory"
	Grid      Kind = "grid study" // the expected value is our own Richardson limit; the order is what is judged
)

// Verdict is how a row came out.
type Verdict string

// The verdicts.
const (
	Pass          Verdict = "PASS"
	Fail          Verdict = "FAIL"                    // an exact row outside its tolerance
	Gap           Verdict = "GAP"                     // any other row outside its tolerance
	NotAsymptotic Verdict = "not in asymptotic range" // a grid study whose observed order is irregular
)

// Number is a float64 that JSON writes as null when it is not finite.
type Number float64

// MarshalJSON writes the number, or null.
func (n Number) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(n)) || math.IsInf(float64(n), 0) {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// Row is one comparison. Error is ours − expected in the unit of the quantity and Tolerance its allowed size; Order is
// the observed order of a grid study, NaN elsewhere.
type Row struct {
	Group     string  `json:"group"`
	Quantity  string  `json:"quantity"`
	Unit      string  `json:"unit"`
	Expected  Number  `json:"expected"`
	Ours      Number  `json:"ours"`
	Error     Number  `json:"error"`
	Tolerance Number  `json:"tolerance"`
	Order     Number  `json:"observed_order"`
	Verdict   Verdict `json:"verdict"`
	Source    string  `json:"source"`
	Kind      Kind    `json:"kind"`
}

// sheet collects the rows of one group.
type sheet struct {
	group, source string
	rows          []Row
}

// add judges ours against expected ± tolerance.
func (s *sheet) add(kind Kind, quantity, unit string, expected, ours, tolerance float64, source string) {
	r := Row{s.group, quantity, unit, Number(expected), Number(ours), Number(ours - expected), Number(tolerance),
		Number(math.NaN()), Pass, s.source + source, kind}
	if !(math.Abs(ours-expected) <= tolerance) {
		r.Verdict = Gap
		if kind == Exact {
			r.Verdict = Fail
		}
	}
	s.rows = append(s.rows, r)
}

// from names the source of the last row where it is not the group's.
func (s *sheet) from(source string) { s.rows[len(s.rows)-1].Source = source }

// exact adds an exact row with an absolute tolerance.
func (s *sheet) exact(quantity, unit string, expected, ours, tolerance float64, source string) {
	s.add(Exact, quantity, unit, expected, ours, tolerance, source)
}

// share adds an exact row whose tolerance is a share of the expected value.
func (s *sheet) share(quantity, unit string, expected, ours, share float64, source string) {
	s.add(Exact, quantity, unit, expected, ours, share*math.Abs(expected), source)
}

// band adds a row that is not exact: expected is the middle of low to high.
func (s *sheet) band(kind Kind, quantity, unit string, low, high, ours float64, source string) {
	s.add(kind, quantity, unit, (low+high)/2, ours, (high-low)/2, source)
}

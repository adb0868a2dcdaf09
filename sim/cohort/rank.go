package cohort

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/stat"
)

// Rank is a rank correlation of an anatomic number with an outcome.
type Rank struct {
	Path, Outcome string
	N             int
	Rho           float64
	Low, High     float64 // 95 % interval
}

// Spearman returns the rank correlation of x and y (ties share their mean rank) with its 95 % interval by Fisher's
// transform with the variance (1 + ρ²/2)/(n − 3) (Bonett and Wright 2000, from memory). NaN when fewer than 10 pairs or
// when either does not vary. It panics on unequal lengths.
func Spearman(x, y []float64) (rho, low, high float64) {
	if len(x) != len(y) {
		panic("cohort: Spearman needs pairs")
	}
	nan := math.NaN()
	if len(x) < 10 {
		return nan, nan, nan
	}
	rho = stat.Correlation(ranks(x), ranks(y), nil)
	if math.IsNaN(rho) {
		return nan, nan, nan
	}
	rho = math.Max(-1, math.Min(1, rho))
	half := 1.959963984540054 * math.Sqrt((1+rho*rho/2)/float64(len(x)-3))
	z := math.Atanh(rho)
	return rho, math.Tanh(z - half), math.Tanh(z + half)
}

// ranks returns the ranks from 1; equal values share the mean of theirs.
func ranks(x []float64) []float64 {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return x[order[a]] < x[order[b]] })
	r := make([]float64, len(x))
	for i := 0; i < len(order); {
		j := i
		for j+1 < len(order) && x[order[j+1]] == x[order[i]] {
			j++
		}
		for k := i; k <= j; k++ {
			r[order[k]] = float64(i+j)/2 + 1
		}
		i = j + 1
	}
	return r
}

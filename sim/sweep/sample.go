package sweep

import "math/rand/v2"

// gonum's stat/samplemv has both samples too, but it brings golang.org/x/tools with it, which nothing else here needs.

// unitLatin fills n points of d numbers in [0, 1): in every dimension one number in each of n equal parts (McKay,
// Beckman and Conover 1979, from memory).
func unitLatin(n, d int, r *rand.Rand) []float64 {
	out := make([]float64, n*d)
	for j := range d {
		for i, part := range r.Perm(n) {
			out[i*d+j] = (float64(part) + r.Float64()) / float64(n)
		}
	}
	return out
}

// primes are the bases of the Halton sequence, one for each axis.
var primes = [MaxAxes]int{2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53}

// unitHalton fills n points of d numbers in [0, 1): radical inverses in the first d primes, each digit scrambled by a
// random permutation of its own down to the last bit (Owen, arXiv:1706.02808). The first rows are themselves an even
// sample.
func unitHalton(n, d int, r *rand.Rand) []float64 {
	out := make([]float64, n*d)
	for j := range d {
		base := primes[j]
		weight := 1 / float64(base)
		for div := 1; 1-weight < 1; div *= base {
			digit := r.Perm(base)
			for i := range n {
				out[i*d+j] += float64(digit[i/div%base]) * weight
			}
			weight /= float64(base)
		}
		for i := range n { // rounding may reach 1
			if v := &out[i*d+j]; *v >= 1 {
				*v = 1 - 0x1p-53
			}
		}
	}
	return out
}

package ring

import "math"

// band is the lower half of a symmetric banded matrix. Row i holds columns i−width … i, the diagonal last.
type band struct {
	size, width int
	data        []float64
}

func (b *band) resize(size, width int) {
	b.size, b.width = size, width
	b.data = grow(b.data, size*(width+1))
}

// add adds v at (i, j) of the symmetric matrix; call it once per unordered pair.
func (b *band) add(i, j int, v float64) {
	if j > i {
		i, j = j, i
	}
	b.data[i*(b.width+1)+b.width+j-i] += v
}

// mul writes the product of the symmetric matrix with x into y.
func (b *band) mul(y, x []float64) {
	w := b.width
	clear(y)
	for i := range b.size {
		lo := max(0, i-w)
		row := b.data[i*(w+1)+w+lo-i : i*(w+1)+w]
		xi, sum := x[i], 0.0
		xs, ys := x[lo:i], y[lo:i]
		xs, ys = xs[:len(row)], ys[:len(row)]
		for k, a := range row {
			sum += a * xs[k]
			ys[k] += a * xi
		}
		y[i] += sum + b.data[i*(w+1)+w]*xi
	}
}

// factor writes the Cholesky factor of a into b and reports whether a is positive definite.
func (b *band) factor(a *band) bool {
	b.resize(a.size, a.width)
	copy(b.data, a.data)
	w := b.width
	for i := range b.size {
		ri := b.data[i*(w+1) : (i+1)*(w+1)]
		lo := max(0, i-w)
		for j := lo; j < i; j++ {
			rj := b.data[j*(w+1) : (j+1)*(w+1)]
			from := max(lo, j-w)
			x := ri[w+from-i : w+j-i]
			y := rj[w+from-j : w]
			y = y[:len(x)]
			s := ri[w+j-i]
			for k, v := range x {
				s -= v * y[k]
			}
			ri[w+j-i] = s / rj[w]
		}
		d := ri[w]
		for _, v := range ri[w+lo-i : w] {
			d -= v * v
		}
		if !(d > 0) {
			return false
		}
		ri[w] = math.Sqrt(d)
	}
	return true
}

// solve overwrites x with the solution of A·y = x, b being the factor of A.
func (b *band) solve(x []float64) {
	w := b.width
	for i := range b.size {
		lo := max(0, i-w)
		row := b.data[i*(w+1)+w+lo-i : i*(w+1)+w]
		xs := x[lo:i]
		xs = xs[:len(row)]
		s := x[i]
		for k, v := range row {
			s -= v * xs[k]
		}
		x[i] = s / b.data[i*(w+1)+w]
	}
	for i := b.size - 1; i >= 0; i-- {
		lo := max(0, i-w)
		row := b.data[i*(w+1)+w+lo-i : i*(w+1)+w]
		xs := x[lo:i]
		xs = xs[:len(row)]
		xi := x[i] / b.data[i*(w+1)+w]
		x[i] = xi
		for k, v := range row {
			xs[k] -= v * xi
		}
	}
}

// grow returns a slice of length n with cleared contents, reusing s when it is long enough.
func grow[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	s = s[:n]
	clear(s)
	return s
}

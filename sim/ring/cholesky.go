package ring

import "math"

// band is the lower half of a symmetric banded matrix. Row i holds columns i−width … i, the diagonal last. Before column
// start[i] there are only zeros, in the matrix and in its factor: where no vein lies beside the annulus that is most of
// the row.
type band struct {
	size, width int
	data        []float64
	start       []int32
}

func (b *band) resize(size, width int) {
	b.size, b.width = size, width
	b.data, b.start = grow(b.data, size*(width+1)), grow(b.start, size)
	for i := range b.start {
		b.start[i] = int32(i)
	}
}

// copyFrom makes b the same matrix as a.
func (b *band) copyFrom(a *band) {
	b.size, b.width = a.size, a.width
	b.data, b.start = append(b.data[:0], a.data...), append(b.start[:0], a.start...)
}

// add adds v at (i, j) of the symmetric matrix; call it once per unordered pair.
func (b *band) add(i, j int, v float64) {
	if j > i {
		i, j = j, i
	}
	b.data[i*(b.width+1)+b.width+j-i] += v
	if int32(j) < b.start[i] {
		b.start[i] = int32(j)
	}
}

// mul writes the product of the symmetric matrix with x into y.
func (b *band) mul(y, x []float64) {
	w := b.width
	clear(y)
	for i := range b.size {
		lo := int(b.start[i])
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

// factor writes the Cholesky factor of a into b and reports whether a is positive definite. Four columns are eliminated
// side by side: their sums do not wait for each other, and each is added up in the order of a plain loop.
func (b *band) factor(a *band) bool {
	b.copyFrom(a)
	w := b.width
	for i := range b.size {
		first := int(b.start[i])
		shift := w - i // row i holds column j at shift+j; a row j < i begins at or before column first
		ri := b.data[i*(w+1) : (i+1)*(w+1)]
		j := first
		for ; j+3 < i; j += 4 {
			lo := max(first, int(min(b.start[j], b.start[j+1], b.start[j+2], b.start[j+3]))) // zeros before it in all four
			n := j - lo
			x := ri[shift+lo : shift+j]
			y0, y1, y2, y3 := b.tail(j, lo, n), b.tail(j+1, lo, n+1), b.tail(j+2, lo, n+2), b.tail(j+3, lo, n+3)
			s0, s1, s2, s3 := ri[shift+j], ri[shift+j+1], ri[shift+j+2], ri[shift+j+3]
			z0, z1, z2, z3 := y0[:len(x)], y1[:len(x)], y2[:len(x)], y3[:len(x)]
			for k, v := range x {
				s0 -= v * z0[k]
				s1 -= v * z1[k]
				s2 -= v * z2[k]
				s3 -= v * z3[k]
			}
			s0 /= y0[n]
			s1 -= s0 * y1[n]
			s1 /= y1[n+1]
			s2 -= s0 * y2[n]
			s2 -= s1 * y2[n+1]
			s2 /= y2[n+2]
			s3 -= s0 * y3[n]
			s3 -= s1 * y3[n+1]
			s3 -= s2 * y3[n+2]
			s3 /= y3[n+3]
			ri[shift+j], ri[shift+j+1], ri[shift+j+2], ri[shift+j+3] = s0, s1, s2, s3
		}
		for ; j < i; j++ {
			lo := max(first, int(b.start[j]))
			y := b.tail(j, lo, j-lo)
			s := ri[shift+j]
			for k, v := range ri[shift+lo : shift+j] {
				s -= v * y[k]
			}
			ri[shift+j] = s / y[j-lo]
		}
		d := ri[w]
		for _, v := range ri[shift+first : w] {
			d -= v * v
		}
		if !(d > 0) {
			return false
		}
		ri[w] = math.Sqrt(d)
	}
	return true
}

// tail is row j from column lo to its diagonal, which is its element n = j − lo.
func (b *band) tail(j, lo, n int) []float64 {
	at := j*(b.width+1) + b.width + lo - j
	return b.data[at : at+n+1]
}

// solve overwrites x with the solution of A·y = x, b being the factor of A.
func (b *band) solve(x []float64) {
	w := b.width
	for i := range b.size {
		lo := int(b.start[i])
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
		lo := int(b.start[i])
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

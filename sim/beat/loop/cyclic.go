package loop

// cyclic is the LDLᵀ factorisation of a symmetric positive definite cyclic-tridiagonal matrix of order n ≥ 3, with
// diagonal diag and A[i][i+1] = A[i+1][i] = −b[i] (indices modulo n). No pivoting: the matrices here are diagonally
// dominant after scaling.
type cyclic struct {
	inv, next, last []float64 // 1/pivot; multipliers towards row i+1 and towards the last row
}

func newCyclic(n int) cyclic {
	return cyclic{make([]float64, n), make([]float64, n), make([]float64, n)}
}

func (c *cyclic) factor(diag, b []float64) {
	n := len(diag)
	z := n - 1
	dz := diag[z]
	d := diag[0]
	e := -b[z]
	for i := 0; i < z; i++ {
		inv := 1 / d
		c.inv[i] = inv
		if i == z-1 {
			e -= b[i] // the last link's neighbour meets the last row directly
			c.next[i] = 0
			c.last[i] = e * inv
			dz -= e * c.last[i]
			break
		}
		l := -b[i] * inv
		m := e * inv
		c.next[i], c.last[i] = l, m
		d = diag[i+1] + l*b[i]
		dz -= m * e
		e = -l * e
	}
	c.inv[z] = 1 / dz
}

// solve overwrites x with the solution for right-hand side x.
func (c *cyclic) solve(x []float64) {
	z := len(x) - 1
	y := x[0]
	xz := x[z]
	for i := 0; i < z; i++ {
		xz -= c.last[i] * y
		if i < z-1 {
			y = x[i+1] - c.next[i]*y
			x[i+1] = y
		}
	}
	xz *= c.inv[z]
	x[z] = xz
	up := 0.0
	for i := z - 1; i >= 0; i-- {
		up = x[i]*c.inv[i] - c.next[i]*up - c.last[i]*xz
		x[i] = up
	}
}

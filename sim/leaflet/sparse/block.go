package sparse

// subMulT sets work[i] −= x·lowᵀ for every row i of rows and its block of low.
func subMulT(work []block, rows []int32, low []block, x *block) {
	x0, x1, x2, x3, x4, x5, x6, x7, x8 := x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], x[8]
	low = low[:len(rows)]
	for at, i := range rows {
		w, l := &work[i], &low[at]
		l0, l1, l2 := l[0], l[1], l[2]
		w[0] -= x0*l0 + x1*l1 + x2*l2
		w[3] -= x3*l0 + x4*l1 + x5*l2
		w[6] -= x6*l0 + x7*l1 + x8*l2
		l0, l1, l2 = l[3], l[4], l[5]
		w[1] -= x0*l0 + x1*l1 + x2*l2
		w[4] -= x3*l0 + x4*l1 + x5*l2
		w[7] -= x6*l0 + x7*l1 + x8*l2
		l0, l1, l2 = l[6], l[7], l[8]
		w[2] -= x0*l0 + x1*l1 + x2*l2
		w[5] -= x3*l0 + x4*l1 + x5*l2
		w[8] -= x6*l0 + x7*l1 + x8*l2
	}
}

// mul returns a·b.
func mul(a, b *block) block {
	return block{
		a[0]*b[0] + a[1]*b[3] + a[2]*b[6], a[0]*b[1] + a[1]*b[4] + a[2]*b[7], a[0]*b[2] + a[1]*b[5] + a[2]*b[8],
		a[3]*b[0] + a[4]*b[3] + a[5]*b[6], a[3]*b[1] + a[4]*b[4] + a[5]*b[7], a[3]*b[2] + a[4]*b[5] + a[5]*b[8],
		a[6]*b[0] + a[7]*b[3] + a[8]*b[6], a[6]*b[1] + a[7]*b[4] + a[8]*b[7], a[6]*b[2] + a[7]*b[5] + a[8]*b[8],
	}
}

// invert inverts a symmetric block; ok is false unless it is positive definite (leading minors above zero; a NaN fails).
func invert(d *Sym) (inv block, ok bool) {
	a, b, c, e, f, g := d[0], d[1], d[2], d[3], d[4], d[5]
	c00, c01, c02 := e*g-f*f, c*f-b*g, b*f-c*e
	det := a*c00 + b*c01 + c*c02
	if !(a > 0 && a*e-b*b > 0 && det > 0) {
		return block{}, false
	}
	r := 1 / det
	c11, c12, c22 := a*g-c*c, b*c-a*f, a*e-b*b
	return block{c00 * r, c01 * r, c02 * r, c01 * r, c11 * r, c12 * r, c02 * r, c12 * r, c22 * r}, true
}

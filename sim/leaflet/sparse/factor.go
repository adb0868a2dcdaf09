package sparse

type block [9]float64 // row-major

// Factor is L·D·Lᵀ of a permuted Matrix. The zero value is ready for use.
type Factor struct {
	n                                               int
	perm, inv                                       []int32
	parent                                          []int32
	rowPtr, rowCol, rowSlot                         []int32
	colPtr, colLen, rowIdx                          []int32
	low                                             []block // L below the diagonal, by column
	dInv                                            []block
	work                                            []block
	mark, path, stack                               []int32
	y                                               []float64
	adjacency                                       []uint64
	listHead, listTail, listNext, listPrev, listDeg []int32
	freshWork                                       int
}

// Analyse prepares the factor for the pattern of m. The old ordering is kept while it costs at most slack times the
// work of the last fresh one (slack < 1 forces a fresh ordering; 1.2 is a good value). It returns whether it reordered.
func (f *Factor) Analyse(m *Matrix, slack float64) bool {
	if f.n != m.n || len(f.perm) != m.n {
		f.n = m.n
		grow(&f.perm, m.n)
		grow(&f.inv, m.n)
		f.freshWork = 0
	}
	if f.freshWork > 0 && slack >= 1 {
		if f.symbolic(m) <= int(slack*float64(f.freshWork)) {
			return false
		}
	}
	f.order(m)
	f.freshWork = max(f.symbolic(m), 1)
	return true
}

// Forget makes the factor that of a new one, but for its memory: the next Analyse orders afresh.
func (f *Factor) Forget() { f.freshWork = 0 }

// Work is the number of block products of one factorisation with the last fresh ordering.
func (f *Factor) Work() int { return f.freshWork }

// Fill is the number of blocks of L below the diagonal.
func (f *Factor) Fill() int { return len(f.rowIdx) }

// symbolic finds the elimination tree, the permuted rows and the size of every column of L; it returns the number of
// block products that a factorisation will do.
func (f *Factor) symbolic(m *Matrix) int {
	n := f.n
	for k, p := range f.perm {
		f.inv[p] = int32(k)
	}
	ptr := grow(&f.rowPtr, n+1)
	clear(ptr)
	off := m.pairs()
	for at := range off {
		i, j := m.pair(at)
		ptr[max(f.inv[i], f.inv[j])+1]++
	}
	for k := range n {
		ptr[k+1] += ptr[k]
	}
	cols, slots := grow(&f.rowCol, off), grow(&f.rowSlot, off)
	next := grow(&f.stack, n)
	copy(next, ptr[:n])
	for at := range off {
		i, j := m.pair(at)
		r, c := f.inv[i], f.inv[j]
		if r < c {
			r, c = c, r
		}
		cols[next[r]], slots[next[r]] = c, int32(n+at)
		next[r]++
	}
	parent, mark := grow(&f.parent, n), grow(&f.mark, n)
	length := grow(&f.colLen, n)
	clear(length)
	for k := range int32(n) {
		parent[k], mark[k] = -1, k
		for at := ptr[k]; at < ptr[k+1]; at++ {
			for i := cols[at]; mark[i] != k; i = parent[i] {
				if parent[i] < 0 {
					parent[i] = k
				}
				length[i]++
				mark[i] = k
			}
		}
	}
	cp := grow(&f.colPtr, n+1)
	cp[0] = 0
	for k := range n {
		cp[k+1] = cp[k] + length[k]
	}
	fill, work := int(cp[n]), 0
	for _, l := range length {
		work += int(l) * int(l+1) / 2
	}
	grow(&f.rowIdx, fill)
	grow(&f.low, fill)
	grow(&f.dInv, n)
	grow(&f.path, n)
	grow(&f.y, 3*n)
	clear(grow(&f.work, n))
	return work
}

// Factorise computes L and D from the values of m, whose pattern must be the one analysed. It reports false when a
// diagonal block is not positive definite; the factor is then unusable.
func (f *Factor) Factorise(m *Matrix) bool {
	n := f.n
	clear(f.colLen)
	for k := range n {
		f.mark[k] = -1
	}
	for k := range int32(n) {
		top := f.reach(m, k)
		d := m.Val[f.perm[k]]
		for _, j := range f.stack[top:] {
			x := f.work[j]
			f.work[j] = block{}
			begin := f.colPtr[j]
			end := begin + f.colLen[j]
			subMulT(f.work, f.rowIdx[begin:end], f.low[begin:end], &x)
			l := mul(&x, &f.dInv[j])
			d[0] -= x[0]*l[0] + x[1]*l[1] + x[2]*l[2]
			d[1] -= x[0]*l[3] + x[1]*l[4] + x[2]*l[5]
			d[2] -= x[0]*l[6] + x[1]*l[7] + x[2]*l[8]
			d[3] -= x[3]*l[3] + x[4]*l[4] + x[5]*l[5]
			d[4] -= x[3]*l[6] + x[4]*l[7] + x[5]*l[8]
			d[5] -= x[6]*l[6] + x[7]*l[7] + x[8]*l[8]
			f.rowIdx[end], f.low[end] = k, l
			f.colLen[j]++
		}
		inv, ok := invert(&d)
		if !ok {
			clear(f.work)
			return false
		}
		f.dInv[k] = inv
	}
	return true
}

// reach loads row k of the matrix into work and leaves the columns of row k of L, in an order that respects the
// elimination tree, in stack[top:].
func (f *Factor) reach(m *Matrix, k int32) int {
	top := f.n
	f.mark[k] = k
	for at := f.rowPtr[k]; at < f.rowPtr[k+1]; at++ {
		i := f.rowCol[at]
		v := &m.Val[f.rowSlot[at]]
		f.work[i] = block{v[0], v[1], v[2], v[1], v[3], v[4], v[2], v[4], v[5]}
		depth := 0
		for ; f.mark[i] != k; i = f.parent[i] {
			f.path[depth] = i
			depth++
			f.mark[i] = k
		}
		for depth > 0 {
			depth--
			top--
			f.stack[top] = f.path[depth]
		}
	}
	return top
}

// Solve overwrites b (3n entries, in the order of the matrix) by the solution of M·x = b.
func (f *Factor) Solve(b []float64) {
	if len(b) != 3*f.n {
		panic("sparse: right-hand side does not fit the factor")
	}
	y := f.y
	for k, p := range f.perm {
		copy(y[3*k:3*k+3], b[3*p:3*p+3])
	}
	for j := range f.n {
		y0, y1, y2 := y[3*j], y[3*j+1], y[3*j+2]
		for at := f.colPtr[j]; at < f.colPtr[j+1]; at++ {
			l, t := &f.low[at], y[3*f.rowIdx[at]:3*f.rowIdx[at]+3]
			t[0] -= l[0]*y0 + l[1]*y1 + l[2]*y2
			t[1] -= l[3]*y0 + l[4]*y1 + l[5]*y2
			t[2] -= l[6]*y0 + l[7]*y1 + l[8]*y2
		}
	}
	for j := f.n - 1; j >= 0; j-- {
		d := &f.dInv[j]
		y0, y1, y2 := y[3*j], y[3*j+1], y[3*j+2]
		s0 := d[0]*y0 + d[1]*y1 + d[2]*y2
		s1 := d[3]*y0 + d[4]*y1 + d[5]*y2
		s2 := d[6]*y0 + d[7]*y1 + d[8]*y2
		for at := f.colPtr[j]; at < f.colPtr[j+1]; at++ {
			l, t := &f.low[at], y[3*f.rowIdx[at]:3*f.rowIdx[at]+3]
			s0 -= l[0]*t[0] + l[3]*t[1] + l[6]*t[2]
			s1 -= l[1]*t[0] + l[4]*t[1] + l[7]*t[2]
			s2 -= l[2]*t[0] + l[5]*t[1] + l[8]*t[2]
		}
		y[3*j], y[3*j+1], y[3*j+2] = s0, s1, s2
	}
	for k, p := range f.perm {
		copy(b[3*p:3*p+3], y[3*k:3*k+3])
	}
}

package sparse

import "slices"

// Sym is a symmetric 3×3 block: xx, xy, xz, yy, yz, zz.
type Sym [6]float64

// Key names the off-diagonal pair of block rows i and j in either order; i must differ from j.
func Key(i, j int32) uint64 {
	if i < j {
		i, j = j, i
	}
	return uint64(i)<<32 | uint64(uint32(j))
}

// Matrix is a block-symmetric matrix. Its slots are n diagonal blocks, then the fixed pairs, then the extra pairs.
type Matrix struct {
	n     int
	fixed []uint64
	extra []uint64
	Val   []Sym
}

// NewMatrix makes a matrix of n block rows with the fixed off-diagonal pairs (keys in any order, repeats allowed).
// It panics when a key names a row outside 0..n−1.
func NewMatrix(n int, keys []uint64) *Matrix {
	fixed := slices.Clone(keys)
	slices.Sort(fixed)
	fixed = slices.Compact(fixed)
	for _, k := range fixed {
		if i, j := int(k>>32), int(uint32(k)); i >= n || j >= i {
			panic("sparse: pair outside the matrix")
		}
	}
	return &Matrix{n: n, fixed: fixed, Val: make([]Sym, n+len(fixed))}
}

// Rows is the number of block rows.
func (m *Matrix) Rows() int { return m.n }

// SetExtra replaces the extra pairs by those of keys, which it sorts in place; pairs already fixed are left out.
// Values are cleared. The old Factor must be analysed again.
func (m *Matrix) SetExtra(keys []uint64) {
	slices.Sort(keys)
	m.extra = m.extra[:0]
	var last uint64
	for n, k := range keys {
		if n > 0 && k == last {
			continue
		}
		last = k
		if _, ok := slices.BinarySearch(m.fixed, k); !ok {
			m.extra = append(m.extra, k)
		}
	}
	need := m.n + len(m.fixed) + len(m.extra)
	m.Val = slices.Grow(m.Val[:0], need+need/8)[:need]
	m.Zero()
}

// Slot finds the slot of the pair (i, j), −1 when the pattern lacks it. i == j is the diagonal.
func (m *Matrix) Slot(i, j int32) int32 {
	if i == j {
		return i
	}
	k := Key(i, j)
	if at, ok := slices.BinarySearch(m.fixed, k); ok {
		return int32(m.n + at)
	}
	if at, ok := slices.BinarySearch(m.extra, k); ok {
		return int32(m.n + len(m.fixed) + at)
	}
	return -1
}

// Zero clears every value and keeps the pattern.
func (m *Matrix) Zero() { clear(m.Val) }

// Add adds b to the block at slot.
func (m *Matrix) Add(slot int32, b *Sym) {
	v := &m.Val[slot]
	v[0] += b[0]
	v[1] += b[1]
	v[2] += b[2]
	v[3] += b[3]
	v[4] += b[4]
	v[5] += b[5]
}

// AddScaled adds s·b to the block at slot.
func (m *Matrix) AddScaled(slot int32, s float64, b *Sym) {
	v := &m.Val[slot]
	v[0] += s * b[0]
	v[1] += s * b[1]
	v[2] += s * b[2]
	v[3] += s * b[3]
	v[4] += s * b[4]
	v[5] += s * b[5]
}

// AddIdentity adds s times the identity to the block at slot.
func (m *Matrix) AddIdentity(slot int32, s float64) {
	v := &m.Val[slot]
	v[0] += s
	v[3] += s
	v[5] += s
}

// pair gives the rows of the off-diagonal slot counted from the first off-diagonal one.
func (m *Matrix) pair(at int) (i, j int32) {
	k := uint64(0)
	if at < len(m.fixed) {
		k = m.fixed[at]
	} else {
		k = m.extra[at-len(m.fixed)]
	}
	return int32(k >> 32), int32(uint32(k))
}

// pairs is the number of off-diagonal slots.
func (m *Matrix) pairs() int { return len(m.fixed) + len(m.extra) }

// Mul sets y = M·x; both have 3n entries.
func (m *Matrix) Mul(y, x []float64) {
	if len(x) != 3*m.n || len(y) != 3*m.n {
		panic("sparse: vector length does not fit the matrix")
	}
	clear(y)
	for i := range m.n {
		m.Val[i].mulAdd(y[3*i:3*i+3], x[3*i:3*i+3])
	}
	for at := range m.pairs() {
		i, j := m.pair(at)
		b := &m.Val[m.n+at]
		b.mulAdd(y[3*i:3*i+3], x[3*j:3*j+3])
		b.mulAdd(y[3*j:3*j+3], x[3*i:3*i+3])
	}
}

func (b *Sym) mulAdd(y, x []float64) {
	y[0] += b[0]*x[0] + b[1]*x[1] + b[2]*x[2]
	y[1] += b[1]*x[0] + b[3]*x[1] + b[4]*x[2]
	y[2] += b[2]*x[0] + b[4]*x[1] + b[5]*x[2]
}

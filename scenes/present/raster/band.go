package raster

// band is one strip of a scene's picture: depth and colour of every sample. Each thread owns one. Between uses depth is
// farAway and everything else zero.
type band struct {
	w, y0, y1 int
	z         []float32
	col       []uint32 // red in the low byte, alpha in the high, multiplied by alpha
	cover     []uint8  // of the curve being painted
	lo, hi    []int32  // touched part of each row of cover
	from, to  []int32  // touched part of each row of depth and colour
}

// farAway is behind everything a scene holds, mm.
const farAway = -1e30

func (b *band) begin(w, y0, y1 int) {
	b.w, b.y0, b.y1 = w, y0, y1
	if n := w * (y1 - y0); n > len(b.z) {
		b.z, b.col, b.cover = make([]float32, n), make([]uint32, n), make([]uint8, n)
		for i := range b.z {
			b.z[i] = farAway
		}
	}
	if n := y1 - y0; n > len(b.lo) {
		b.lo, b.hi, b.from, b.to = make([]int32, n), make([]int32, n), make([]int32, n), make([]int32, n)
	}
	for i := range y1 - y0 {
		b.from[i], b.to[i] = int32(w), 0
	}
}

// touch notes that the samples from x to stop of a row of the band are painted.
func (b *band) touch(row, x, stop int) {
	if int32(x) < b.from[row] {
		b.from[row] = int32(x)
	}
	if int32(stop) > b.to[row] {
		b.to[row] = int32(stop)
	}
}

// end clears what was touched.
func (b *band) end() {
	for row := range b.y1 - b.y0 {
		from, to := row*b.w+int(b.from[row]), row*b.w+int(b.to[row])
		if from >= to {
			continue
		}
		clear(b.col[from:to])
		z := b.z[from:to]
		for i := range z {
			z[i] = farAway
		}
	}
}

// plane is a triangle's values as planes over the picture: depth, and colour times 65536.
type plane struct {
	x, y      float32 // where the values below hold
	z, zx, zy float32
	zlo, zhi  float32
	c, cx, cy [3]float32
}

// triangle paints one triangle: pixels whose middle lies in it, left and top edges included, right and bottom not, so
// that neighbours neither overlap nor leave a seam.
func (b *band) triangle(s *solid, t *triangle) {
	p, q, r := &s.vertices[t.a], &s.vertices[t.b], &s.vertices[t.c]
	pl, ok := planes(p, q, r, t.back)
	if !ok {
		return
	}
	// Sort by height (then across, so that a shared edge is always walked from the same end).
	if before(q, p) {
		p, q = q, p
	}
	if before(r, q) {
		q, r = r, q
		if before(q, p) {
			p, q = q, p
		}
	}
	long := slope(p, r)
	b.half(&pl, t, p.y, q.y, p, long, p, slope(p, q))
	b.half(&pl, t, q.y, r.y, p, long, q, slope(q, r))
}

func before(a, b *vertex) bool { return a.y < b.y || a.y == b.y && a.x < b.x }

func slope(a, b *vertex) float32 {
	if a.y == b.y {
		return 0
	}
	return (b.x - a.x) / (b.y - a.y)
}

// planes finds a triangle's planes. Slivers get one colour, since their slopes would be mere rounding.
func planes(p, q, r *vertex, back bool) (pl plane, ok bool) {
	dx1, dy1, dx2, dy2 := q.x-p.x, q.y-p.y, r.x-p.x, r.y-p.y
	area := dx1*dy2 - dx2*dy1
	if area == 0 {
		return pl, false
	}
	inv := 1 / area
	pl.x, pl.y, pl.z = p.x, p.y, p.z
	dz1, dz2 := q.z-p.z, r.z-p.z
	pl.zx, pl.zy = (dz1*dy2-dz2*dy1)*inv, (dz2*dx1-dz1*dx2)*inv
	a, b, c := &p.front, &q.front, &r.front
	if back {
		a, b, c = &p.back, &q.back, &r.back
	}
	size := dx1*dx1 + dy1*dy1
	if other := dx2*dx2 + dy2*dy2; other > size {
		size = other
	}
	sliver := area*area < size*size*1e-6
	for i := range 3 {
		if sliver {
			pl.c[i] = (float32(a[i]) + float32(b[i]) + float32(c[i])) / 3
			continue
		}
		d1, d2 := float32(b[i]-a[i]), float32(c[i]-a[i])
		pl.c[i], pl.cx[i], pl.cy[i] = float32(a[i]), (d1*dy2-d2*dy1)*inv, (d2*dx1-d1*dx2)*inv
	}
	pl.zlo, pl.zhi = range3(p.z, q.z, r.z)
	return pl, true
}

// range3 returns the least and greatest of three numbers. Comparisons, since the built-in min and max of floats are
// slow function calls in WebAssembly (they took a seventh of a scene's time there).
func range3(a, b, c float32) (lo, hi float32) {
	lo, hi = a, a
	if b < lo {
		lo = b
	}
	if b > hi {
		hi = b
	}
	if c < lo {
		lo = c
	}
	if c > hi {
		hi = c
	}
	return lo, hi
}

// half paints the rows between two heights, between the edges that start at u and v.
func (b *band) half(pl *plane, t *triangle, top, bottom float32, u *vertex, su float32, v *vertex, sv float32) {
	y, end := firstMiddle(top, b.y0, b.y1), firstMiddle(bottom, b.y0, b.y1)
	for ; y < end; y++ {
		yc := float32(y) + 0.5
		xa, xb := u.x+su*(yc-u.y), v.x+sv*(yc-v.y)
		if xa > xb {
			xa, xb = xb, xa
		}
		x, stop := firstMiddle(xa, 0, b.w), firstMiddle(xb, 0, b.w)
		if x < stop {
			b.touch(y-b.y0, x, stop)
			b.span(pl, t.alpha, y, x, stop)
		}
	}
}

// firstMiddle returns the first whole number in [lo, hi] whose pixel's middle is not before v, for |v| below 2^20.
func firstMiddle(v float32, lo, hi int) int {
	const big = 1 << 21
	return min(max(big-int(big+0.5-float64(v)), lo), hi)
}

// span paints the samples from x to stop of one row.
func (b *band) span(pl *plane, alpha uint8, y, x, stop int) {
	dx, dy := float32(x)+0.5-pl.x, float32(y)+0.5-pl.y
	z, zx := pl.z+pl.zx*dx+pl.zy*dy, pl.zx
	if z < pl.zlo {
		z = pl.zlo
	} else if z > pl.zhi {
		z = pl.zhi
	}
	r := int32(pl.c[0] + pl.cx[0]*dx + pl.cy[0]*dy)
	g := int32(pl.c[1] + pl.cx[1]*dx + pl.cy[1]*dy)
	bl := int32(pl.c[2] + pl.cx[2]*dx + pl.cy[2]*dy)
	// Red and blue walk together, blue in the high half: both stay within a byte and its fraction, so neither reaches the other.
	rb, rbx := int64(bl)<<32+int64(r), int64(int32(pl.cx[2]))<<32+int64(int32(pl.cx[0]))
	gx := int32(pl.cx[1])
	from := (y-b.y0)*b.w + x
	depth := b.z[from : from+stop-x]
	col := b.col[from : from+stop-x][:len(depth)]
	if alpha != 255 {
		for i := range depth {
			if z > depth[i] {
				col[i] = glaze(col[i], rgb(rb, g), uint32(alpha))
			}
			z, rb, g = z+zx, rb+rbx, g+gx
		}
		return
	}
	for i := range depth {
		if z > depth[i] {
			depth[i] = z
			col[i] = rgb(rb, g) | 255<<24
		}
		z, rb, g = z+zx, rb+rbx, g+gx
	}
}

// rgb packs the whole parts of colour values times 65536.
func rgb(rb int64, g int32) uint32 {
	return uint32(rb>>16)&0xFF | uint32(g>>8)&0xFF00 | uint32(rb>>32)&0xFF0000
}

// glaze blends an opaque colour with the given alpha over d, which is multiplied by its alpha.
func glaze(d, c, a uint32) uint32 {
	keep := 255 - a
	c |= 255 << 24
	return div255x2(c&even*a+d&even*keep) | div255x2(c>>8&even*a+d>>8&even*keep)<<8
}

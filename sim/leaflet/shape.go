package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// shape holds what depends on the anatomy and the mesh size alone: columns, rest positions, closed target.
type shape struct {
	s, t   int
	index  []float64 // per column: position in the annulus polyline, in points
	line   []float64 // per column: s along the line
	length []float64 // per column: rest length annulus to margin, mm
	rest   []r3.Vec
	target []r3.Vec  // per column: where the chords want the margin, closed
	margin []float64 // rest arc length of the margin from column 0 to column j; one more entry than columns
}

// newShape lays s columns at equal arc length of the rest annulus and t rows (row 0 the annulus).
func newShape(a *Anatomy, s, t int) *shape {
	h := &shape{s: s, t: t, index: columns(a.RestAnnulus, s)}
	n := s * t
	h.line, h.length = make([]float64, s), make([]float64, s)
	h.rest, h.target, h.margin = make([]r3.Vec, n), make([]r3.Vec, s), make([]float64, s+1)
	right, left := a.RestAnnulus[0].X, a.RestAnnulus[len(a.RestAnnulus)/2].X
	for j := range s {
		p := loopAt(a.RestAnnulus, h.index[j])
		x := min(max((2*p.X-right-left)/(right-left), -1), 1)
		if j == 0 || 2*j == s {
			x = math.Copysign(1, x)
		}
		h.line[j] = x
		side := a.AnteriorMM
		if 2*j > s {
			side = a.PosteriorMM
		}
		// Full length at A2 and P2, falling smoothly to the commissures (chosen; anatomy.md section 2 gives no profile).
		bell := math.Sqrt(1 - x*x)
		h.length[j] = (a.CommissureMM + (side-a.CommissureMM)*bell) * a.Growth
		h.target[j] = r3.Vec{X: x * a.LineHalfMM, Y: a.LineYMM + a.LineBendMM*x*x, Z: -a.LineDepthMM + a.LineRiseMM*x*x}
		h.skirt(a, h.rest, p, j)
	}
	for j := range s {
		h.margin[j+1] = h.margin[j] + r3.Norm(r3.Sub(h.rest[(t-1)*s+(j+1)%s], h.rest[(t-1)*s+j]))
	}
	return h
}

// skirt hangs column j from p: the margin drawn in by MarginX and MarginY, the length kept.
func (h *shape) skirt(a *Anatomy, out []r3.Vec, p r3.Vec, j int) {
	end := r3.Vec{X: p.X * a.MarginX, Y: p.Y * a.MarginY}
	in := math.Hypot(end.X-p.X, end.Y-p.Y)
	end.Z = p.Z - math.Sqrt(max(h.length[j]*h.length[j]-in*in, 1))
	for i := range h.t {
		f := float64(i) / float64(h.t-1)
		out[i*h.s+j] = r3.Add(r3.Scale(1-f, p), r3.Scale(f, end))
	}
}

// start is the state of a cold solve: every column straight from the present annulus towards the closed target, the
// margins kept `apart` mm from each other, so that nothing touches or crosses.
func (h *shape) start(a *Anatomy, annulus []r3.Vec, apart float64, out []r3.Vec) {
	for j := range h.s {
		p := loopAt(annulus, h.index[j])
		end := h.target[j]
		if 2*j < h.s {
			end.Y += apart / 2 * (1 - h.line[j]*h.line[j])
		} else {
			end.Y -= apart / 2 * (1 - h.line[j]*h.line[j])
		}
		for i := range h.t {
			f := float64(i) / float64(h.t-1)
			out[i*h.s+j] = r3.Add(r3.Scale(1-f, p), r3.Scale(f, end))
		}
	}
}

// triangles returns the mesh: quads of the ring with alternating diagonals, normals towards the lumen.
func (h *shape) triangles() [][3]int32 {
	var out [][3]int32
	for i := range h.t - 1 {
		for j := range h.s {
			k := (j + 1) % h.s
			a, b := int32(i*h.s+j), int32(i*h.s+k)
			c, d := int32((i+1)*h.s+j), int32((i+1)*h.s+k)
			if (i+j)%2 == 0 {
				out = append(out, [3]int32{a, b, d}, [3]int32{a, d, c})
			} else {
				out = append(out, [3]int32{a, b, c}, [3]int32{b, d, c})
			}
		}
	}
	return out
}

// corners gives the four vertices and bilinear weights of the point at column u (in columns, any value) and row v (0 to 1).
func (h *shape) corners(u, v float64) (c [4]int32, w [4]float64) {
	u = math.Mod(u, float64(h.s))
	if u < 0 {
		u += float64(h.s)
	}
	j := min(int(u), h.s-1)
	fu := u - float64(j)
	r := min(max(v, 0), 1) * float64(h.t-1)
	i := min(int(r), h.t-2)
	fv := r - float64(i)
	k := (j + 1) % h.s
	c = [4]int32{int32(i*h.s + j), int32(i*h.s + k), int32((i+1)*h.s + j), int32((i+1)*h.s + k)}
	w = [4]float64{(1 - fu) * (1 - fv), fu * (1 - fv), (1 - fu) * fv, fu * fv}
	return c, w
}

// columnAt is the fractional column of station s on a leaflet.
func (h *shape) columnAt(side Side, s float64) float64 {
	half := h.s / 2
	at := func(j int) float64 { return h.line[j%h.s] }
	for j := range half { // s falls along the anterior side, and rises along the posterior
		lo, hi := j, j+1
		if side == Posterior {
			lo, hi = h.s-j, h.s-j-1
		}
		if a, b := at(lo), at(hi); s <= a && s >= b && a > b {
			return float64(lo) + (a-s)/(a-b)*float64(hi-lo)
		}
	}
	return float64(half)
}

// marginAt is the rest arc length of the margin at fractional column u in [0, s].
func (h *shape) marginAt(u float64) float64 {
	j := min(int(u), h.s-1)
	return h.margin[j] + (u-float64(j))*(h.margin[j+1]-h.margin[j])
}

// columnAtMargin inverts marginAt.
func (h *shape) columnAtMargin(arc float64) float64 {
	lo, hi := 0, h.s
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; h.margin[mid] <= arc {
			lo = mid
		} else {
			hi = mid
		}
	}
	return float64(lo) + (arc-h.margin[lo])/(h.margin[lo+1]-h.margin[lo])
}

// columns finds s positions at equal arc length along the loop, in points, with column 0 and s/2 at points 0 and n/2.
func columns(loop []r3.Vec, s int) []float64 {
	n := len(loop)
	out := make([]float64, s)
	half := func(from, to, first int) {
		arc := make([]float64, to-from+1)
		for i := from; i < to; i++ {
			arc[i-from+1] = arc[i-from] + r3.Norm(r3.Sub(loop[(i+1)%n], loop[i]))
		}
		k := 0
		for j := range s / 2 {
			want := arc[len(arc)-1] * float64(j) / float64(s/2)
			for k+2 < len(arc) && arc[k+1] <= want {
				k++
			}
			out[first+j] = float64(from+k) + (want-arc[k])/(arc[k+1]-arc[k])
		}
	}
	half(0, n/2, 0)
	half(n/2, n, s/2)
	return out
}

// loopAt evaluates a closed polyline at fractional point i by a cubic through four points.
func loopAt(loop []r3.Vec, i float64) r3.Vec {
	n := len(loop)
	k := int(math.Floor(i))
	t := i - float64(k)
	at := func(d int) r3.Vec { return loop[((k+d)%n+n)%n] }
	p0, p1, p2, p3 := at(-1), at(0), at(1), at(2)
	w := [4]float64{
		((-t+2)*t - 1) * t / 2, ((3*t-5)*t*t + 2) / 2, ((-3*t+4)*t + 1) * t / 2, (t - 1) * t * t / 2,
	}
	return r3.Add(r3.Add(r3.Scale(w[0], p0), r3.Scale(w[1], p1)), r3.Add(r3.Scale(w[2], p2), r3.Scale(w[3], p3)))
}

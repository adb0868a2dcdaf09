package closure

import "math"

// system is a line of sections coupled by the margin's tension, with its scratch memory.
type system struct {
	sec      []section
	spacing  float64 // mm
	pressure float64 // N/mm²
	tension  float64 // of the margin, N
	tol      float64 // residual at which Newton stops, mm; 0 = toleranceMM
	widths   [MaxClips]float64

	x, trial []vec3
	out, alt []sectionOut
	y        [2][]float64 // approach of each leaflet to the other since the baseline, mm
	lower    []mat3
	upper    []mat3
	diag     []mat3
	step     []vec3
}

type mat3 [3][3]float64

// resize gives the scratch memory room for n sections; it allocates only when n grows.
func (p *system) resize(n int) {
	if cap(p.sec) < n {
		p.sec = make([]section, n)
		p.x, p.trial, p.step = make([]vec3, n), make([]vec3, n), make([]vec3, n)
		p.out, p.alt = make([]sectionOut, n), make([]sectionOut, n)
		p.y[0], p.y[1] = make([]float64, n), make([]float64, n)
		p.lower, p.upper, p.diag = make([]mat3, n), make([]mat3, n), make([]mat3, n)
	}
	p.sec, p.x, p.trial, p.step = p.sec[:n], p.x[:n], p.trial[:n], p.step[:n]
	p.out, p.alt = p.out[:n], p.alt[:n]
	p.y[0], p.y[1] = p.y[0][:n], p.y[1][:n]
	p.lower, p.upper, p.diag = p.lower[:n], p.upper[:n], p.diag[:n]
}

// stencil returns the coefficients of T·y″ at station i of n: left, own, right (N/mm²). The ends are natural (no slope)
// and carry half a cell.
func (p *system) stencil(i, n int) (left, own, right float64) {
	k := p.tension / (p.spacing * p.spacing)
	switch {
	case n == 1:
		return 0, 0, 0
	case i == 0:
		return 0, -2 * k, 2 * k
	case i == n-1:
		return 2 * k, -2 * k, 0
	}
	return k, -2 * k, k
}

// evaluate fills out for the unknowns x and returns the residual norm (mm), +Inf where a section has no shape.
func (p *system) evaluate(x []vec3, out []sectionOut) float64 {
	n := len(x)
	for i := range x {
		s, o := &p.sec[i], &out[i]
		s.place(x[i], o)
		for k, sg := range side {
			p.y[k][i] = sg * ((o.j[k].X-s.base[k].X)*s.n0.X + (o.j[k].Z-s.base[k].Z)*s.n0.Z)
		}
	}
	var sum float64
	for i := range x {
		left, own, right := p.stencil(i, n)
		var m [2]float64
		for k := range m {
			m[k] = own * p.y[k][i]
			if i > 0 {
				m[k] += left * p.y[k][i-1]
			}
			if i < n-1 {
				m[k] += right * p.y[k][i+1]
			}
		}
		o := &out[i]
		if !p.sec[i].eval(x[i], m, &p.widths, p.pressure, o) {
			return math.Inf(1)
		}
		for _, r := range o.res {
			sum += r * r
		}
	}
	norm := math.Sqrt(sum / float64(n))
	if math.IsNaN(norm) {
		return math.Inf(1)
	}
	return norm
}

// room is how far the state is from the limits of the model, 0 at the first that is reached: the margin's force on a
// leaflet above what a kink can answer, or an arc closed to a circle. least is the limit of leafletOut.bear.
func (p *system) room(least float64) float64 {
	room := math.Inf(1)
	for i := range p.out {
		for k := range p.out[i].leaf {
			l := &p.out[i].leaf[k]
			room = math.Min(room, math.Min(l.bear-least, maxAngle-foldAngle-l.t))
		}
	}
	return room
}

// bear is the least leafletOut.bear of the state.
func (p *system) bear() float64 {
	least := math.Inf(1)
	for i := range p.out {
		for k := range p.out[i].leaf {
			least = math.Min(least, p.out[i].leaf[k].bear)
		}
	}
	return least
}

// approach is the derivative of y of leaflet k at station i by the station's unknowns.
func (p *system) approach(out []sectionOut, k, i int) vec3 {
	dj, n0, sg := &out[i].dj[k], p.sec[i].n0, side[k]
	var v vec3
	for a := range v {
		v[a] = sg * (dj[0][a]*n0.X + dj[1][a]*n0.Z)
	}
	return v
}

// assemble builds the block-tridiagonal Jacobian and the right-hand side −residual.
func (p *system) assemble(out []sectionOut) {
	n := len(out)
	for i := range out {
		o := &out[i]
		left, own, right := p.stencil(i, n)
		for r := 0; r < 3; r++ {
			p.step[i][r] = -o.res[r]
			for a := 0; a < 3; a++ {
				p.diag[i][r][a] = o.jac[r][a]
			}
		}
		p.lower[i], p.upper[i] = mat3{}, mat3{}
		if p.tension == 0 {
			continue
		}
		for k := 0; k < 2; k++ {
			addOuter(&p.diag[i], o, k, own, p.approach(out, k, i))
			if i > 0 {
				addOuter(&p.lower[i], o, k, left, p.approach(out, k, i-1))
			}
			if i < n-1 {
				addOuter(&p.upper[i], o, k, right, p.approach(out, k, i+1))
			}
		}
	}
}

func addOuter(m *mat3, o *sectionOut, k int, scale float64, v vec3) {
	for r := 0; r < 3; r++ {
		f := scale * o.jac[r][3+k]
		m[r][0] += f * v[0]
		m[r][1] += f * v[1]
		m[r][2] += f * v[2]
	}
}

// solveBlocks solves the assembled system in place: step becomes the Newton step. It returns false on a singular block.
func (p *system) solveBlocks() bool {
	n := len(p.step)
	for i := 0; i < n; i++ {
		if i > 0 {
			l := &p.lower[i]
			for r := 0; r < 3; r++ {
				for a := 0; a < 3; a++ {
					p.diag[i][r][a] -= l[r][0]*p.upper[i-1][0][a] + l[r][1]*p.upper[i-1][1][a] + l[r][2]*p.upper[i-1][2][a]
				}
				p.step[i][r] -= l[r][0]*p.step[i-1][0] + l[r][1]*p.step[i-1][1] + l[r][2]*p.step[i-1][2]
			}
		}
		if !solve3(&p.diag[i], &p.upper[i], &p.step[i]) {
			return false
		}
	}
	for i := n - 2; i >= 0; i-- {
		u, v := &p.upper[i], &p.step[i+1]
		for r := 0; r < 3; r++ {
			p.step[i][r] -= u[r][0]*v[0] + u[r][1]*v[1] + u[r][2]*v[2]
		}
	}
	return true
}

// solve3 replaces b and v by their products with the inverse of a, by elimination with row exchange.
func solve3(a, b *mat3, v *vec3) bool {
	for c := 0; c < 3; c++ {
		best := c
		for r := c + 1; r < 3; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[best][c]) {
				best = r
			}
		}
		if !(math.Abs(a[best][c]) > 1e-300) {
			return false
		}
		if best != c {
			a[c], a[best] = a[best], a[c]
			b[c], b[best] = b[best], b[c]
			v[c], v[best] = v[best], v[c]
		}
		inv := 1 / a[c][c]
		for r := c + 1; r < 3; r++ {
			f := a[r][c] * inv
			for k := c + 1; k < 3; k++ {
				a[r][k] -= f * a[c][k]
			}
			for k := 0; k < 3; k++ {
				b[r][k] -= f * b[c][k]
			}
			v[r] -= f * v[c]
		}
	}
	for c := 2; c >= 0; c-- {
		inv := 1 / a[c][c]
		for k := 0; k < 3; k++ {
			for m := c + 1; m < 3; m++ {
				b[c][k] -= a[c][m] * b[m][k]
			}
			b[c][k] *= inv
		}
		for m := c + 1; m < 3; m++ {
			v[c] -= a[c][m] * v[m]
		}
		v[c] *= inv
	}
	return true
}

// newton solves the system from the unknowns in p.x. It returns the iterations used and whether the residual fell below
// the tolerance; p.out then belongs to p.x. On failure p.x holds the best state reached.
func (p *system) newton(limit int) (int, bool) {
	tol := p.tol
	if tol == 0 {
		tol = toleranceMM
	}
	norm := p.evaluate(p.x, p.out)
	for it := 0; it < limit; it++ {
		if norm < tol {
			return it, true
		}
		if math.IsInf(norm, 1) {
			return it, false
		}
		p.assemble(p.out)
		if !p.solveBlocks() {
			return it, false
		}
		var largest float64
		for i := range p.step {
			for _, v := range p.step[i] {
				largest = math.Max(largest, math.Abs(v))
			}
		}
		if math.IsNaN(largest) {
			return it, false
		}
		scale := 1.0
		if largest > stepCapMM {
			scale = stepCapMM / largest
		}
		accepted := false
		for cut := 0; cut < 12; cut++ {
			for i := range p.x {
				for a := range p.x[i] {
					p.trial[i][a] = p.x[i][a] + scale*p.step[i][a]
				}
			}
			next := p.evaluate(p.trial, p.alt)
			if next < norm*(1-1e-4*scale) || next < tol {
				p.x, p.trial = p.trial, p.x
				p.out, p.alt = p.alt, p.out
				norm, accepted = next, true
				break
			}
			scale /= 2
		}
		if !accepted {
			return it, false
		}
	}
	return limit, norm < tol
}

package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// spring is an axial cord between two points. With λ = length ÷ rest length and e = λ − 1 its force is
//
//	compression·(1 − 1/λ) + (tension − compression)·StretchToe·s(e/StretchToe),  s(x) = (x + √(x²+1) − 1)/2
//
// zero at rest, smooth and rising everywhere; tension is EA when stretched, compression EA when shortened. The first
// term grows without bound as the cord gathers to nothing, so two points never meet.
type spring struct {
	a, b                 int
	rest                 float64 // mm
	tension, compression float64 // EA, N
}

// force returns energy (N·mm), force (N, tension positive) and stiffness (N/mm) at length d.
func (p *spring) force(d float64) (energy, force, stiffness float64) {
	r := d / p.rest
	e := (d - p.rest) / p.rest
	x := e / StretchToe
	q := math.Sqrt(x*x + 1)
	extra := p.tension - p.compression
	energy = p.rest * (p.compression*(e-math.Log(r)) + extra*StretchToe*StretchToe*(x*x/4+(x*q+math.Asinh(x))/4-x/2))
	force = p.compression*e/r + extra*StretchToe*(x+q-1)/2
	stiffness = (p.compression/(r*r) + extra*(1+x/q)/2) / p.rest
	return energy, force, stiffness
}

// springEnergy adds energy and, unless grad is nil, forces of all cords at positions x.
func (s *Solver) springEnergy(x []r3.Vec, grad []float64) float64 {
	total := 0.0
	for k := range s.springs {
		p := &s.springs[k]
		d := r3.Sub(x[p.b], x[p.a])
		l := span(d)
		e, f, _ := p.force(l)
		total += e
		if grad != nil {
			addPair(grad, s.first[p.a], s.first[p.b], r3.Scale(f/l, d))
		}
	}
	return total
}

// springStiffness adds the tangent stiffness of all cords. With clamp, the part that a compressed cord takes off
// across its axis is left out, which keeps the matrix positive definite.
func (s *Solver) springStiffness(x []r3.Vec, h *band, clamp bool) {
	for k := range s.springs {
		p := &s.springs[k]
		d := r3.Sub(x[p.b], x[p.a])
		l := span(d)
		_, f, c := p.force(l)
		g := f / l
		if clamp && g < 0 {
			g = 0
		}
		addAxial(h, s.first[p.a], s.first[p.b], r3.Scale(1/l, d), c-g, g)
	}
}

// addPair adds the gradient of a pair energy whose derivative by (x_b − x_a) is v.
func addPair(grad []float64, a, b int, v r3.Vec) {
	grad[a] -= v.X
	grad[a+1] -= v.Y
	grad[a+2] -= v.Z
	grad[b] += v.X
	grad[b+1] += v.Y
	grad[b+2] += v.Z
}

// addAxial adds the stiffness along·ttᵀ + iso·I between the points at rows a and b.
func addAxial(h *band, a, b int, t r3.Vec, along, iso float64) {
	v := [3]float64{t.X, t.Y, t.Z}
	for i := range 3 {
		for j := range 3 {
			k := along * v[i] * v[j]
			if i == j {
				k += iso
			}
			h.add(a+i, b+j, -k)
			if j <= i {
				h.add(a+i, a+j, k)
				h.add(b+i, b+j, k)
			}
		}
	}
}

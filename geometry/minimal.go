package geometry

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// Status tells how a numerical search ended.
type Status int

const (
	Converged    Status = iota
	NotConverged        // the step limit came first; the result is the best found
)

func (s Status) String() string {
	if s == Converged {
		return "converged"
	}
	return "not converged"
}

// MinimalSurface is the disc of least area spanned by a closed curve.
//
// Method (Douglas 1931, Trans Am Math Soc 33:263-321, from memory): the least area equals the least Dirichlet energy
// ½∫|∇X|² of harmonic maps of the unit disc whose boundary runs once through the curve; the unknowns are the positions
// on the curve of equally spaced boundary nodes, the energy is a quadratic form in the boundary points with the symbol
// |n| in Fourier space. For a smooth curve the error falls faster than any power of the number of nodes, until the
// spline through the curve's points limits it (n⁻⁴).
type MinimalSurface struct {
	AreaMM2  float64
	Boundary []r3.Vec // nodes at equal angles of the disc, on the spline through the curve
}

// MinimalArea returns the area in mm² of the minimal surface spanned by a closed curve of at least 3 points with
// distinct neighbours. It is unique when the curve projects one to one on a convex planar curve (Radó), which an annulus
// does; otherwise it is a local minimum. Never less than the projected area.
func MinimalArea(curve []r3.Vec) (float64, Status) {
	s, status := NewMinimalSurface(curve, 0)
	return s.AreaMM2, status
}

// NewMinimalSurface finds the surface with the given odd number of boundary nodes; 0 means 129.
func NewMinimalSurface(curve []r3.Vec, nodes int) (MinimalSurface, Status) {
	if nodes == 0 {
		nodes = minimalNodes
	}
	if nodes < 5 || nodes%2 == 0 {
		panic("geometry: NewMinimalSurface needs an odd number of nodes, at least 5")
	}
	d := newDouglas(NewClosedSpline(curve), nodes)
	status := d.minimise()
	return MinimalSurface{AreaMM2: d.energy, Boundary: d.x}, status
}

// douglas is the state of the search: node parameters u on the spline, boundary points and the energy there.
type douglas struct {
	spline *ClosedSpline
	kernel []float64 // circulant matrix of |n|: kernel[|i−j|]
	u      []float64
	x, t   []r3.Vec // points and tangents
	dd     []r3.Vec // second derivatives
	kx     []r3.Vec // kernel applied to x
	energy float64
}

func newDouglas(s *ClosedSpline, n int) *douglas {
	d := &douglas{spline: s, kernel: make([]float64, n), u: make([]float64, n), x: make([]r3.Vec, n), t: make([]r3.Vec, n), dd: make([]r3.Vec, n), kx: make([]r3.Vec, n)}
	for k := range d.kernel {
		for m := 1; m <= n/2; m++ {
			d.kernel[k] += 2 * float64(m) * math.Cos(2*math.Pi*float64(m*k%n)/float64(n)) / float64(n)
		}
	}
	for i := range d.u {
		d.u[i] = s.Period() * float64(i) / float64(n)
	}
	d.evaluate(d.u)
	return d
}

// evaluate sets points, derivatives, kernel product and energy at the node parameters u.
func (d *douglas) evaluate(u []float64) {
	n := len(u)
	copy(d.u, u)
	for i, v := range u {
		d.x[i], d.t[i], d.dd[i] = d.spline.Eval(v)
	}
	d.energy = 0
	for i := range n {
		var sum r3.Vec
		for j := range n {
			k := i - j
			if k < 0 {
				k += n
			}
			sum = r3.Add(sum, r3.Scale(d.kernel[k], r3.Sub(d.x[j], d.x[i]))) // rows of the kernel sum to 0
		}
		d.kx[i] = sum
		d.energy += math.Pi / float64(n) * r3.Dot(d.x[i], sum)
	}
}

// minimise runs Levenberg-Marquardt with the exact Hessian. Conformal maps of the disc on itself cost no energy; steps
// along them are suppressed, or the nodes would drift together where the discrete energy is too small.
func (d *douglas) minimise() Status {
	n := len(d.u)
	grad, trial, step := mat.NewVecDense(n, nil), make([]float64, n), mat.NewVecDense(n, nil)
	hess := mat.NewSymDense(n, nil)
	var chol mat.Cholesky
	var free [3][]float64
	for k := range free {
		free[k] = make([]float64, n)
	}
	damping := 1e-3
	w := 2 * math.Pi / float64(n)
	for range minimalSteps {
		scale, gmax := 0.0, 0.0
		for i := range n {
			grad.SetVec(i, w*r3.Dot(d.t[i], d.kx[i]))
			scale = math.Max(scale, w*d.kernel[0]*r3.Norm2(d.t[i]))
		}
		d.freeModes(&free)
		for _, v := range free {
			grad.AddScaledVec(grad, -mat.Dot(grad, mat.NewVecDense(n, v)), mat.NewVecDense(n, v))
		}
		for i := range n {
			gmax = math.Max(gmax, math.Abs(grad.AtVec(i)))
		}
		if gmax*d.spline.Period() <= minimalTolerance*d.energy {
			return Converged
		}
		for {
			for i := range n {
				for j := i; j < n; j++ {
					v := w * d.kernel[j-i] * r3.Dot(d.t[i], d.t[j])
					for _, f := range free {
						v += scale * f[i] * f[j]
					}
					if i == j {
						v += w*r3.Dot(d.dd[i], d.kx[i]) + damping*scale
					}
					hess.SetSym(i, j, v)
				}
			}
			if chol.Factorize(hess) {
				if err := chol.SolveVecTo(step, grad); err == nil && d.try(trial, step) {
					damping = math.Max(damping/8, 1e-12)
					break
				}
			}
			damping *= 6
			if damping > 1e8 { // no descent left: rounding decides
				if gmax*d.spline.Period() <= 1e-6*d.energy {
					return Converged
				}
				return NotConverged
			}
		}
	}
	return NotConverged
}

// freeModes sets three orthonormal vectors along which node parameters move under the conformal maps of the disc: the
// spacing of the nodes times 1, cos and sin of their angle.
func (d *douglas) freeModes(free *[3][]float64) {
	n := len(d.u)
	for i := range d.u {
		after, before := d.u[(i+1)%n], d.u[(i+n-1)%n]
		spacing := math.Mod(after-before+2*d.spline.Period(), d.spline.Period())
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		free[0][i], free[1][i], free[2][i] = spacing, spacing*c, spacing*s
	}
	for k := range free { // Gram-Schmidt
		for l := range k {
			dot := floats.Dot(free[k], free[l])
			floats.AddScaled(free[k], -dot, free[l])
		}
		floats.Scale(1/floats.Norm(free[k], 2), free[k])
	}
}

// try accepts u − step when it lowers the energy and leaves every pair of neighbours at least a third of their former
// distance, which keeps their order.
func (d *douglas) try(trial []float64, step *mat.VecDense) bool {
	n := len(d.u)
	for i := range trial {
		trial[i] = d.u[i] - step.AtVec(i)
	}
	for i := range trial {
		turn := 0.0
		j := i + 1
		if j == n {
			j, turn = 0, d.spline.Period()
		}
		if trial[j]+turn-trial[i] < (d.u[j]+turn-d.u[i])/3 {
			return false
		}
	}
	old, before := append([]float64(nil), d.u...), d.energy
	d.evaluate(trial)
	if d.energy < before {
		return true
	}
	d.evaluate(old)
	return false
}

// Mesh returns the surface as rings × around triangles in polar arrangement with the centre as vertex 0; ring r and
// spoke k is vertex 1 + (r−1)·around + k. The front looks to the side from which the curve runs counter-clockwise.
func (s MinimalSurface) Mesh(rings, around int) *Mesh {
	if rings < 1 || around < 3 {
		panic("geometry: MinimalSurface.Mesh needs at least 1 ring and 3 spokes")
	}
	n := len(s.Boundary)
	half := n / 2
	cosine, sine := make([]r3.Vec, half+1), make([]r3.Vec, half+1)
	for m := range cosine {
		for i, p := range s.Boundary {
			sin, cos := math.Sincos(2 * math.Pi * float64(m*i%n) / float64(n))
			cosine[m] = r3.Add(cosine[m], r3.Scale(2*cos/float64(n), p))
			sine[m] = r3.Add(sine[m], r3.Scale(2*sin/float64(n), p))
		}
	}
	m := &Mesh{Vertices: []r3.Vec{r3.Scale(0.5, cosine[0])}}
	for r := 1; r <= rings; r++ {
		rho := float64(r) / float64(rings)
		for k := range around {
			p, power := m.Vertices[0], 1.0
			for h := 1; h <= half; h++ {
				power *= rho
				sin, cos := math.Sincos(2 * math.Pi * float64(h*k%around) / float64(around))
				p = r3.Add(p, r3.Add(r3.Scale(power*cos, cosine[h]), r3.Scale(power*sin, sine[h])))
			}
			m.Vertices = append(m.Vertices, p)
		}
	}
	for k := range around {
		m.Faces = append(m.Faces, [3]int32{0, int32(1 + k), int32(1 + (k+1)%around)})
	}
	for _, f := range gridFaces(rings, around, false, true) {
		m.Faces = append(m.Faces, [3]int32{f[0] + 1, f[1] + 1, f[2] + 1})
	}
	return m
}

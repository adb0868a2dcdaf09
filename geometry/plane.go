package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Plane is a point and a unit normal.
type Plane struct {
	Origin r3.Vec // mm
	Normal r3.Vec // unit
}

// Height returns the signed distance in mm of p from the plane, positive on the side of the normal.
func (p Plane) Height(q r3.Vec) float64 { return r3.Dot(p.Normal, r3.Sub(q, p.Origin)) }

// Project returns the foot of q on the plane.
func (p Plane) Project(q r3.Vec) r3.Vec { return r3.Sub(q, r3.Scale(p.Height(q), p.Normal)) }

// Axes returns two unit vectors u, v in the plane with u × v = Normal. u is the direction in the plane nearest to hint; a
// hint along the normal (or zero) is replaced by the coordinate axis farthest from the normal.
func (p Plane) Axes(hint r3.Vec) (u, v r3.Vec) {
	u = r3.Sub(hint, r3.Scale(r3.Dot(hint, p.Normal), p.Normal))
	if r3.Norm(u) <= 1e-9*r3.Norm(hint) {
		u = perpendicular(p.Normal)
	}
	u = r3.Unit(u)
	return u, r3.Cross(p.Normal, u)
}

// perpendicular returns a unit vector at right angles to n.
func perpendicular(n r3.Vec) r3.Vec {
	axis := r3.Vec{X: 1}
	if math.Abs(n.X) > math.Abs(n.Y) {
		axis = r3.Vec{Y: 1}
	}
	return r3.Unit(r3.Cross(n, axis))
}

// FitPlane returns the plane that minimises the sum of squared distances to the closed curve, each point weighted by
// half the length of its two segments. The normal points to the side from which the curve runs counter-clockwise. No
// allocation. It panics on fewer than 3 points.
func FitPlane(curve []r3.Vec) Plane {
	n := len(curve)
	if n < 3 {
		panic("geometry: FitPlane needs at least 3 points")
	}
	var sum r3.Vec
	total := 0.0
	for i, p := range curve {
		w := pointWeight(curve, i)
		sum = r3.Add(sum, r3.Scale(w, p))
		total += w
	}
	if total == 0 {
		return Plane{Origin: curve[0], Normal: r3.Vec{Z: 1}}
	}
	centre := r3.Scale(1/total, sum)
	var m [3][3]float64
	for i, p := range curve {
		w := pointWeight(curve, i)
		addOuter(&m, w, r3.Sub(p, centre))
	}
	normal := smallestEigenvector(m)
	if r3.Dot(normal, AreaVector(curve)) < 0 {
		normal = r3.Scale(-1, normal)
	}
	return Plane{Origin: centre, Normal: normal}
}

// FitPlanePoints is FitPlane for unordered points of equal weight; the normal's largest component is positive.
func FitPlanePoints(points []r3.Vec) Plane {
	if len(points) < 3 {
		panic("geometry: FitPlanePoints needs at least 3 points")
	}
	var sum r3.Vec
	for _, p := range points {
		sum = r3.Add(sum, p)
	}
	centre := r3.Scale(1/float64(len(points)), sum)
	var m [3][3]float64
	for _, p := range points {
		addOuter(&m, 1, r3.Sub(p, centre))
	}
	n := smallestEigenvector(m)
	big := n.X
	if math.Abs(n.Y) > math.Abs(big) {
		big = n.Y
	}
	if math.Abs(n.Z) > math.Abs(big) {
		big = n.Z
	}
	if big < 0 {
		n = r3.Scale(-1, n)
	}
	return Plane{Origin: centre, Normal: n}
}

func pointWeight(curve []r3.Vec, i int) float64 {
	n := len(curve)
	a, b, c := curve[(i+n-1)%n], curve[i], curve[(i+1)%n]
	return (r3.Norm(r3.Sub(b, a)) + r3.Norm(r3.Sub(c, b))) / 2
}

func addOuter(m *[3][3]float64, w float64, d r3.Vec) {
	v := [3]float64{d.X, d.Y, d.Z}
	for i := range 3 {
		for j := range 3 {
			m[i][j] += w * v[i] * v[j]
		}
	}
}

// smallestEigenvector returns the unit eigenvector of the smallest eigenvalue of a symmetric matrix by cyclic Jacobi
// rotations.
func smallestEigenvector(m [3][3]float64) r3.Vec {
	v := [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	for range 30 {
		off := m[0][1]*m[0][1] + m[0][2]*m[0][2] + m[1][2]*m[1][2]
		diag := m[0][0]*m[0][0] + m[1][1]*m[1][1] + m[2][2]*m[2][2]
		if off <= 1e-32*diag {
			break
		}
		for p := range 2 {
			for q := p + 1; q < 3; q++ {
				jacobiRotate(&m, &v, p, q)
			}
		}
	}
	k := 0
	for i := 1; i < 3; i++ {
		if m[i][i] < m[k][k] {
			k = i
		}
	}
	return r3.Unit(r3.Vec{X: v[0][k], Y: v[1][k], Z: v[2][k]})
}

func jacobiRotate(m, v *[3][3]float64, p, q int) {
	if m[p][q] == 0 {
		return
	}
	theta := (m[q][q] - m[p][p]) / (2 * m[p][q])
	t := 1 / (math.Abs(theta) + math.Sqrt(theta*theta+1))
	if theta < 0 {
		t = -t
	}
	c := 1 / math.Sqrt(t*t+1)
	s := t * c
	for k := range 3 {
		a, b := m[k][p], m[k][q]
		m[k][p], m[k][q] = c*a-s*b, s*a+c*b
	}
	for k := range 3 {
		a, b := m[p][k], m[q][k]
		m[p][k], m[q][k] = c*a-s*b, s*a+c*b
		a, b = v[k][p], v[k][q]
		v[k][p], v[k][q] = c*a-s*b, s*a+c*b
	}
}

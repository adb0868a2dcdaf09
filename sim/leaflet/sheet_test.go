package leaflet

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"annuloscope/sim/leaflet/sparse"
)

// linear is an elastic law for closed forms: E·h = (4/3)·fibreWeight·k = (2/3)·k, ν = 1/3 (shell.md).
func linear(k float64) law { return law{toe: k} }

// flat makes a sheet from points and triangles; those for which hold is true are fixed (and come first).
func flat(pts []r3.Vec, tris [][3]int32, hold func(r3.Vec) bool, m law, bend float64) (*sheet, []int32) {
	where := make([]int32, len(pts))
	var order []r3.Vec
	for pass := range 2 {
		for i, p := range pts {
			if hold(p) == (pass == 0) {
				where[i] = int32(len(order))
				order = append(order, p)
			}
		}
	}
	fixed := 0
	for _, p := range pts {
		if hold(p) {
			fixed++
		}
	}
	out := make([][3]int32, len(tris))
	for t, v := range tris {
		out[t] = [3]int32{where[v[0]], where[v[1]], where[v[2]]}
	}
	s := newSheet(order, fixed, out, func(int) r3.Vec { return r3.Vec{X: 1} }, m, bend, nil, nil)
	return s, where
}

// plate is an nx × ny grid of quads on [−w/2, w/2] × [−h/2, h/2] with alternating diagonals, normals +z.
func plate(nx, ny int, w, h float64) (pts []r3.Vec, tris [][3]int32) {
	for j := range ny + 1 {
		for i := range nx + 1 {
			pts = append(pts, r3.Vec{X: w * (float64(i)/float64(nx) - 0.5), Y: h * (float64(j)/float64(ny) - 0.5)})
		}
	}
	for j := range ny {
		for i := range nx {
			a := int32(j*(nx+1) + i)
			b, c, d := a+1, a+int32(nx)+1, a+int32(nx)+2
			if (i+j)%2 == 0 {
				tris = append(tris, [3]int32{a, b, d}, [3]int32{a, d, c})
			} else {
				tris = append(tris, [3]int32{a, b, c}, [3]int32{b, d, c})
			}
		}
	}
	return pts, tris
}

// twoPlates are two plates of w × h, 1000 mm apart in z at rest, so that everything may touch; the normals of the second are
// −z.
func twoPlates(nx, ny int, sizes [2][2]float64) (pts []r3.Vec, tris [][3]int32) {
	for k, size := range sizes {
		one, own := plate(nx, ny, size[0], size[1])
		base := int32(len(pts))
		for _, q := range one {
			q.Z = 1000 * float64(k)
			pts = append(pts, q)
		}
		for _, v := range own {
			if k == 1 {
				v[1], v[2] = v[2], v[1]
			}
			tris = append(tris, [3]int32{v[0] + base, v[1] + base, v[2] + base})
		}
	}
	return pts, tris
}

// settle relaxes the sheet and fails the test when it does not come to rest.
func settle(t *testing.T, s *sheet, tol float64, limit int) {
	t.Helper()
	enough := 1e-4
	if s.contact.thickness > 0 {
		enough = newtonEnough
	}
	r := newRelaxer(s, enough, new(sparse.Factor))
	r.begin(dampingStart, 1)
	for range limit {
		if r.iterate(tol) {
			return
		}
	}
	t.Fatalf("not at rest after %d iterations: rms step %g mm", limit, r.rms)
}

// settleDamped takes Newton steps with constant damping mu (N/mm³) until the forces per area left are below mu·tol.
func settleDamped(t *testing.T, s *sheet, mu, tol float64, limit int) {
	t.Helper()
	r := newRelaxer(s, 1e-9, new(sparse.Factor))
	r.begin(mu, 1)
	for range limit {
		r.mu = mu
		if r.iterate(tol); r.rms < tol {
			return
		}
	}
	t.Fatalf("not at rest after %d damped steps: rms step %g mm", limit, r.rms)
}

// A constant strain prescribed at the border of an irregular mesh must appear inside.
func TestPatch(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	pts, tris := plate(8, 6, 16, 12)
	border := func(p r3.Vec) bool { return math.Abs(p.X) > 7.99 || math.Abs(p.Y) > 5.99 }
	for i := range pts {
		if !border(pts[i]) {
			pts[i].X += 0.6 * (rng.Float64() - 0.5)
			pts[i].Y += 0.6 * (rng.Float64() - 0.5)
		}
	}
	s, _ := flat(pts, tris, border, linear(1), 0)
	s.finish()
	affine := func(p r3.Vec) r3.Vec {
		return r3.Vec{X: 1.05*p.X + 0.02*p.Y, Y: -0.01*p.X + 1.03*p.Y, Z: 0.3*p.X - 0.2*p.Y}
	}
	for i, p := range s.rest {
		s.x[i] = affine(p)
		if i >= s.fixed {
			s.x[i] = r3.Add(s.x[i], r3.Vec{X: rng.Float64() - 0.5, Y: rng.Float64() - 0.5, Z: rng.Float64() - 0.5})
		}
	}
	settle(t, s, 1e-10, 200)
	for i, p := range s.rest {
		if d := r3.Norm(r3.Sub(s.x[i], affine(p))); d > 1e-8 {
			t.Fatalf("vertex %d is %g mm from the affine state", i, d)
		}
	}
}

// Energy gradient against central differences, with contact, chords, bonds, toe law and compression all active.
func TestGradient(t *testing.T) {
	in := standard(30)
	in.Bonds = []Bond{{S: 0.2, WidthMM: 5, ReachMM: 6, Hold: 1}}
	s := New(64, 10)
	if st, err := s.Solve(in); err != nil || st != Converged {
		t.Fatal(st, err)
	}
	sh := s.fine.sheet
	sh.pressure = 0 // a follower has no potential
	rng := rand.New(rand.NewPCG(5, 6))
	energy := func() float64 {
		sh.contact.radius = 0
		sh.contact.detect(sh, searchNear)
		return sh.evaluate(false)
	}
	base := append([]r3.Vec(nil), sh.x...)
	touching := 0
	for _, n := range sh.contact.near {
		if n.d < sh.contact.thickness {
			touching++
		}
	}
	if touching < 50 {
		t.Fatalf("only %d vertices touch: the test would not see contact", touching)
	}
	for trial := range 6 {
		dir := make([]r3.Vec, len(base))
		for v := sh.fixed; v < len(dir); v++ {
			dir[v] = r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}
		}
		at := func(h float64) float64 {
			for v := range base {
				sh.x[v] = r3.Add(base[v], r3.Scale(h, dir[v]))
			}
			return energy()
		}
		at(0)
		slope := 0.0
		for v, f := range sh.force {
			slope -= r3.Dot(f, dir[v])
		}
		h := 1e-5
		fd := (at(h) - at(-h)) / (2 * h)
		if math.Abs(fd-slope) > 2e-5*(1+math.Abs(slope)) {
			t.Errorf("direction %d: gradient %.9g, differences %.9g", trial, slope, fd)
		}
	}
}

// The tangent of stretched membrane, bending, taut chords and springs is exact (contact uses a stated approximation).
func TestHessian(t *testing.T) {
	pts, tris := plate(5, 4, 10, 8)
	s, _ := flat(pts, tris, func(p r3.Vec) bool { return p.Y < -3.9 }, tissue, 0.05)
	n := int32(len(pts))
	s.chords = []chord{{v: [4]int32{n - 1, n - 2, n - 8, n - 9}, w: [4]float64{0.1, 0.2, 0.3, 0.4}, tip: r3.Vec{Z: -9}, length: 3, k: 3}}
	s.springs = []spring{{v: [8]int32{n - 1, n - 2, n - 7, n - 8, n - 1, n - 4, n - 9, n - 10}, w: [8]float64{.1, .2, .3, .4, -.4, -.3, -.2, -.1}, k: 2, gap: 0.5}}
	s.finish()
	rng := rand.New(rand.NewPCG(2, 9))
	for i, p := range s.rest {
		s.x[i] = r3.Vec{X: 1.12 * p.X, Y: 1.1 * p.Y, Z: 0.1 * rng.Float64()}
	}
	s.evaluate(true)
	free := len(s.x) - s.fixed
	v, hv := make([]float64, 3*free), make([]float64, 3*free)
	for i := range v {
		v[i] = rng.NormFloat64()
	}
	s.matrix.Mul(hv, v)
	base := append([]r3.Vec(nil), s.x...)
	force := func(h float64) []r3.Vec {
		for i := range free {
			s.x[s.fixed+i] = r3.Add(base[s.fixed+i], r3.Vec{X: h * v[3*i], Y: h * v[3*i+1], Z: h * v[3*i+2]})
		}
		s.evaluate(false)
		return append([]r3.Vec(nil), s.force[s.fixed:]...)
	}
	h := 1e-6
	p, m := force(h), force(-h)
	for i := range free {
		d := r3.Scale(-1/(2*h), r3.Sub(p[i], m[i]))
		want := r3.Vec{X: hv[3*i], Y: hv[3*i+1], Z: hv[3*i+2]}
		if r3.Norm(r3.Sub(d, want)) > 1e-5*(1+r3.Norm(want)) {
			t.Fatalf("vertex %d: tangent %v, differences %v", i, want, d)
		}
	}
}

func TestBarrierDerivatives(t *testing.T) {
	for y := 0.05; y < 1.2; y += 0.05 {
		h := 1e-6
		_, d1, d2 := barrier(y)
		bp, p1, _ := barrier(y + h)
		bm, m1, _ := barrier(y - h)
		if math.Abs((bp-bm)/(2*h)-d1) > 1e-5*(1+math.Abs(d1)) || math.Abs((p1-m1)/(2*h)-d2) > 1e-5*(1+math.Abs(d2)) {
			t.Errorf("y %.2f: derivatives %g %g, differences %g %g", y, d1, d2, (bp-bm)/(2*h), (p1-m1)/(2*h))
		}
	}
	for e := -0.2; e < 0.2; e += 0.01 {
		h := 1e-6
		_, d1, d2 := tissue.at(e)
		bp, p1, _ := tissue.at(e + h)
		bm, m1, _ := tissue.at(e - h)
		if math.Abs((bp-bm)/(2*h)-d1) > 1e-7 || math.Abs((p1-m1)/(2*h)-d2) > 1e-4 {
			t.Errorf("strain %.3f: tension %g tangent %g, differences %g %g", e, d1, d2, (bp-bm)/(2*h), (p1-m1)/(2*h))
		}
	}
}

// A rotation of everything leaves the energy and rotates the forces.
func TestRotation(t *testing.T) {
	s := New(64, 10)
	if st, err := s.Solve(standard(30)); err != nil || st != Converged {
		t.Fatal(st, err)
	}
	sh := s.fine.sheet
	eval := func() (float64, []r3.Vec) {
		sh.contact.radius = 0
		sh.contact.detect(sh, searchNear)
		e := sh.evaluate(false)
		return e, append([]r3.Vec(nil), sh.force...)
	}
	e0, f0 := eval()
	turn := r3.NewRotation(0.7, r3.Vec{X: 1, Y: 2, Z: -1})
	for v := range sh.x {
		sh.x[v] = turn.Rotate(sh.x[v])
	}
	for i := range sh.chords {
		sh.chords[i].tip = turn.Rotate(sh.chords[i].tip)
	}
	e1, f1 := eval()
	if math.Abs(e1-e0) > 1e-9*e0 {
		t.Errorf("energy %g, rotated %g", e0, e1)
	}
	for v := range f0 {
		if r3.Norm(r3.Sub(turn.Rotate(f0[v]), f1[v])) > 1e-9 {
			t.Fatalf("vertex %d: force %v, rotated %v", v, turn.Rotate(f0[v]), f1[v])
		}
	}
}

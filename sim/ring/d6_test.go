package ring

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// circle is a bare ring of radius 20 mm, EI 100 N·mm², EA 10⁵ N (EI/(EA·R²) = 2.5e-6) on a foundation too weak to
// matter (kR⁴/EI = 1.6e-4).
func circle(n int) *Input {
	const radius = 20.0
	in := &Input{Constants: Default()}
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		in.Annulus.Rest = append(in.Annulus.Rest, r3.Vec{X: radius * cos, Y: radius * sin})
	}
	in.Annulus.Fibrous = make([]float64, n)
	in.Annulus.Marks = &Marks{A2: float64(n) / 4, Anterolateral: float64(n) / 2, P2: 3 * float64(n) / 4,
		Septal: r3.Vec{Y: 1}, Commissural: r3.Vec{X: 1}}
	c := &in.Constants
	c.AnnulusTension, c.AnnulusCompression, c.AnnulusBending = 1e5, 1e5, 100
	c.FoundationSeptal, c.FoundationCommissural = 1e-7, 1e-7
	return in
}

// pinch is the linear answer of the ring to two opposite forces of 1 N along y, from its own tangent stiffness at rest.
func pinch(t *testing.T, n int) []r3.Vec {
	var s Solver
	in := circle(n)
	s.prepare(in)
	s.energy(s.u, s.grad)
	if ok, _ := s.factorAt(); !ok {
		t.Fatal("the ring at rest is not stable")
	}
	s.grad[s.first[n/4]+1], s.grad[s.first[3*n/4]+1] = 1, -1
	s.newtonStep()
	out := make([]r3.Vec, n)
	for i := range out {
		out[i] = r3.Vec{X: s.step[s.first[i]], Y: s.step[s.first[i]+1], Z: s.step[s.first[i]+2]}
	}
	return out
}

// physics.md D6, "Pinched thin ring" (S36) and "Its moments" (classical): grid limit from 256 and 512 points at the
// order of the scheme (2), tolerance 1e-4 relative for the diameters, 1e-3 for the moments.
func TestPinchedRing(t *testing.T) {
	const load, radius, ei = 1.0, 20.0, 100.0
	var along, across, under, side [2]float64
	for k, n := range []int{256, 512} {
		rest, v := circle(n).Annulus.Rest, pinch(t, n)
		unit := load * radius * radius * radius / ei
		along[k], across[k] = (v[3*n/4].Y-v[n/4].Y)/unit, (v[0].X-v[n/2].X)/unit
		moment := func(i int) float64 {
			u := func(j int) r3.Vec { return v[(j+n)%n] }
			h := r3.Norm(r3.Sub(rest[1], rest[0]))
			d2 := r3.Scale(1/(h*h), r3.Add(r3.Sub(u(i+1), r3.Scale(2, u(i))), u(i-1)))
			return math.Abs(r3.Dot(d2, r3.Unit(rest[i]))) * ei / (load * radius)
		}
		under[k], side[k] = moment(n/4), moment(0)
	}
	for _, c := range []struct {
		name      string
		got       [2]float64
		want, tol float64
	}{
		{"shortening along the load", along, math.Pi/4 - 2/math.Pi, 1e-4},
		{"lengthening across", across, 2/math.Pi - 0.5, 1e-4},
		{"moment under the load", under, 1 / math.Pi, 1e-3},
		{"moment at the side", side, 0.5 - 1/math.Pi, 1e-3},
	} {
		limit := c.got[1] + (c.got[1]-c.got[0])/3
		t.Logf("%s: 256 points %.6f, 512 points %.6f, limit %.6f, exact %.6f", c.name, c.got[0], c.got[1], limit, c.want)
		if math.Abs(limit-c.want) > c.tol*c.want {
			t.Errorf("%s: %.6f, want %.6f", c.name, limit, c.want)
		}
	}
}

// physics.md D6, ring buckling under pressure on radial springs, values pR³/EI, tolerance 1 % ("1%" in the sheet).
// The pressure's own stiffness (potential p × area) is added here; the package has no pressure.
func TestRingBucklingOnRadialSprings(t *testing.T) {
	const n, radius, ei = 256, 20.0, 100.0
	for _, row := range []struct{ k, p float64 }{{0, 3}, {10, 6.3333}, {50, 14.25}, {100, 20.5}, {500, 44.833}, {1000, 63.571}} {
		var s Solver
		in := circle(n)
		s.prepare(in)
		h := 2 * math.Pi * radius / n
		spring := row.k * ei / math.Pow(radius, 4)
		for i, p := range in.Annulus.Rest {
			radial, vertical := tensor(r3.Unit(p), spring*h, 0), tensor(r3.Vec{Z: 1}, 1e3, 0)
			s.addForm([]int{i}, []float64{1}, &radial)
			s.addForm([]int{i}, []float64{1}, &vertical)
		}
		stable := func(p float64) bool {
			s.tangent.copyFrom(&s.quad)
			for i, a := range in.Annulus.Rest {
				j := (i + 1) % n
				d := r3.Sub(in.Annulus.Rest[j], a)
				l := r3.Norm(d)
				g := -p * radius * math.Cos(math.Pi/n) / l // hoop force that balances p on the polygon
				addAxial(&s.tangent, s.first[i], s.first[j], r3.Scale(1/l, d), 1e5/l-g, g)
				s.tangent.add(s.first[i], s.first[j]+1, p/2)
				s.tangent.add(s.first[i]+1, s.first[j], -p/2)
			}
			return s.chol.factor(&s.tangent)
		}
		lo, hi := 0.0, 100*ei/math.Pow(radius, 3)
		for range 40 {
			if mid := (lo + hi) / 2; stable(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		got := lo * math.Pow(radius, 3) / ei
		t.Logf("kR⁴/EI = %g: p R³/EI = %.4f, exact %.4f", row.k, got, row.p)
		if math.Abs(got-row.p) > 0.01*row.p {
			t.Errorf("kR⁴/EI = %g: buckling at %.4f, want %.4f", row.k, got, row.p)
		}
	}
}

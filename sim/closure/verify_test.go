package closure

import (
	"math"
	"math/rand/v2"
	"testing"
)

// randomSection is a section of plausible size with unknowns in contact or in gap.
func randomSection(r *rand.Rand) (section, vec3) {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	var s section
	p := Point{u(2, 12), u(-35, -24)}
	for k, sg := range side {
		s.leaf[k] = leafletIn{a: Point{-sg * u(8, 20), u(-3, 3)}, p: p, length: u(12, 30), chord: u(15, 25),
			bulge: u(0, 1), compliant: u(0, 1), chordGive: u(0, 1)}
	}
	return s, vec3{u(-3, 6), u(-12, 0), u(-5, 5)}
}

// The derivatives of a section by its unknowns and the margin's forces, against central differences.
func TestSectionJacobian(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	pressure, widths := 0.0133, [MaxClips]float64{5, 3, 4}
	for trial := 0; trial < 200; trial++ {
		s, x := randomSection(r)
		s.amp = [MaxClips]float64{r.Float64(), 0, r.Float64()}
		m := [2]float64{0.1 * (r.Float64() - 0.5), 0.1 * (r.Float64() - 0.5)}
		var o, lo, hi sectionOut
		s.place(x, &o)
		if !s.eval(x, m, &widths, pressure, &o) {
			t.Fatal("no shape")
		}
		for c := 0; c < 5; c++ {
			const h = 1e-6
			xl, xh, ml, mh := x, x, m, m
			if c < 3 {
				xl[c] -= h
				xh[c] += h
			} else {
				ml[c-3] -= h
				mh[c-3] += h
			}
			s.place(xl, &lo)
			s.eval(xl, ml, &widths, pressure, &lo)
			s.place(xh, &hi)
			s.eval(xh, mh, &widths, pressure, &hi)
			for q := 0; q < 3; q++ {
				want := (hi.res[q] - lo.res[q]) / (2 * h)
				if got := o.jac[q][c]; math.Abs(got-want) > 1e-5*(1+math.Abs(want)) {
					t.Fatalf("trial %d: d res %d / d %d = %g, difference quotient %g", trial, q, c, got, want)
				}
			}
		}
	}
}

// The coupled Newton step against a step computed from differences of the whole residual: one column per station.
func TestCoupledJacobian(t *testing.T) {
	f, _ := Fit(testInput(37, 7), functional)
	var w Workspace
	var out Result
	w.Solve(f, testInput(35, 7), []Clip{{WidthMM: 5, ReachMM: 8, Hold: 1}}, &out)
	p := &w.p
	r := rand.New(rand.NewPCG(3, 4))
	for i := range p.x {
		for a := range p.x[i] {
			p.x[i][a] += 0.3 * (r.Float64() - 0.5)
		}
	}
	p.evaluate(p.x, p.out)
	base := make([]vec3, len(p.x))
	for i := range base {
		base[i] = p.out[i].res
	}
	p.assemble(p.out)
	lower, diag, upper := append([]mat3(nil), p.lower...), append([]mat3(nil), p.diag...), append([]mat3(nil), p.upper...)
	const h = 1e-6
	for i := range p.x {
		for a := range p.x[i] {
			x := append([]vec3(nil), p.x...)
			x[i][a] += h
			p.evaluate(x, p.alt)
			for j := range p.x {
				for q := 0; q < 3; q++ {
					want := (p.alt[j].res[q] - base[j][q]) / h
					got := 0.0
					switch j - i {
					case 0:
						got = diag[j][q][a]
					case 1:
						got = lower[j][q][a]
					case -1:
						got = upper[j][q][a]
					}
					if math.Abs(got-want) > 2e-4*(1+math.Abs(want)) {
						t.Fatalf("station %d residual %d by station %d unknown %d: %g, difference quotient %g", j, q, i, a, got, want)
					}
				}
			}
		}
	}
}

// Kink: the arc's pull across the tail balances the closing force, T·n = −f, and along the tail it is the chord's.
// (Identity of the formulation; the arc's tension is p·d/(2 sin t).)
func TestKinkIdentity(t *testing.T) {
	for k, sg := range side {
		l := leafletIn{a: Point{-sg * 15, 2}, p: Point{2, -27}, length: 20, chord: 20, bulge: 1, compliant: 1, chordGive: 1}
		for _, f := range []float64{-0.05, -0.02, 0, 0.01, 0.05, 0.1} {
			var o leafletOut
			j := Point{1, -6}
			if !l.eval(j, f, 0.0133, sg, &o) {
				t.Fatal("no shape")
			}
			// Direction of the arc at J: the tail's upward direction turned by δ away from the other leaflet.
			sin, cos := math.Sincos(sg * o.delta)
			dir := Point{o.u.X*cos - o.u.Z*sin, o.u.X*sin + o.u.Z*cos}
			n := Point{sg * o.u.Z, -sg * o.u.X} // towards the other leaflet
			if got := o.tens * (dir.X*n.X + dir.Z*n.Z); math.Abs(got+f) > 1e-12 {
				t.Errorf("leaflet %d force %g: T·n = %g", k, f, got)
			}
			// The arc in balance: end pulls plus pressure on its chord sum to zero. The pressure acts from below.
			s := section{leaf: [2]leafletIn{l, l}}
			var so sectionOut
			so.j[k], so.leaf[k] = j, o
			at := tangentAtAnnulus(&s, &so, k)
			sumX := o.tens*(at.X+dir.X) - pressureOnChord(l.a, j, sg).X*0.0133
			sumZ := o.tens*(at.Z+dir.Z) - pressureOnChord(l.a, j, sg).Z*0.0133
			if math.Hypot(sumX, sumZ) > 1e-12 {
				t.Errorf("leaflet %d force %g: arc out of balance by (%g, %g)", k, f, sumX, sumZ)
			}
		}
	}
}

// pressureOnChord is d times the normal of the arc's chord on the atrial side.
func pressureOnChord(a, j Point, sg float64) Point {
	return Point{-sg * (j.Z - a.Z), sg * (j.X - a.X)}
}

// physics.md D3, "Inextensible" and "Leaflet scale": length ratio, tension, sag of a circular arc.
func TestArcD3(t *testing.T) {
	for _, row := range []struct{ ratio, theta, tension, sag float64 }{
		{1.05, 0.538412, 1.950181, 0.275903}, {1.1, 0.748987, 1.468651, 0.393042}, {1.2, 1.026738, 1.168750, 0.563790},
		{1.3, 1.221496, 1.064269, 0.700033}, {math.Pi / 2, math.Pi / 2, 1, 1},
	} {
		const a = 10.0 // span 2a from (−10, 0) to J = (10, 0); the tail leaves J at the angle θ below the chord
		sin, cos := math.Sincos(row.theta)
		l := leafletIn{a: Point{-a, 0}, p: Point{a + 30*cos, -30 * sin}, length: 1, chord: 1, bulge: 1}
		var o leafletOut
		if !l.eval(Point{a, 0}, 0, 0.01, 1, &o) {
			t.Fatal("no shape")
		}
		near(t, "length ratio", o.arc/(2*a), row.ratio, 1e-5)
		near(t, "T/pa", o.tens/(0.01*a), row.tension, 1e-5)
		near(t, "sag/a", o.d/2*math.Tan(o.t/2)/a, row.sag, 1e-5)
	}
	// 120 mmHg, radius 15 mm: 239.98 N/m.
	near(t, "T", 120*133.322e-6*15*1000, 239.98, 0.01)
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g ± %g", what, got, want, tol)
	}
}

// physics.md D5: two bulged inextensible strips pressed together. The section is the upper half of the strips: clamp at
// height a and distance g from the mid-plane, tail along the mid-plane, chord from the strips' middle down. The size is
// 1 m so that the rounding of contact and gap (0.2 mm) vanishes; the tip rounding is allowed for in the length.
func TestPressedStripsD5(t *testing.T) {
	const a, chord, pressure = 1000.0, 1000.0, 0.01
	for _, row := range []struct{ lambda, g, theta, r, c float64 }{
		{1.05, 0.15, 0.968656, 0.345947, 0.714896}, {1.10, 0.20, 1.401379, 0.240560, 0.762884},
		{1.10, 0.30, 0.968656, 0.691894, 0.429793}, {1.20, 0.40, 1.401379, 0.481121, 0.525767},
	} {
		var p system
		p.resize(1)
		p.spacing, p.pressure = 1, pressure
		for k, sg := range side {
			p.sec[0].leaf[k] = leafletIn{a: Point{-sg * row.g * a, a}, p: Point{0, -chord}, length: row.lambda * a,
				chord: chord, bulge: 1}
		}
		p.x[0] = vec3{0, 0.6 * a, 0.6 * a}
		if _, ok := p.newton(200); !ok {
			t.Fatalf("row %+v: no solution", row)
		}
		o := &p.out[0]
		near(t, "theta", 2*o.leaf[0].t, row.theta, 1e-6)
		near(t, "R/a", o.leaf[0].tens/pressure/a, row.r, 1e-6)
		near(t, "c/a", p.x[0][1]/a, row.c, 1e-6)
		near(t, "overlap is the contact less the tip rounding", o.c+TipRoundingMM, p.x[0][1], 1e-3)
		near(t, "force/(pa)", 2*o.leaf[1].c/a, 2*row.c, 2e-6)
	}
}

package leaflet

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// disc is a mesh of n rings, ring k with 6k vertices.
func disc(n int, radius float64) (pts []r3.Vec, tris [][3]int32) {
	pts = []r3.Vec{{}}
	first := func(k int) int32 { return int32(1 + 3*k*(k-1)) }
	for k := 1; k <= n; k++ {
		for i := range 6 * k {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(6*k))
			pts = append(pts, r3.Vec{X: radius * float64(k) / float64(n) * cos, Y: radius * float64(k) / float64(n) * sin})
		}
	}
	at := func(k, i int) int32 {
		if k == 0 {
			return 0
		}
		return first(k) + int32(i%(6*k))
	}
	for k := 1; k <= n; k++ {
		for side := range 6 {
			for i := range k {
				o := at(k, side*k+i)
				tris = append(tris, [3]int32{at(k-1, side*(k-1)+i), o, at(k, side*k+i+1)})
				if i+1 < k {
					tris = append(tris, [3]int32{at(k-1, side*(k-1)+i), at(k, side*k+i+1), at(k-1, side*(k-1)+i+1)})
				}
			}
		}
	}
	return pts, tris
}

// physics.md D1 (Hencky): centre deflection of a clamped pressurised membrane, ν = 1/3 from the same series.
func TestHenckyMembrane(t *testing.T) {
	nu := 1. / 3
	edge := func(b float64) float64 {
		terms := []float64{b, -1 / (b * b), -2 / (3 * math.Pow(b, 5)), -13 / (18 * math.Pow(b, 8)), -17 / (18 * math.Pow(b, 11)),
			-37 / (27 * math.Pow(b, 14)), -1205 / (567 * math.Pow(b, 17)), -219241 / (63504 * math.Pow(b, 20)), -6634069 / (1143072 * math.Pow(b, 23))}
		sum := 0.0
		for n, v := range terms {
			sum += (2*float64(n) + 1 - nu) * v
		}
		return sum
	}
	lo, hi := 1.6, 1.9
	for range 60 {
		if mid := (lo + hi) / 2; edge(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	b := lo
	factor := 1/b + 1/(2*math.Pow(b, 4)) + 5/(9*math.Pow(b, 7)) + 55/(72*math.Pow(b, 10)) + 7/(6*math.Pow(b, 13)) +
		205/(108*math.Pow(b, 16)) + 17051/(5292*math.Pow(b, 19))
	// The sheet's table brackets it: 0.653443 at ν = 0.3, 0.626255 at 0.4.
	if factor > 0.6534 || factor < 0.6263 {
		t.Fatalf("series factor %g outside the table of physics.md D1", factor)
	}
	a, k := 10.0, 1.0
	pts, tris := disc(16, a)
	s, where := flat(pts, tris, func(p r3.Vec) bool { return r3.Norm(p) > a*0.999 }, linear(k), 0)
	s.finish()
	load := 5e-4 // q·a/(E·h)
	s.pressure = load * (2. / 3 * k) / a
	for v := s.fixed; v < len(s.x); v++ {
		s.x[v].Z = 0.3 * (1 - r3.Norm2(s.rest[v])/(a*a))
	}
	settle(t, s, 1e-7, 300)
	got, want := s.x[where[0]].Z, a*math.Cbrt(load)*factor
	t.Logf("D1: centre deflection %.5f mm, series %.5f (w0/a %.3f)", got, want, want/a)
	if math.Abs(got/want-1) > 0.01 {
		t.Errorf("centre deflection %g mm, Hencky %g, tolerance 1 %%", got, want)
	}
}

// physics.md D3: a long clamped strip under pressure is a circular arc; linear, E′h = E·h/(1−ν²) = 0.75·k.
func TestPressurisedStrip(t *testing.T) {
	a, k := 10.0, 1.0
	for _, c := range []struct{ load, sag float64 }{{1e-3, 0.091157}, {1e-2, 0.198805}} {
		pts, tris := plate(20, 48, 2*a, 8*a)
		s, _ := flat(pts, tris, func(p r3.Vec) bool { return math.Abs(p.X) > a*0.999 || math.Abs(p.Y) > 4*a*0.999 }, linear(k), 0)
		s.finish()
		s.pressure = c.load * 0.75 * k / a
		for v := s.fixed; v < len(s.x); v++ {
			s.x[v].Z = a * c.sag * (1 - s.rest[v].X*s.rest[v].X/(a*a))
		}
		settle(t, s, 1e-6, 300)
		got := 0.0
		for v, p := range s.rest {
			if math.Abs(p.X) < 1e-9 && math.Abs(p.Y) < 1e-9 {
				got = s.x[v].Z / a
			}
		}
		t.Logf("D3: load %g: sag/a %.5f, closed form %.5f", c.load, got, c.sag)
		if math.Abs(got/c.sag-1) > 0.01 {
			t.Errorf("load %g: sag/a %g, physics.md D3 %g, tolerance 1 %%", c.load, got, c.sag)
		}
	}
}

// The bending energy of a smooth shallow surface against a plate of rigidity D = 3·kb (shell.md) and ν = 0,
// ½·D·(κ1² + κ2²) per area, whatever the direction of the curvatures against rows and columns.
func TestPlateBending(t *testing.T) {
	pts, tris := plate(48, 48, 20, 20)
	kb, curve := 0.01, 1e-3
	s, _ := flat(pts, tris, func(r3.Vec) bool { return false }, linear(0), kb)
	s.finish()
	for _, c := range []struct {
		name       string
		xx, yy, xy float64 // second derivatives of z in units of curve
		want, high float64
	}{{"cylinder", 1, 0, 0, 1, 1.05}, {"sphere", 1, 1, 0, 2, 1.05}, {"saddle", 1, -1, 0, 2, 1.05}, {"diagonal cylinder", 0.5, 0.5, 0.5, 1, 1.05}, {"twist", 0, 0, 1, 2, 2.05}} {
		for v, p := range s.rest {
			s.x[v].Z = curve / 2 * (c.xx*p.X*p.X + c.yy*p.Y*p.Y + 2*c.xy*p.X*p.Y)
		}
		got := s.bending(false) / (0.5 * 3 * kb * curve * curve * 400)
		t.Logf("%s: energy %.4f of one cylinder, expected %g", c.name, got, c.want)
		if got < 0.95*c.want || got > c.high*c.want {
			t.Errorf("%s: bending energy %g times that of D = 3·kb, want %g to %g", c.name, got, c.want, c.high*c.want)
		}
	}
}

// physics.md D5: two inextensible strips bulged against each other; contact force per length = 2·p·c. The
// sheet's two cases with θ = 1.40 are left out: the flank of a free-edged strip of this mesh is not stable there.
func TestTwoStripsInContact(t *testing.T) {
	a, p := 10.0, 0.002
	for _, c := range []struct{ lambda, g, theta, force float64 }{
		{1.05, 0.15, 0.968656, 1.429792}, {1.10, 0.20, 1.401379, 1.525767}, {1.10, 0.30, 0.968656, 0.859586}, {1.20, 0.40, 1.401379, 1.051535},
	} {
		// Where the barrier balances the pressure: 2·κ·|b′(y)| = p.
		lo, hi := 0.01, 1.0
		for range 60 {
			y := (lo + hi) / 2
			if _, d, _ := barrier(y); 2*contactStiffness*-d > p {
				lo = y
			} else {
				hi = y
			}
		}
		layer := lo * contactThickness / 2
		radius := c.g * a / (1 - math.Cos(c.theta))
		flatHalf := a - radius*math.Sin(c.theta)
		form := func(x float64) (fx, fz float64) { // material x in ±λa
			arc := math.Abs(x) - flatHalf
			if arc <= 0 {
				return x, 0
			}
			sin, cos := math.Sincos(arc / radius)
			return math.Copysign(flatHalf+radius*sin, x), -radius * (1 - cos)
		}
		width, rows := 3.0, 4
		pts, all := twoPlates(44, rows, [2][2]float64{{2 * c.lambda * a, width}, {2 * c.lambda * a, width}})
		hold := func(q r3.Vec) bool { return math.Abs(q.X) > c.lambda*a*0.999 }
		s, _ := flat(pts, all, hold, linear(20), 1e-5)
		s.contact.thickness, s.contact.stiffness, s.contact.exclusion = contactThickness, contactStiffness, 3
		s.finish()
		s.contact.forbid(s)
		s.pressure = p
		for v, q := range s.rest {
			sign := 1.0
			if q.Z > 500 {
				sign = -1
			}
			x, z := form(q.X)
			if v >= s.fixed { // start away from the answer
				z = 0.9*z - 0.8
			}
			s.x[v] = r3.Vec{X: x, Y: q.Y, Z: sign * (z - layer)}
		}
		settleDamped(t, s, 2e-3, 1e-4, 600)
		s.contact.detect(s, searchNear)
		force := 0.0
		for v := s.fixed; v < len(s.x); v++ {
			for k := s.contact.first[v]; k < s.contact.first[v+1]; k++ {
				force += math.Abs(s.contact.push(s, v, &s.contact.touching[k]).Z)
			}
		}
		// The vertices of both strips push on both: their sum is the force on one strip.
		got := force / width / (p * a)
		t.Logf("D5: λ %.2f g/a %.2f: force/(p·a) %.4f, closed form %.4f", c.lambda, c.g, got, c.force)
		if math.Abs(got/c.force-1) > 0.05 {
			t.Errorf("λ %g g/a %g: contact force/(p·a) %g, physics.md D5 %g, tolerance 5 %% (barrier layer 1 mm on a = 10 mm)", c.lambda, c.g, got, c.force)
		}
	}
}

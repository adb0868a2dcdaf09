package loop

import (
	"math"
	"testing"
)

// The cyclic solver against dense elimination.
func TestCyclicAgainstDense(t *testing.T) {
	for n := 3; n < 12; n++ {
		diag, b, x, dense, y := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n*n), make([]float64, n)
		for i := range n {
			b[i] = 1 + math.Sin(float64(i*i+n))
			x[i] = math.Cos(float64(3*i + n))
		}
		b[n/2] = 0 // a closed valve
		for i := range n {
			up := (i + n - 1) % n
			diag[i] = 0.1 + b[i] + b[up] + math.Abs(math.Sin(float64(i)))
			dense[i*n+i] += diag[i]
			dense[i*n+(i+1)%n] -= b[i]
			dense[((i+1)%n)*n+i] -= b[i]
		}
		rhs := append([]float64(nil), x...)
		c := newCyclic(n)
		c.factor(diag, b)
		c.solve(x)
		inverse := make([]float64, n*n)
		if !invertDense(dense, inverse, n) {
			t.Fatal("singular")
		}
		for i := range n {
			y[i] = 0
			for j := range n {
				y[i] += inverse[i*n+j] * rhs[j]
			}
		}
		for i := range n {
			if math.Abs(x[i]-y[i]) > 1e-11*(1+math.Abs(y[i])) {
				t.Fatalf("n=%d: x[%d] = %g, dense %g", n, i, x[i], y[i])
			}
		}
	}
}

// The carried derivative of the beat map against central differences.
func TestTangentAgainstDifferences(t *testing.T) {
	s := periodic(t, Four(400, 400, 20), StartFour)
	base := append([]float64(nil), s.state...)
	s.Beat(true)
	worst := 0.0
	for col := range s.dim {
		d := 1e-4
		ends := [2][]float64{}
		for side, sign := range []float64{1, -1} {
			copy(s.state, base)
			s.state[col] += sign * d
			s.Beat(false)
			ends[side] = append([]float64(nil), s.end...)
		}
		for row := range s.dim {
			fd := (ends[0][row] - ends[1][row]) / (2 * d)
			var an float64
			if row < s.n {
				an = s.tv[col*s.n+row]
			} else {
				an = s.tq[col*s.n+s.linkOf(row)]
			}
			worst = max(worst, math.Abs(fd-an)/(1e-2+math.Abs(an)))
		}
	}
	t.Logf("worst difference %.2g", worst)
	if worst > 2e-3 {
		t.Errorf("derivative of the beat map is off by %g", worst)
	}
}

// Newton's periodic state against many plain beats (the sheet says beats 40 and 160 are identical).
func TestNewtonAgainstPlainBeats(t *testing.T) {
	a := periodic(t, Four(400, 400, 0), StartFour)
	b := New(Four(400, 400, 0))
	StartFour(b)
	for range 160 {
		b.Beat(false)
		b.Advance()
	}
	for c := range a.V {
		for i := range a.V[c] {
			if math.Abs(a.V[c][i]-b.V[c][i]) > 1e-6 {
				t.Fatalf("compartment %d sample %d: %.9g against %.9g mL", c, i, a.V[c][i], b.V[c][i])
			}
		}
	}
}

// Observed order of the integrator on both published loops: root-mean-square error of all volumes at common times
// against a grid 16 times finer than the coarsest.
func TestGridStudy(t *testing.T) {
	for _, m := range []struct {
		name  string
		ring  func(int) *Ring
		start func(*Solver)
		base  int
		floor float64
	}{
		{"three", func(n int) *Ring { return Three(n, 10) }, StartThree, 200, 1.7},
		{"four", func(n int) *Ring { return Four(n, 400, 20) }, StartFour, 200, 1.5},
	} {
		fine := periodic(t, m.ring(32*m.base), m.start)
		var err []float64
		for f := 1; f <= 8; f *= 2 {
			s := periodic(t, m.ring(f*m.base), m.start)
			sum := 0.0
			for c := range s.V {
				for i := range m.base {
					d := s.V[c][i*f] - fine.V[c][i*32]
					sum += d * d
				}
			}
			err = append(err, math.Sqrt(sum/float64(m.base*len(s.V))))
		}
		order := math.Log2(err[0]/err[len(err)-1]) / float64(len(err)-1)
		t.Logf("%s: errors %.3g mL at %d·{1,2,4,8} steps, mean observed order %.2f", m.name, err, m.base, order)
		if !(order >= m.floor) {
			t.Errorf("%s: observed order %.2f below %.2f", m.name, order, m.floor)
		}
	}
}

func TestDeterministicAndWithoutAllocation(t *testing.T) {
	a, b := periodic(t, Four(200, 400, 20), StartFour), periodic(t, Four(200, 400, 20), StartFour)
	for c := range a.V {
		for i := range a.V[c] {
			if a.V[c][i] != b.V[c][i] {
				t.Fatal("two runs differ")
			}
		}
	}
	if n := testing.AllocsPerRun(3, func() { a.Periodic(Search{MaxBeats: 10, Tolerance: 1e-8, Margin: 1000}) }); n != 0 {
		t.Errorf("%g allocations per search", n)
	}
}

func BenchmarkBeat(b *testing.B) {
	for _, tangent := range []bool{false, true} {
		name := "plain"
		if tangent {
			name = "tangent"
		}
		b.Run(name, func(b *testing.B) {
			s := New(Four(400, 400, 0))
			StartFour(s)
			s.Periodic(Search{Warmup: 6, MaxBeats: 60, Tolerance: 1e-8, Margin: 1000})
			b.ReportAllocs()
			for b.Loop() {
				s.Beat(tangent)
			}
		})
	}
}

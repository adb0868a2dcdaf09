package sparse_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"annuloscope/sim/leaflet/sparse"
)

// ring makes a positive definite matrix on an s×t ring mesh with `extra` random far pairs.
func ring(s, t, extra int, rng *rand.Rand) (*sparse.Matrix, []uint64) {
	var keys []uint64
	id := func(i, j int) int32 { return int32(j*s + (i%s+s)%s) }
	for j := range t {
		for i := range s {
			keys = append(keys, sparse.Key(id(i, j), id(i+1, j)))
			if j+1 < t {
				keys = append(keys, sparse.Key(id(i, j), id(i, j+1)), sparse.Key(id(i, j), id(i+1, j+1)))
			}
		}
	}
	m := sparse.NewMatrix(s*t, keys)
	var far []uint64
	for range extra {
		a, b := rng.IntN(s*t), rng.IntN(s*t)
		if a != b {
			far = append(far, sparse.Key(int32(a), int32(b)))
		}
	}
	m.SetExtra(far)
	all := append(append([]uint64{}, keys...), far...)
	for _, k := range all {
		i, j := int32(k>>32), int32(uint32(k))
		v := [3]float64{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}
		b := sparse.Sym{v[0] * v[0], v[0] * v[1], v[0] * v[2], v[1] * v[1], v[1] * v[2], v[2] * v[2]}
		m.Add(i, &b)
		m.Add(j, &b)
		m.AddScaled(m.Slot(i, j), -1, &b)
	}
	for i := range int32(s * t) {
		m.AddIdentity(i, 0.05)
	}
	return m, all
}

func TestSolveAgainstDense(t *testing.T) {
	for seed := range uint64(6) {
		rng := rand.New(rand.NewPCG(seed, 1))
		m, all := ring(9, 5, 12, rng)
		n := m.Rows()
		dense := mat.NewSymDense(3*n, nil)
		at := [6][2]int{{0, 0}, {0, 1}, {0, 2}, {1, 1}, {1, 2}, {2, 2}}
		put := func(i, j int, b sparse.Sym) {
			for k, rc := range at {
				dense.SetSym(3*i+rc[0], 3*j+rc[1], b[k])
				dense.SetSym(3*i+rc[1], 3*j+rc[0], b[k])
			}
		}
		for i := range n {
			put(i, i, m.Val[i])
		}
		for _, k := range all {
			i, j := int32(k>>32), int32(uint32(k))
			put(int(i), int(j), m.Val[m.Slot(i, j)])
		}
		var chol mat.Cholesky
		if !chol.Factorize(dense) {
			t.Fatalf("seed %d: the test matrix is not positive definite", seed)
		}
		b := make([]float64, 3*n)
		for i := range b {
			b[i] = rng.NormFloat64()
		}
		var want mat.VecDense
		if err := chol.SolveVecTo(&want, mat.NewVecDense(3*n, append([]float64{}, b...))); err != nil {
			t.Fatal(err)
		}
		var f sparse.Factor
		f.Analyse(m, 1.35)
		if !f.Factorise(m) {
			t.Fatalf("seed %d: refused a positive definite matrix", seed)
		}
		f.Solve(b)
		for i := range b {
			if math.Abs(b[i]-want.AtVec(i)) > 1e-8*(1+math.Abs(want.AtVec(i))) {
				t.Fatalf("seed %d entry %d: %g, dense Cholesky says %g", seed, i, b[i], want.AtVec(i))
			}
		}
	}
}

func TestIndefiniteIsRefusedAndRecovered(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	m, _ := ring(8, 4, 3, rng)
	var f sparse.Factor
	f.Analyse(m, 1.35)
	m.AddIdentity(7, -100)
	if f.Factorise(m) {
		t.Fatal("an indefinite matrix was factored")
	}
	m.AddIdentity(7, 100)
	if !f.Factorise(m) {
		t.Fatal("the factor did not recover after a refusal")
	}
	x, b := make([]float64, 3*m.Rows()), make([]float64, 3*m.Rows())
	for i := range b {
		b[i] = rng.NormFloat64()
	}
	copy(x, b)
	f.Solve(x)
	y := make([]float64, len(b))
	m.Mul(y, x)
	for i := range y {
		if math.Abs(y[i]-b[i]) > 1e-9 {
			t.Fatalf("residual %g at %d", y[i]-b[i], i)
		}
	}
}

func TestOrderingReducesFill(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	m, _ := ring(96, 15, 0, rng)
	var f sparse.Factor
	f.Analyse(m, 1.35)
	// A folded band of the same ring (half-bandwidth 2·15) fills n·30 blocks; the work grows with the square
	// of the fill, so an ordering that does not save a third is not worth its time.
	if got, band := f.Fill(), 96*15*30; got*3 > band*2 {
		t.Errorf("fill %d blocks, want less than two thirds of the folded band's %d", got, band)
	}
}

func TestNoAllocationWhenWarm(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	m, _ := ring(24, 6, 10, rng)
	var f sparse.Factor
	b := make([]float64, 3*m.Rows())
	run := func() { f.Analyse(m, 0); f.Factorise(m); f.Solve(b) }
	run()
	if a := testing.AllocsPerRun(5, run); a != 0 {
		t.Errorf("%v allocations per factorisation", a)
	}
}

func BenchmarkFactor96x15(b *testing.B) {
	rng := rand.New(rand.NewPCG(9, 9))
	m, _ := ring(96, 15, 0, rng)
	var f sparse.Factor
	f.Analyse(m, 0)
	b.ReportMetric(float64(f.Fill()), "blocks")
	b.Run("factor", func(b *testing.B) {
		for b.Loop() {
			f.Factorise(m)
		}
	})
	x := make([]float64, 3*m.Rows())
	b.Run("solve", func(b *testing.B) {
		for b.Loop() {
			f.Solve(x)
		}
	})
	b.Run("order", func(b *testing.B) {
		for b.Loop() {
			f.Analyse(m, 0)
		}
	})
}

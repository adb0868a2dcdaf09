package ring

import (
	"math"
	"testing"

	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/spatial/r3"
)

// moved applies f to every point and d to every direction of in.
func moved(in *Input, f, d func(r3.Vec) r3.Vec) *Input {
	out := *in
	mk := FindMarks(in.Annulus.Rest)
	mk.Septal, mk.Commissural = d(mk.Septal), d(mk.Commissural)
	out.Annulus.Marks = &mk
	out.Annulus.Rest, out.Vein.Rest = nil, nil
	for _, p := range in.Annulus.Rest {
		out.Annulus.Rest = append(out.Annulus.Rest, f(p))
	}
	for _, p := range in.Vein.Rest {
		out.Vein.Rest = append(out.Vein.Rest, f(p))
	}
	out.Loads = nil
	for _, l := range in.Loads {
		out.Loads = append(out.Loads, Load{l.Point, d(l.Force)})
	}
	return &out
}

// Turning and shifting the whole patient turns and shifts the answer.
func TestRotationAndTranslation(t *testing.T) {
	in := everything()
	in.Loads = []Load{{Point: 96, Force: r3.Vec{Y: 0.5, Z: 0.2}}}
	turn := r3.NewRotation(0.7, r3.Vec{X: 1, Y: 2, Z: -0.5})
	by := r3.Vec{X: 12, Y: -7, Z: 30}
	f := func(p r3.Vec) r3.Vec { return r3.Add(turn.Rotate(p), by) }
	a, b := Solve(in), Solve(moved(in, f, turn.Rotate))
	worst := 0.0
	for i, p := range a.Annulus {
		worst = math.Max(worst, r3.Norm(r3.Sub(f(p), b.Annulus[i])))
	}
	for j, p := range a.Vein {
		worst = math.Max(worst, r3.Norm(r3.Sub(f(p), b.Vein[j])))
	}
	if worst > 1e-7 || math.Abs(a.After.SeptalLateralMM-b.After.SeptalLateralMM) > 1e-7 {
		t.Errorf("turned answer differs by %g mm", worst)
	}
}

// A patient mirrored left to right, with the numbering kept counter-clockwise, gives the mirrored answer.
func TestMirror(t *testing.T) {
	in := banded(inputFrom(specimen.Functional()), 18)
	in.Loads = []Load{{Point: 80, Force: r3.Vec{X: 0.1, Y: 0.5}}}
	flip := func(p r3.Vec) r3.Vec { return r3.Vec{X: -p.X, Y: p.Y, Z: p.Z} }
	n := len(in.Annulus.Rest)
	index := func(p float64) float64 { return math.Mod(1.5*float64(n)-p, float64(n)) } // φ → 180° − φ
	m := moved(in, flip, flip)
	m.Annulus.Marks = nil
	rest, fib := make([]r3.Vec, n), make([]float64, n)
	for i, p := range m.Annulus.Rest {
		k := int(index(float64(i)))
		rest[k], fib[k] = p, in.Annulus.Fibrous[i]
	}
	m.Annulus.Rest, m.Annulus.Fibrous = rest, fib
	m.Vein.Partner = nil
	for _, p := range in.Vein.Partner {
		m.Vein.Partner = append(m.Vein.Partner, index(p))
	}
	m.Loads[0].Point = int(index(80))
	a, b := Solve(in), Solve(m)
	for i, p := range a.Annulus {
		if d := r3.Norm(r3.Sub(flip(p), b.Annulus[int(index(float64(i)))])); d > 1e-7 {
			t.Fatalf("point %d: mirrored answer differs by %g mm", i, d)
		}
	}
	if d := math.Abs(a.After.AreaMM2 - b.After.AreaMM2); d > 1e-6 {
		t.Errorf("mirrored area differs by %g mm²", d)
	}
}

// A repair of nothing changes nothing, to the last bit.
func TestZeroRepairIsIdentity(t *testing.T) {
	in := inputFrom(specimen.Functional())
	for name, change := range map[string]func(*Input){
		"nothing":        func(*Input) {},
		"band of 0 mm":   func(in *Input) { banded(in, 0) },
		"separated band": func(in *Input) { banded(in, 20); in.Band.State.Separated = true },
		"no rods":        func(in *Input) { in.Rods = &Rods{ProximalMM: 10, DistalMM: 60, BendingNMM2: 500} },
		"soft rods":      func(in *Input) { in.Rods = &Rods{ProximalMM: 10, DistalMM: 60, Count: 3} },
		"posterior 0 %":  func(in *Input) { in.Posterior = &PosteriorBand{} },
		"tie of 0 mm":    func(in *Input) { in.Ties = []Tie{{A: 32, B: 96}} },
		"load of 0 N":    func(in *Input) { in.Loads = []Load{{Point: 3}} },
		"no reshaping":   func(in *Input) { in.Annulus.Shift = make([]r3.Vec, 128) },
	} {
		c := *in
		change(&c)
		r := Solve(&c)
		if r.Status != Converged || r.Before != r.After {
			t.Errorf("%s: %v, before %v, after %v", name, r.Status, r.Before, r.After)
		}
		for i, p := range r.Annulus {
			if p != in.Annulus.Rest[i] {
				t.Errorf("%s: annulus point %d moved from %v to %v", name, i, in.Annulus.Rest[i], p)
				break
			}
		}
		for j, p := range r.Vein {
			if p != in.Vein.Rest[j] {
				t.Errorf("%s: vein point %d moved", name, j)
				break
			}
		}
	}
}

package valve

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/sim/closure"
	"annuloscope/sim/ring"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	// ToleranceMM is how far the annulus may still move when the round of ring and closure is called converged.
	ToleranceMM = 1e-4
	// maxRounds bounds the rounds; ordinary cases take four to eight.
	maxRounds = 40
)

// treated is the valve after the repairs: the ring and the closed leaflets in balance.
type treated struct {
	ringIn   ring.Input
	ring     ring.Result
	solver   ring.Solver
	closed   closure.Result
	input    closure.Input
	work     closure.Workspace
	loads    []r3.Vec // on each annulus node, N: what the leaflets pull more than before treatment
	next     []r3.Vec
	last     []r3.Vec
	rounds   int
	moved    float64 // mm, in the last round
	pap      closure.Papillary
	diastole []r3.Vec
}

// settle brings ring and closure into balance at a systolic pressure (mmHg).
func (t *treated) settle(b *baseline, p *plan, pressure float64) {
	n := len(b.shape.rest)
	if len(t.loads) != n {
		t.loads, t.next, t.last = make([]r3.Vec, n), make([]r3.Vec, n), make([]r3.Vec, n)
	}
	s := b.shape
	t.ringIn = ring.Input{
		Annulus:   ring.Annulus{Rest: s.rest, Fibrous: s.fibrous, Shift: p.shift(s)},
		Constants: ring.Default(), Band: p.band, Rods: p.rods, Posterior: p.posterior, FullRing: p.fullRing,
	}
	if p.sinusDevice {
		t.ringIn.Vein = s.vein
	}
	t.pap = papillaryAt(&b.patient, true, p.papillary)
	t.input.Pressure = units.PressureFromMMHg(pressure)
	relax := aitken{omega: 1}
	for t.rounds = 1; ; t.rounds++ {
		copy(t.last, t.ring.Annulus)
		first := len(t.ring.Annulus) == 0
		t.ringIn.Loads = nodeLoads(t.ringIn.Loads[:0], t.loads)
		t.solver.Solve(&t.ringIn, &t.ring)
		t.moved = math.Inf(1)
		if t.rounds > 1 || !first {
			t.moved = farthest(t.last, t.ring.Annulus)
		}
		if t.rounds > 1 && t.moved < ToleranceMM || t.rounds >= maxRounds {
			break
		}
		closure.BuildLine(&t.input.Line, t.ring.Annulus, &t.pap, 0)
		t.input.State = b.state(true, b.input.Line.LengthMM())
		t.work.Solve(b.fitted, &t.input, p.clips, &t.closed)
		t.pull(b)
		if relax.step(t.loads, t.next) == 0 {
			break // nothing pulls: the ring is final
		}
	}
	t.work.Interval = true
	t.work.Solve(b.fitted, &t.input, p.clips, &t.closed)
	t.work.Interval = false
}

// pull spreads what the leaflets pull on the annulus beyond what they pulled before treatment over the nodes.
func (t *treated) pull(b *baseline) {
	for i := range t.next {
		t.next[i] = r3.Vec{}
	}
	line, n, perimeter := &t.input.Line, len(t.next), geometry.Perimeter(t.ring.Annulus)
	for i, st := range line.Stations {
		for k := range st.Annulus {
			now, then := t.closed.PullChange[k][i], b.closed.PullChange[k][i]
			f := r3.Vec{Y: -(now.X - then.X) * line.SpacingMM, Z: (now.Z - then.Z) * line.SpacingMM}
			if f == (r3.Vec{}) {
				continue
			}
			at := r3.Vec{X: st.XMM, Y: -st.Annulus[k].X, Z: st.Annulus[k].Z}
			index := geometry.NearestOnCurve(t.ring.Annulus, true, at).ArcB / perimeter * float64(n)
			j := int(index) % n
			share := index - math.Floor(index)
			t.next[j] = r3.Add(t.next[j], r3.Scale(1-share, f))
			j = (j + 1) % n
			t.next[j] = r3.Add(t.next[j], r3.Scale(share, f))
		}
	}
}

func nodeLoads(dst []ring.Load, f []r3.Vec) []ring.Load {
	for i, v := range f {
		if v != (r3.Vec{}) {
			dst = append(dst, ring.Load{Point: i, Force: v})
		}
	}
	return dst
}

func farthest(a, b []r3.Vec) float64 {
	most := 0.0
	for i := range a {
		most = math.Max(most, r3.Norm(r3.Sub(a[i], b[i])))
	}
	return most
}

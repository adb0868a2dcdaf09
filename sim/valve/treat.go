package valve

import (
	"math"

	"annuloscope/sim/closure"
	"annuloscope/sim/orifice"
	"annuloscope/sim/ring"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	// ToleranceN is the imbalance, on any node of the ring, between the pull of the clips assumed and the pull found at
	// which the round of ring and closure is called converged. The ring yields about 3 mm/N, so the annulus is then
	// within ToleranceMM.
	ToleranceN  = 1e-6
	ToleranceMM = 1e-4
	// maxRounds bounds the rounds; ordinary cases take four to ten.
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
	loads    []r3.Vec // on each annulus node, N: what the clips add to the leaflets' pull
	next     []r3.Vec
	mix      anderson
	last     []r3.Vec // ring of the last round, to compare with
	checked  []r3.Vec // ring last compared with the one from rest
	rounds   int
	brief    bool
	residual float64        // N, of the last round
	bare     closure.Result // the same valve without its clips, in the ring before they pull
	judge    closure.Workspace
	held     []closure.ClipReport // what the clips hold: judged once, before they pull
	free     ring.Result          // the ring before the clips pull
	freeRing ring.Solver
	pap      closure.Papillary
	diastole []r3.Vec
	pressure float64 // mmHg, at the end of the last solve

	diastoleState Annulus
	open          orifice.Result
	flow          flows
	wave          *Beats
	systole       systole
	slopes        slopes2 // of the last balance
}

// settle brings ring and closure into balance at the pressure before treatment.
//
// Only what the clips add to the leaflets' pull goes to the ring: their pull without clips, and how it changes as the
// annulus narrows or the pressure rises, is part of the loaded shape at rest and of the stiffness that the ring was
// calibrated on (whole hearts under pressure), and must not be counted twice.
func (t *treated) settle(b *baseline, p *plan) {
	n := len(b.shape.rest)
	if len(t.loads) != n {
		t.loads, t.next = make([]r3.Vec, n), make([]r3.Vec, n)
	}
	s := b.shape
	t.ringIn = ring.Input{
		Annulus:   ring.Annulus{Rest: s.rest, Fibrous: s.fibrous, Shift: p.shift(s)},
		Vein:      s.vein, // it holds the annulus without a device in it, too
		Constants: ring.Default(), Band: b.bent(p), Rods: p.rods, Posterior: p.posterior, FullRing: p.fullRing,
	}
	t.pap = papillaryAt(&b.patient, true, p.papillary)
	t.input.State = b.state(true, b.input.Line.LengthMM())
	t.input.Pressure = units.PressureFromMMHg(b.pressure)
	if len(p.clips) == 0 {
		clear(t.loads)
	}
	if p.band == nil && p.rods == nil && p.posterior == nil && p.fullRing == nil && p.shiftPct == 0 && len(p.clips) == 0 {
		t.solver.Reset() // nothing acts on the ring: what was withdrawn leaves no trace
	}
	t.grasp(b, p)
	t.iterate(b, p, false)
	if len(p.clips) > 0 && t.strayed() && t.buckled() {
		clear(t.loads)
		t.iterate(b, p, true)
		t.checked = append(t.checked[:0], t.ring.Annulus...)
	}
}

// grasp judges the clips in the annulus on which they do not yet pull. Judged in the annulus that they have drawn together
// a clip at the end of its reach would hold because it holds: two answers to one case.
func (t *treated) grasp(b *baseline, p *plan) {
	t.held = t.held[:0]
	if len(p.clips) == 0 {
		return
	}
	t.ringIn.Loads = nil
	t.freeRing.Solve(&t.ringIn, &t.free)
	closure.BuildLine(&t.input.Line, t.free.Annulus, &t.pap, 0)
	t.held = t.judge.Judge(b.fitted, &t.input, p.clips, &t.bare, t.held)
}

// strayMM is how far a warm ring may move from the last checked one and still be taken for the same branch; a buckled
// posterior annulus lies millimetres away. Chosen.
const strayMM = 0.5

// strayed tells whether the ring has moved far from the last one that was checked, and remembers this one.
func (t *treated) strayed() bool {
	far := len(t.checked) != len(t.ring.Annulus)
	for i := 0; !far && i < len(t.checked); i++ {
		far = r3.Norm(r3.Sub(t.ring.Annulus[i], t.checked[i])) > strayMM
	}
	if far {
		t.checked = append(t.checked[:0], t.ring.Annulus...)
	}
	return far
}

// buckled tells whether the ring, solved from rest under the same pull, comes to another shape: a trial pull too strong
// has then left it on a buckled branch. The shape from rest is kept.
func (t *treated) buckled() bool {
	t.last = append(t.last[:0], t.ring.Annulus...)
	t.solver.Reset()
	t.solver.Solve(&t.ringIn, &t.ring)
	for i, q := range t.ring.Annulus {
		if r3.Norm(r3.Sub(q, t.last[i])) > ToleranceMM {
			return true
		}
	}
	return false
}

// iterate is the round of ring and closure. With fromRest every ring is solved from rest, which is slower and cannot
// keep a buckled branch.
func (t *treated) iterate(b *baseline, p *plan, fromRest bool) {
	t.mix.restart()
	for t.rounds = 1; ; t.rounds++ {
		t.ringIn.Loads = nodeLoads(t.ringIn.Loads[:0], t.loads)
		if fromRest {
			t.solver.Reset()
		}
		t.solver.Solve(&t.ringIn, &t.ring)
		closure.BuildLine(&t.input.Line, t.ring.Annulus, &t.pap, 0)
		t.residual = 0
		if len(p.clips) == 0 {
			return // nothing pulls: the ring is final
		}
		t.work.SolveHeld(b.fitted, &t.input, p.clips, t.held, &t.closed)
		t.pull()
		if t.residual = t.mix.step(t.loads, t.next); t.residual < ToleranceN || t.rounds == maxRounds {
			return
		}
	}
}

// close solves the closure on the settled annulus at a pressure (mmHg) and follows it over systole.
func (t *treated) close(b *baseline, p *plan, pressure float64) {
	t.input.Pressure = units.PressureFromMMHg(pressure)
	t.work.SolveHeld(b.fitted, &t.input, p.clips, t.held, &t.closed)
	t.systole.follow(b, &t.input, p.clips, &t.closed)
}

// bound adds the interval of the orifice to the closure last solved.
func (t *treated) bound(b *baseline, p *plan) {
	t.work.Interval = true
	t.work.SolveHeld(b.fitted, &t.input, p.clips, t.held, &t.closed)
	t.work.Interval = false
}

// pull spreads what the clips add to the leaflets' pull on the annulus over the nodes.
func (t *treated) pull() {
	for i := range t.next {
		t.next[i] = r3.Vec{}
	}
	line := &t.input.Line
	ahead := crossing{curve: t.ring.Annulus, step: -1} // the anterior half, from the anterolateral commissure
	behind := crossing{curve: t.ring.Annulus, step: 1} // the posterior half
	for i, st := range line.Stations {
		for k, c := range [2]*crossing{&ahead, &behind} {
			j, share := c.at(st.XMM)
			more := t.closed.ClipPull[k][i]
			f := r3.Vec{Y: -more.X * line.SpacingMM, Z: more.Z * line.SpacingMM}
			next := (j + c.step + len(t.next)) % len(t.next)
			t.next[j] = r3.Add(t.next[j], r3.Scale(1-share, f))
			t.next[next] = r3.Add(t.next[next], r3.Scale(share, f))
		}
	}
}

// crossing walks along one half of the annulus with rising x, from the anterolateral commissure on.
type crossing struct {
	curve []r3.Vec
	step  int // +1 counter-clockwise (posterior half), −1 clockwise (anterior half)
	index int
	begun bool
}

// at returns the node before the crossing with the plane at x and how far towards the next node it lies.
func (c *crossing) at(x float64) (index int, share float64) {
	n := len(c.curve)
	if !c.begun {
		c.begun = true
		for i, p := range c.curve {
			if p.X < c.curve[c.index].X {
				c.index = i
			}
		}
	}
	for range n / 2 {
		a, b := c.curve[c.index], c.curve[(c.index+c.step+n)%n]
		if b.X >= x {
			return c.index, math.Max(0, math.Min(1, (x-a.X)/math.Max(b.X-a.X, 1e-9)))
		}
		c.index = (c.index + c.step + n) % n
	}
	return c.index, 0
}

func nodeLoads(dst []ring.Load, f []r3.Vec) []ring.Load {
	for i, v := range f {
		if v != (r3.Vec{}) {
			dst = append(dst, ring.Load{Point: i, Force: v})
		}
	}
	return dst
}

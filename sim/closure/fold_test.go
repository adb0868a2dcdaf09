package closure

import (
	"math"
	"testing"
)

// The excess at which a section by itself folds is found exactly, not to a step: over baselines in small steps it moves in
// small steps. (Found to a quarter of a millimetre it jumped by 0.2 mm, and the leak of a torn valve with it.)
func TestRoomIsSmooth(t *testing.T) {
	var last, step [DefaultStations]float64
	moved := 0.0
	for k := range 25 {
		f, rep := Fit(testInput(36, 0), Targets{DepthMM: 4 + 0.02*float64(k), ContactMM: 3})
		if !rep.Status.OK() {
			t.Fatal(rep.Status)
		}
		for i := range f.base {
			now := f.base[i].room[Posterior]
			if d := now - last[i]; k > 1 && math.Abs(d-step[i]) > 0.005 {
				t.Fatalf("step %d, station %d: the room changes by %.4f mm after %.4f", k, i, d, step[i])
			} else if k > 0 {
				step[i] = d
				moved = math.Max(moved, math.Abs(d))
			}
			last[i] = now
		}
	}
	if moved == 0 {
		t.Error("the room never moved: nothing was tested")
	}
	t.Logf("largest change per 0.02 mm of depth: %.4f mm; room in the middle %.2f mm", moved, last[DefaultStations/2])
}

// The walk ends where no way is left: at the fold (the direction has no part along t) or at a limit of the model, whichever
// comes first, to foldFlat. There the system solves, half a per cent less has a state near by, and the derivative by t that the
// walk uses is that of the residual.
func TestWalkEndsExactly(t *testing.T) {
	f, _ := Fit(testInput(36, 0), Targets{DepthMM: 4, ContactMM: 3})
	in := testInput(36, 0)
	var w Workspace
	var out Result
	w.Solve(f, in, nil, &out)
	p := &w.p
	c := &w.path
	c.p = p
	c.resize(len(p.sec))
	for i := range p.sec {
		s := in.Line.Stations[i].S
		for k := range c.start[i] {
			c.start[i][k] = p.sec[i].leaf[k].chord
			c.goal[i][k] = c.start[i][k]
		}
		c.goal[i][Posterior] += 60 * math.Exp(-s*s*20) // far more than any leaflet bears
	}
	reached := c.walk()
	if !(reached > 0.02 && reached < 0.9) || c.t != reached {
		t.Fatalf("reached %g", reached)
	}
	if norm := p.evaluate(p.x, p.out); norm > 10*toleranceMM {
		t.Errorf("the end does not solve: residual %g mm", norm)
	}
	if left := math.Abs(c.ahead()); left > 10*foldFlat {
		t.Errorf("way left at the end: %g", left)
	}
	t.Logf("end at %.1f mm of excess after %d iterations: direction %.3g along t, room %.3g", 60*reached, c.workings, c.theta*c.dt, p.room(c.least))
	fold := append([]vec3(nil), p.x...)
	c.set(reached * 0.995)
	if _, ok := p.newton(maxIterations); !ok {
		t.Error("no state just before the end")
	}
	var away float64
	for i := range fold {
		away = math.Max(away, math.Abs(fold[i][2]-p.x[i][2]))
	}
	if away > 3 {
		t.Errorf("the state just before the end is %.2f mm of overlap away", away)
	}
	// derivative by t
	c.set(reached / 2)
	copy(p.x, fold)
	const h = 1e-7
	c.set(reached/2 + h)
	p.evaluate(p.x, p.alt)
	c.set(reached / 2)
	p.evaluate(p.x, p.out)
	if !c.slope() {
		t.Fatal("no slope")
	}
	dx := append([]vec3(nil), c.dx...)
	p.assemble(p.out)
	for i := range p.out { // −J·dx must be the difference quotient
		for r := range 3 {
			got := 0.0
			for a := range 3 {
				got -= p.diag[i][r][a] * dx[i][a]
				if i > 0 {
					got -= p.lower[i][r][a] * dx[i-1][a]
				}
				if i < len(dx)-1 {
					got -= p.upper[i][r][a] * dx[i+1][a]
				}
			}
			if want := (p.alt[i].res[r] - p.out[i].res[r]) / h; math.Abs(got-want) > 1e-4*(1+math.Abs(want)) {
				t.Fatalf("station %d residual %d by t: %g, difference quotient %g", i, r, got, want)
			}
		}
	}
}

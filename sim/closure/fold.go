package closure

import "math"

// path is a walk along the states of a system while its chords are lengthened from start (t = 0) to goal (t = 1): x and t
// are both unknown, so that the walk can find the fold where the flail leaflet has no closed state any more and t turns
// back (pseudo-arclength continuation). Lengths along the path are the root of Σ dx² + theta²·dt², in mm.
type path struct {
	p           *system
	start, goal [][2]float64 // chord lengths by station and leaflet, mm
	theta       float64      // mm, root of the sum of squares of goal − start

	t        float64
	dir, dx  []vec3 // direction at the last accepted state; scratch
	dt       float64
	from     []vec3 // last accepted state
	fromDir  []vec3
	fromT    float64
	fromDT   float64
	left     float64 // way left there, see ahead
	least    float64 // of leafletOut.bear: the limit
	workings int     // Newton iterations
}

// resize gives the path room for n stations.
func (c *path) resize(n int) {
	if cap(c.dir) < n {
		c.dir, c.dx, c.from, c.fromDir = make([]vec3, n), make([]vec3, n), make([]vec3, n), make([]vec3, n)
		c.start, c.goal = make([][2]float64, n), make([][2]float64, n)
	}
	c.dir, c.dx, c.from, c.fromDir = c.dir[:n], c.dx[:n], c.from[:n], c.fromDir[:n]
	c.start, c.goal = c.start[:n], c.goal[:n]
}

// set writes the chords of part t into the system.
func (c *path) set(t float64) {
	c.t = t
	for i := range c.p.sec {
		for k := range c.start[i] {
			c.p.sec[i].leaf[k].chord = c.start[i][k] + t*(c.goal[i][k]-c.start[i][k])
		}
	}
}

// slope solves J·dx = −∂F/∂t at the system's present state into c.dx.
func (c *path) slope() bool {
	p := c.p
	p.assemble(p.out)
	for i := range p.out {
		o := &p.out[i]
		var d [2]float64 // of the leaflets' overlap by t
		for k := range d {
			l := &o.leaf[k]
			d[k] = -(l.h - l.c) / p.sec[i].leaf[k].chord * (c.goal[i][k] - c.start[i][k])
		}
		_, da := smoothMin(o.leaf[0].c, o.leaf[1].c)
		p.step[i] = vec3{-d[0], -d[1], -da*d[0] - (1-da)*d[1]}
	}
	ok := p.solveBlocks()
	copy(c.dx, p.step)
	return ok
}

func dot(a, b []vec3) (sum float64) {
	for i := range a {
		sum += a[i][0]*b[i][0] + a[i][1]*b[i][1] + a[i][2]*b[i][2]
	}
	return sum
}

// turn sets the direction at the system's present state, forward along the last one (dt > 0 at first).
func (c *path) turn(first bool) bool {
	if !c.slope() {
		return false
	}
	ahead := dot(c.dx, c.dir) + c.theta*c.theta*c.dt
	size := math.Sqrt(dot(c.dx, c.dx) + c.theta*c.theta)
	if first {
		ahead = 1
	}
	if math.IsNaN(size) || math.IsInf(size, 0) {
		return false
	}
	c.dt = math.Copysign(1/size, ahead)
	for i := range c.dir {
		for a := range c.dir[i] {
			c.dir[i][a] = c.dx[i][a] * c.dt
		}
	}
	return true
}

// keep remembers the present state and direction.
func (c *path) keep() {
	copy(c.from, c.p.x)
	copy(c.fromDir, c.dir)
	c.fromT, c.fromDT = c.t, c.dt
}

// back returns to the state remembered.
func (c *path) back() {
	copy(c.p.x, c.from)
	copy(c.dir, c.fromDir)
	c.dt = c.fromDT
	c.set(c.fromT)
	c.p.evaluate(c.p.x, c.p.out)
}

// reach puts the system at the length s along the direction of the state remembered.
func (c *path) reach(s float64) {
	for i := range c.from {
		for a := range c.from[i] {
			c.p.x[i][a] = c.from[i][a] + s*c.fromDir[i][a]
		}
	}
	c.set(c.fromT + s*c.fromDT)
}

// correct solves for the state at the length s along the direction of the state remembered, x and t together, and turns
// the direction. It returns false when that takes more than foldIterations or leads away.
func (c *path) correct(s float64) bool {
	p := c.p
	tol := p.tol
	if tol == 0 {
		tol = toleranceMM
	}
	c.reach(s)
	theta2 := c.theta * c.theta
	for it := 0; it < foldIterations; it++ {
		norm := p.evaluate(p.x, p.out)
		c.workings++
		if math.IsInf(norm, 1) {
			return false
		}
		if norm < tol {
			copy(c.dir, c.fromDir)
			c.dt = c.fromDT
			return c.near(s) && c.turn(false)
		}
		if !c.slope() {
			return false
		}
		p.assemble(p.out)
		if !p.solveBlocks() {
			return false
		}
		dt := -dot(c.fromDir, p.step) / (dot(c.fromDir, c.dx) + theta2*c.fromDT)
		if math.IsNaN(dt) || math.IsInf(dt, 0) {
			return false
		}
		for i := range p.x {
			for a := range p.x[i] {
				p.x[i][a] += p.step[i][a] + dt*c.dx[i][a]
			}
		}
		c.set(c.t + dt)
	}
	return false
}

// near tells whether the system is within half of s of the place to which the direction pointed: else it is on another
// branch, or the step was too long.
func (c *path) near(s float64) bool {
	var far float64
	for i := range c.from {
		for a := range c.from[i] {
			d := c.p.x[i][a] - c.from[i][a] - s*c.fromDir[i][a]
			far += d * d
		}
	}
	d := c.t - c.fromT - s*c.fromDT
	return far+c.theta*c.theta*d*d < s*s/4
}

// arrive solves at t = 1 from the state remembered when the direction leads there within the length s.
func (c *path) arrive(s float64) bool {
	if c.fromT+s*c.fromDT < 1 {
		return false
	}
	s = (1 - c.fromT) / c.fromDT
	c.reach(s)
	c.set(1)
	it, ok := c.p.newton(foldIterations)
	c.workings += it
	return ok && c.near(s) && c.p.room(c.least) > 0
}

// walk goes along the path from the solved state at t = 0 to t = 1 or to the first fold, and returns the t reached; the
// state and the sections belong to it.
func (c *path) walk() float64 {
	var sum float64
	for i := range c.start {
		for k := range c.start[i] {
			d := c.goal[i][k] - c.start[i][k]
			sum += d * d
		}
	}
	c.theta, c.workings = math.Sqrt(sum), 0
	c.set(0)
	if c.theta == 0 {
		return 1
	}
	if !c.turn(true) {
		return 0
	}
	c.least = math.Min(0, c.p.bear()) - bearMost
	if c.left = c.ahead(); c.left <= 0 {
		return 0
	}
	c.keep()
	step := foldFirstPart / c.dt
	for tries := 0; tries < maxFoldSteps && step > foldLeastMM; tries++ {
		if c.arrive(step) {
			return 1
		}
		if !c.correct(step) {
			c.back()
			step /= 2
			continue
		}
		if c.ahead() <= 0 {
			c.settle(step)
			return c.t
		}
		c.left = c.ahead()
		c.keep()
		step *= 1.5
	}
	c.back()
	return c.t
}

// ahead is how much way is left, 0 or less at the end of the walk: the part of the direction along t, and the room to the
// limits of the model.
func (c *path) ahead() float64 { return math.Min(c.theta*c.dt, c.p.room(c.least)) }

// settle finds the end between the state remembered, where some way was left, and the one at the length hi, where none is:
// by false position and halving in turn.
func (c *path) settle(hi float64) {
	lo, atLo, atHi := 0.0, c.left, c.ahead()
	for try := 0; try < maxFoldSteps && hi-lo > foldLeastMM; try++ {
		mid := (lo + hi) / 2
		if try%2 == 0 {
			mid = math.Min(math.Max(lo+(hi-lo)*atLo/(atLo-atHi), lo+(hi-lo)/50), hi-(hi-lo)/50)
		}
		if !c.correct(mid) {
			hi, atHi = mid, -atLo
			continue
		}
		left := c.ahead()
		if math.Abs(left) < foldFlat {
			return
		}
		if left > 0 {
			lo, atLo = mid, left
		} else {
			hi, atHi = mid, left
		}
	}
	if lo == 0 || !c.correct(lo) {
		c.back()
	}
}

package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"annuloscope/sim/leaflet/sparse"
)

// relaxer brings a sheet to equilibrium: Newton steps with a damping that fades, until a step is below enough; then
// cheap steps with the last factor and Anderson acceleration, with a new factor whenever those stall.
type relaxer struct {
	s      *sheet
	factor *sparse.Factor
	step   []r3.Vec // per vertex; zero at fixed ones
	rhs    []float64

	enough     float64 // mm rms step that ends Newton
	mu         float64 // damping, N/mm³
	lagged     bool
	analysed   bool
	factored   bool    // factor is that of a state near the present one
	rms        float64 // of the last step as taken, mm
	best       float64 // smallest rms since the last factor
	idle       int     // iterations without a new best
	longest    float64 // longest vertex step of the last iteration, mm
	iterations int
	factors    int
	broken     bool // a value left its range
	history    anderson
}

// newRelaxer works in the memory of factor, whose content it does not use.
func newRelaxer(s *sheet, enough float64, factor *sparse.Factor) *relaxer {
	n := len(s.rest) - s.fixed
	factor.Forget()
	r := &relaxer{s: s, enough: enough, factor: factor, step: make([]r3.Vec, len(s.rest)), rhs: make([]float64, 3*n)}
	r.history.init(3 * n)
	return r
}

// begin starts a cold solve from the present x, damped (N/mm³). expected is a guess of the longest step, mm.
func (r *relaxer) begin(damping, expected float64) {
	r.mu, r.lagged, r.broken = damping, false, false
	r.rms, r.longest = math.Inf(1), expected
	r.iterations, r.factors = 0, 0
	r.s.contact.radius = 0
}

// again starts a warm solve, with the last factor if there is one: a small change is often at rest before it stalls.
func (r *relaxer) again(damping, expected float64) {
	near := r.s.contact.radius
	r.begin(damping, expected)
	r.s.contact.radius = near
	if r.factored && expected < lagWarm {
		r.lagged = true
		r.best, r.idle = math.Inf(1), 0
		r.history.clear()
	}
}

// iterate takes one step and reports whether the state is at rest: rms step below tolerance.
func (r *relaxer) iterate(tolerance float64) bool {
	r.iterations++
	if !r.lagged {
		r.newton()
		if r.rms < r.enough {
			r.lagged = true
			r.best, r.idle = r.rms, 0
			r.history.clear()
		}
		return !r.broken && r.rms < tolerance
	}
	r.residual()
	r.factor.Solve(r.rhs)
	raw := rmsOf(r.rhs)
	if raw > stallFactor*r.best || !(raw < 1e6) { // the last step led astray: this one, with the old factor, would lead on
		r.lagged, r.mu, r.rms = false, stallDamping, raw
		return false
	}
	r.history.improve(r.rhs)
	r.apply()
	r.rms = raw
	if raw < 0.9*r.best {
		r.best, r.idle = raw, 0
	} else if r.idle++; r.idle >= stallLimit {
		r.lagged, r.mu = false, stallDamping
	}
	return !r.broken && raw < tolerance
}

// searchFor is the distance (mm) up to which the next step needs to know what is near.
func (r *relaxer) searchFor() float64 {
	return min(max(4*r.longest+1.2*r.s.contact.thickness, searchNear), searchRadius)
}

// residual loads the forces at x into rhs.
func (r *relaxer) residual() {
	r.s.contact.detect(r.s, r.searchFor())
	r.s.evaluate(false)
	r.load()
}

func (r *relaxer) load() {
	for i, f := range r.s.force[r.s.fixed:] {
		r.rhs[3*i], r.rhs[3*i+1], r.rhs[3*i+2] = f.X, f.Y, f.Z
	}
}

func (r *relaxer) newton() {
	s := r.s
	s.contact.detect(s, r.searchFor())
	if s.contact.pattern(s) || !r.analysed {
		r.factor.Analyse(s.matrix, workSlack)
		r.analysed = true
	}
	s.evaluate(true)
	added := 0.0
	for try := 0; ; try++ {
		for i := range len(s.x) - s.fixed {
			s.matrix.AddIdentity(int32(i), (r.mu-added+1e-9)*s.area[s.fixed+i])
		}
		added = r.mu + 1e-9
		r.factors++
		if r.factored = r.factor.Factorise(s.matrix); r.factored {
			break
		}
		if try == 6 {
			r.broken = true
			r.rms = math.Inf(1)
			return
		}
		r.mu = stallDamping
	}
	r.load()
	r.factor.Solve(r.rhs)
	r.apply()
	r.mu *= dampingFactor
}

// apply moves the free vertices by rhs, shortened where contact or the step limit asks for it.
func (r *relaxer) apply() {
	s := r.s
	for i := range len(s.x) - s.fixed {
		r.step[s.fixed+i] = r3.Vec{X: r.rhs[3*i], Y: r.rhs[3*i+1], Z: r.rhs[3*i+2]}
	}
	f := s.contact.limit(s, r.step)
	sum, longest := 0.0, 0.0
	for v := s.fixed; v < len(s.x); v++ {
		p := r3.Scale(f, r.step[v])
		n2 := r3.Norm2(p)
		sum += n2
		longest = max(longest, n2)
		s.x[v] = r3.Add(s.x[v], p)
	}
	longest = math.Sqrt(longest)
	r.longest = longest
	r.rms = math.Sqrt(sum / float64(len(s.x)-s.fixed))
	if !(r.rms < 1e6) {
		r.broken = true
	}
	if f < 1 {
		r.rms = max(r.rms, r.enough*1.01) // a shortened step says nothing about rest
		r.history.clear()
	}
}

func rmsOf(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(3 * sum / float64(max(len(v), 1)))
}

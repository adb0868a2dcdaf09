package leaflet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"annuloscope/sim/leaflet/sparse"
)

// Mesh sizes in use: the page while dragging, and everything else.
const (
	DragColumns, DragRows   = 72, 12
	ShownColumns, ShownRows = 96, 16
)

// Solver holds one valve and its state between calls. Make it with New; it is not safe for concurrent use.
type Solver struct {
	s, t       int
	in         Input
	ready      bool // in and the sheets are set
	coarse     *level
	fine       *level
	onCoarse   bool
	began      int // of coldStarts: how the sheets were built
	status     Status
	cold       bool
	attempt    int
	iterations int
	atLevel    int
	crossings  int
	old        []r3.Vec // annulus of the state, by fine column
	result     Result
	m          measures
	factors    [2]sparse.Factor // memory of the coarse and the fine level's; kept from one body to the next
}

// level is the valve on one mesh.
type level struct {
	shape *shape
	sheet *sheet
	relax *relaxer
}

// New makes a solver with columns × rows vertices. Columns must be a multiple of 4 from 32 to 256, rows 6 to 40.
func New(columns, rows int) *Solver {
	if columns%4 != 0 || columns < 32 || columns > 256 || rows < 6 || rows > 40 {
		panic("leaflet: mesh must have 32 to 256 columns, a multiple of 4, and 6 to 40 rows")
	}
	return &Solver{s: columns, t: rows, status: NotConverged}
}

// Set gives the state to solve next. A change of annulus, tips or pressure continues from the present state; so does a
// change of the continuous anatomy (lengths, stiffness, added chord length). A discrete event (first call, phase, bonds,
// a cut chord, another number of annulus points) starts cold. It returns the error of Input.Validate and then changes nothing.
func (s *Solver) Set(in Input) error {
	if err := in.Validate(); err != nil {
		return err
	}
	cold := !s.Continues(&in)
	rebuild := s.fine == nil || s.began > 0 && cold || !sameBody(&s.in, &in)
	s.in = copyInput(&s.in, &in)
	s.attempt = 0
	s.iterations = 0
	s.ready = true
	if rebuild {
		var x []r3.Vec
		if !cold && s.fine != nil {
			x = slices.Clone(s.fine.sheet.x)
		}
		if cold {
			s.began = 0
		}
		s.build(s.began)
		copy(s.fine.sheet.x, x)
	}
	if cold {
		s.startCold()
	} else {
		s.startWarm()
	}
	return nil
}

// Continues reports whether Set would go on from the present state and not start cold. in must be valid.
func (s *Solver) Continues(in *Input) bool {
	return s.ready && !(s.status == Running && s.cold) && s.status != NotConverged && s.status != Crossed && !discrete(&s.in, in)
}

// Reset makes the next Set start cold and forgets everything: the answer is then that of a new Solver, bit for bit.
func (s *Solver) Reset() { s.ready, s.fine, s.coarse = false, nil, nil }

// Step does at most maxIterations iterations and returns how the solve stands; Running asks for more.
func (s *Solver) Step(maxIterations int) Status {
	if !s.ready {
		panic("leaflet: Step before Set")
	}
	for range maxIterations {
		if s.status != Running {
			break
		}
		s.advance()
	}
	return s.status
}

// Near does at most maxIterations iterations, until the state is near enough to rest for a picture (rms step 0.01 mm; not
// looked through for crossings), and reports whether it is. Step goes on from there.
func (s *Solver) Near(maxIterations int) bool {
	for range maxIterations {
		if s.Step(1) != Running {
			return s.status == Converged
		}
		if !s.onCoarse && s.fine.relax.rms < pictureEnough {
			return true
		}
	}
	return false
}

// Solve is Set and Step until the solve ends.
func (s *Solver) Solve(in Input) (Status, error) {
	if err := s.Set(in); err != nil {
		return NotConverged, err
	}
	return s.Step(math.MaxInt), nil
}

// build makes the sheets of both levels for the k-th of coldStarts.
func (s *Solver) build(k int) {
	how := &coldStarts[k]
	s.began = k
	s.fine = newLevel(&s.in, s.s, s.t, newtonEnough, contactThickness, how.exclusion, &s.factors[1])
	s.coarse = nil
	if s.s > how.columns && s.t > how.rows {
		s.coarse = newLevel(&s.in, how.columns, how.rows, coarseEnough, contactThickness*coarseThickness, how.exclusion*coarseThickness, &s.factors[0])
	}
}

func newLevel(in *Input, columns, rows int, enough, thickness, exclusion float64, factor *sparse.Factor) *level {
	h := newShape(&in.Anatomy, columns, rows)
	sheet := newValve(in, h, thickness, exclusion)
	return &level{shape: h, sheet: sheet, relax: newRelaxer(sheet, enough, factor)}
}

func (s *Solver) startCold() {
	s.cold, s.status, s.atLevel = true, Running, 0
	l := s.fine
	if s.coarse != nil {
		l = s.coarse
	}
	s.onCoarse = s.coarse != nil
	l.sheet.setLoads(&s.in)
	s.fine.sheet.setLoads(&s.in)
	l.shape.start(&s.in.Anatomy, s.in.Annulus, startApart, l.sheet.x)
	// Damped in proportion to what moves the leaflets: else the low pressure of diastole makes steps so short that they
	// look like rest.
	l.relax.begin(dampingStart*min(max(math.Abs(l.sheet.pressure)/defaultSystolicPressure, leastDamping), 1), 1)
	s.keepAnnulus()
}

// startWarm carries the old state along with the annulus: fully at the annulus, not at all from half-way down, so that
// leaflets in contact are not pushed through each other.
func (s *Solver) startWarm() {
	s.cold, s.status, s.onCoarse, s.atLevel = false, Running, false, 0
	l := s.fine
	l.sheet.setLoads(&s.in)
	h, x := l.shape, l.sheet.x
	longest := 0.0
	for j := range h.s {
		d := r3.Sub(loopAt(s.in.Annulus, h.index[j]), s.old[j])
		longest = max(longest, r3.Norm(d))
		for i := range h.t {
			f := max(0, 1-2*float64(i)/float64(h.t-1))
			x[i*h.s+j] = r3.Add(x[i*h.s+j], r3.Scale(f*f, d))
		}
	}
	l.relax.again(warmDamping, max(longest/2, 0.05))
	s.keepAnnulus()
}

func (s *Solver) keepAnnulus() {
	h := s.fine.shape
	s.old = resize(s.old, h.s)
	for j := range h.s {
		s.old[j] = loopAt(s.in.Annulus, h.index[j])
	}
}

// advance does one iteration and moves on when a level is done.
func (s *Solver) advance() {
	s.iterations++
	s.atLevel++
	if s.onCoarse {
		r := s.coarse.relax
		if r.iterate(coarseEnough) || s.atLevel >= coarseLimit || r.broken {
			s.prolong()
			s.onCoarse, s.atLevel = false, 0
			s.fine.relax.begin(fineDamping, 0.5)
		}
		return
	}
	r := s.fine.relax
	switch {
	case r.iterate(s.tolerance()):
		s.crossings = s.fine.sheet.countCrossings()
		switch {
		case s.crossings == 0:
			s.status = Converged
		case s.attempt+1 < len(coldStarts):
			s.retry()
		default:
			s.status = Crossed
		}
	case r.broken || s.atLevel >= levelLimit:
		if s.attempt+1 < len(coldStarts) {
			s.retry()
			return
		}
		s.crossings = 0
		if !r.broken {
			s.crossings = s.fine.sheet.countCrossings()
		}
		s.status = NotConverged
	}
}

// tolerance is the rms step (mm) that counts as rest. A state that has not come to rest by then wanders in a pleat of
// the commissural margin; it is accepted more loosely rather than never. ResidualMM tells.
func (s *Solver) tolerance() float64 {
	switch {
	case s.atLevel > levelLimit*2/3:
		return 3 * tolerance
	case s.atLevel > levelLimit/3:
		return 2 * tolerance
	}
	return tolerance
}

// retry starts cold: after a warm solve in the first way, after a cold one in the next.
func (s *Solver) retry() {
	if s.cold {
		s.attempt++
	}
	if s.began != s.attempt {
		s.build(s.attempt)
	}
	s.startCold()
}

// prolong carries the coarse deformation, relative to the start shape, to the fine mesh by bicubic interpolation.
func (s *Solver) prolong() {
	c, f := s.coarse, s.fine
	base := make([]r3.Vec, len(c.sheet.x))
	c.shape.start(&s.in.Anatomy, s.in.Annulus, startApart, base)
	for i, x := range c.sheet.x {
		base[i] = r3.Sub(x, base[i])
	}
	f.shape.start(&s.in.Anatomy, s.in.Annulus, startApart, f.sheet.x)
	for v := range f.sheet.x {
		u := float64(v%f.shape.s) * float64(c.shape.s) / float64(f.shape.s)
		w := float64(v/f.shape.s) * float64(c.shape.t-1) / float64(f.shape.t-1)
		f.sheet.x[v] = r3.Add(f.sheet.x[v], bicubic(base, c.shape.s, c.shape.t, u, w))
	}
}

// bicubic samples a ring of values at column u and row w; rows are extended linearly beyond both edges.
func bicubic(p []r3.Vec, s, t int, u, w float64) r3.Vec {
	i := min(int(w), t-2)
	f := w - float64(i)
	row := func(k int) r3.Vec {
		switch {
		case k < 0:
			return r3.Sub(r3.Scale(2, loopAt(p[:s], u)), loopAt(p[s:2*s], u))
		case k >= t:
			return r3.Sub(r3.Scale(2, loopAt(p[(t-1)*s:], u)), loopAt(p[(t-2)*s:(t-1)*s], u))
		}
		return loopAt(p[k*s:(k+1)*s], u)
	}
	quad := [4]r3.Vec{row(i - 1), row(i), row(i + 1), row(i + 2)}
	return loopAt(quad[:], 1+f)
}

// discrete reports whether going from a to b is an event that a warm start must not bridge.
func discrete(a, b *Input) bool {
	if a.Phase != b.Phase || len(a.Annulus) != len(b.Annulus) || !slices.Equal(a.Bonds, b.Bonds) || len(a.Chords) != len(b.Chords) {
		return true
	}
	for i, c := range a.Chords {
		d := b.Chords[i]
		if c.Leaflet != d.Leaflet || c.Ruptured != d.Ruptured || c.WithBasal != d.WithBasal || c.Ruptured && c != d {
			return true
		}
	}
	return false
}

// sameBody reports whether a and b have the same sheet: everything but annulus, tips and the size of the pressure.
func sameBody(a, b *Input) bool {
	x, y := a.Anatomy, b.Anatomy
	same := slices.Equal(x.RestAnnulus, y.RestAnnulus)
	x.RestAnnulus, y.RestAnnulus = nil, nil
	return same && a.Phase == b.Phase && x.equal(&y) && slices.Equal(a.Chords, b.Chords) && slices.Equal(a.Patches, b.Patches) && slices.Equal(a.Bonds, b.Bonds)
}

func (a *Anatomy) equal(b *Anatomy) bool {
	return a.AnteriorMM == b.AnteriorMM && a.PosteriorMM == b.PosteriorMM && a.CommissureMM == b.CommissureMM &&
		a.MarginX == b.MarginX && a.MarginY == b.MarginY && a.Growth == b.Growth && a.RestTips == b.RestTips &&
		a.ChordSlackMM == b.ChordSlackMM && a.BasalSlackMM == b.BasalSlackMM &&
		a.LineDepthMM == b.LineDepthMM && a.LineRiseMM == b.LineRiseMM && a.LineYMM == b.LineYMM &&
		a.LineBendMM == b.LineBendMM && a.LineHalfMM == b.LineHalfMM &&
		a.ChordNPerMM == b.ChordNPerMM && a.MembraneScale == b.MembraneScale
}

// copyInput copies in, reusing the memory of old.
func copyInput(old, in *Input) Input {
	out := *in
	out.Annulus = append(old.Annulus[:0], in.Annulus...)
	out.RestAnnulus = append(old.RestAnnulus[:0], in.RestAnnulus...)
	out.Bonds = append(old.Bonds[:0], in.Bonds...)
	out.Chords = append(old.Chords[:0], in.Chords...)
	out.Patches = append(old.Patches[:0], in.Patches...)
	return out
}

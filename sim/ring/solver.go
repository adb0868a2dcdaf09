package ring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// MaxTies is the number of ties one input may hold.
const MaxTies = 4

// maxCables is the number of cables one model can hold: the sinus band, the posterior band and the ties.
const maxCables = 2 + MaxTies

// maxRank is the number of rank-one terms: one per band, three per tie.
const maxRank = 2 + 3*MaxTies

// Solver is a reusable workspace. It remembers the last displacements and starts from them when the next input has
// the same numbers of points; after the first solve of a size it allocates nothing. The zero value is ready.
type Solver struct {
	n, m    int
	warm    bool
	nodes   []node
	first   []int // row of a point's x component
	rest, x []r3.Vec
	u       []float64
	trial   []float64
	step    []float64
	grad    []float64
	work    []float64
	push    []float64 // constant forces f
	quad    band
	tangent band
	chol    band
	springs []spring
	cables  []cable
	store   [maxCables]cable
	ranks   int // rank-one terms in use
	rank    [maxRank]float64
	path    [maxRank][]float64
	image   [maxRank][]float64
	marks   Marks
	bandAt  int // index of the sinus band in cables, −1 if none
	postAt  int // index of the posterior band
	tiesAt  int // index of the first tie
	slack   float64
	placed  []float64 // weights of the band as placed, before slip
	state   BandState
	last    []r3.Vec     // displacements of the last solve, by point
	seat    []r3.Vec     // full ring: place of each annulus point
	outline []r3.Vec     // full ring: its outline, point by point at the annulus' own angle
	along   [2][]float64 // full ring: lengths along annulus and outline

	bends []bend3 // rods

	reference *Solver // for TransmittedFraction: with the band on the annulus
	bare      *Solver // and without any band
	refResult Result
	refBand   PosteriorBand
}

// Reset forgets the last solve: the next one starts cold.
func (s *Solver) Reset() { s.warm = false }

// Solve finds the equilibrium of in from a cold start. The same input gives the same bits.
func Solve(in *Input) Result {
	var s Solver
	var r Result
	s.Solve(in, &r)
	return r
}

// Solve finds the equilibrium of in and writes it to out, reusing out's slices. It starts from the last solve of this
// Solver if there was one of the same size. It panics on an input whose structure is wrong (see Input.Check).
func (s *Solver) Solve(in *Input, out *Result) {
	if err := in.checkShape(); err != nil {
		panic(err.Error())
	}
	s.prepare(in)
	out.Iterations = 0
	out.Status, out.ResidualN = s.settle(in, &out.Iterations)
	if out.Status == NotFinite {
		clear(s.u)
	}
	s.warm = out.Status.OK()
	s.report(in, out)
}

// prepare sizes the workspace and assembles what does not change during the solve.
func (s *Solver) prepare(in *Input) {
	n, m := len(in.Annulus.Rest), len(in.Vein.Rest)
	if n != s.n || m != s.m || !s.warm {
		s.n, s.m = n, m
		s.u = grow(s.u, 3*(n+m))
		s.last = grow(s.last, n+m)
		s.warm = false
	}
	s.order(in)
	s.marks = marks(&in.Annulus)
	s.rest = append(append(s.rest[:0], in.Annulus.Rest...), in.Vein.Rest...)
	if in.Constants.WallRigid {
		s.collapse(in)
	}
	s.x = grow(s.x, n+m)
	size := 3 * (n + m)
	s.trial, s.step, s.grad = grow(s.trial, size), grow(s.step, size), grow(s.grad, size)
	s.work, s.push = grow(s.work, size), grow(s.push, size)
	width := s.halfWidth(in)
	s.quad.resize(size, width)
	s.tangent.resize(size, width)
	for k := range 2 + 3*len(in.Ties) {
		s.path[k], s.image[k] = grow(s.path[k], size), grow(s.image[k], size)
	}
	s.assembleQuadratic(in)
	s.assembleSprings(in)
	s.assembleRods(in)
	s.assembleFullRing(in)
	s.assembleCables(in)
}

// collapse sets the vein, where it lies on the atrium, straight above or below its partner: a rigid wall of no length.
func (s *Solver) collapse(in *Input) {
	up := r3.Cross(s.marks.Commissural, s.marks.Septal)
	for j := range s.m {
		onto := r3.Add(s.restPartner(in, j), r3.Scale(in.Vein.Elevation[j], up))
		p := in.Vein.Rest[j]
		s.rest[s.n+j] = r3.Add(p, r3.Scale(in.Vein.OnAtrium[j], r3.Sub(onto, p)))
	}
}

// assembleSprings lists the axial cords of annulus and vein.
func (s *Solver) assembleSprings(in *Input) {
	c, n := &in.Constants, s.n
	s.springs = s.springs[:0]
	for i := range n {
		j := (i + 1) % n
		f := (in.Annulus.Fibrous[i] + in.Annulus.Fibrous[j]) / 2
		s.springs = append(s.springs, spring{i, j, span(r3.Sub(s.rest[j], s.rest[i])),
			blend(c.AnnulusTension, c.FibrousAxial, f), blend(c.AnnulusCompression, c.FibrousAxial, f)})
	}
	for j := n; j+1 < n+s.m; j++ {
		s.springs = append(s.springs, spring{j, j + 1, span(r3.Sub(s.rest[j+1], s.rest[j])), c.VeinTension, c.VeinCompression})
	}
}

// marks returns the landmarks of a, found from the frame if it gives none.
func marks(a *Annulus) Marks {
	if a.Marks != nil {
		return *a.Marks
	}
	return FindMarks(a.Rest)
}

// FindMarks finds the landmarks of a ring in the frame of DEVELOPERS.md: where φ is 0°, 90°, 180° and 270°.
func FindMarks(rest []r3.Vec) Marks {
	m := Marks{Septal: r3.Vec{Y: 1}, Commissural: r3.Vec{X: 1}}
	n := len(rest)
	for i, p := range rest {
		q := rest[(i+1)%n]
		// A crossing of the axis x = 0 or y = 0 between p (included) and q (excluded).
		if p.X > 0 && q.X <= 0 || p.X < 0 && q.X >= 0 {
			t := p.X / (p.X - q.X)
			if p.Y+(q.Y-p.Y)*t > 0 {
				m.A2 = float64(i) + t
			} else {
				m.P2 = float64(i) + t
			}
		}
		if p.Y >= 0 && q.Y < 0 || p.Y < 0 && q.Y >= 0 {
			t := p.Y / (p.Y - q.Y)
			if p.X+(q.X-p.X)*t > 0 {
				m.Posteromedial = math.Mod(float64(i)+t, float64(n))
			} else {
				m.Anterolateral = float64(i) + t
			}
		}
	}
	return m
}

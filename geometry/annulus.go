package geometry

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// Annulus is the smooth closed curve of an AnnulusShape with its arc-length table. It is immutable after NewAnnulus.
//
// With the eccentric parameter t, c = cos t, s = sin t:
//
//	x = (C/2)·c·(1 + q·s²(1+s)/2)    q flattens the anterior part; 0 for an ellipse
//	y = (S/2)·s + e·s²               e < 0 moves depth from anterior to posterior; 0 for an ellipse
//	z = H·(s² + k·s·sin²2t − m)      saddle; k and m make z = 0 the least-squares plane
//
// C, S, H are the commissural, septal-lateral and height measures. The extrema of z are exactly the commissures (low) and
// A2 and P2 (high, equally), so the measures hold exactly. For an ellipse z differs from (H/2)·(−cos 2t) by a constant.
type Annulus struct {
	shape AnnulusShape
	halfC float64
	halfS float64
	e, q  float64
	k, m  float64

	cum []float64 // arc length at the panel borders t = 2π·i/annulusPanels, len annulusPanels+1
}

const annulusPanels = 96 // arc table; with 5-point Gauss panels the arc length is exact to 1e-12 (tested)

// NewAnnulus builds the curve. The error names the field that is out of range.
func NewAnnulus(shape AnnulusShape) (*Annulus, error) {
	s := shape.withDefaults()
	if err := s.checkRanges(); err != nil {
		return nil, err
	}
	a := &Annulus{shape: s, halfC: s.CommissuralMM / 2, halfS: s.SeptalLateralMM / 2}
	if s.Outline == DShape {
		a.e = (s.AnteriorDepthShare - 0.5) * s.SeptalLateralMM
		a.flatten()
	}
	a.level()
	if math.Abs(a.k) > 0.24 { // at 0.25 A2 or P2 stops being a local maximum of z
		return nil, fmt.Errorf("geometry: AnteriorDepthShare = %g makes A2 or P2 no longer a high point with SeptalLateralMM = %g, CommissuralMM = %g: bring it nearer to 0.5",
			s.AnteriorDepthShare, s.SeptalLateralMM, s.CommissuralMM)
	}
	a.cum = make([]float64, annulusPanels+1)
	for i := range annulusPanels {
		t0 := 2 * math.Pi * float64(i) / annulusPanels
		t1 := 2 * math.Pi * float64(i+1) / annulusPanels
		a.cum[i+1] = a.cum[i] + a.arcBetween(t0, t1)
	}
	return a, nil
}

// Shape returns the shape with its defaults filled in.
func (a *Annulus) Shape() AnnulusShape { return a.shape }

// LengthMM returns the 3D perimeter in mm (relative error below 1e-10).
func (a *Annulus) LengthMM() float64 { return a.cum[annulusPanels] }

// CurveTo fills dst with len(dst) ≥ 3 points equally spaced by arc length from φ = 0, and returns dst. No allocation.
func (a *Annulus) CurveTo(dst []r3.Vec) []r3.Vec {
	if len(dst) < 3 {
		panic("geometry: a closed curve needs at least 3 points")
	}
	for i := range dst {
		dst[i] = a.AtArc(a.LengthMM() * float64(i) / float64(len(dst)))
	}
	return dst
}

// AtArc returns the point at arc length mm from φ = 0, counter-clockwise; mm wraps round.
func (a *Annulus) AtArc(mm float64) r3.Vec { return a.point(a.paramOfArc(mm)) }

// At returns the point at the angle phi (radians, any turn) round the origin in the xy plane.
func (a *Annulus) At(phi float64) r3.Vec { return a.point(a.paramOfPhi(phi)) }

// ArcOf returns the arc length in mm, in [0, LengthMM), at the angle phi.
func (a *Annulus) ArcOf(phi float64) float64 {
	t := wrapAngle(a.paramOfPhi(phi))
	i := min(int(t/(2*math.Pi)*annulusPanels), annulusPanels-1)
	return a.cum[i] + a.arcBetween(2*math.Pi*float64(i)/annulusPanels, t)
}

// PhiOfArc returns the angle φ in [0, 2π) at arc length mm.
func (a *Annulus) PhiOfArc(mm float64) float64 { return PhiOf(a.AtArc(mm)) }

// Tangent returns the unit tangent at the angle phi, counter-clockwise.
func (a *Annulus) Tangent(phi float64) r3.Vec { return r3.Unit(a.deriv(a.paramOfPhi(phi))) }

// Outward returns the unit vector in the xy plane at right angles to the projected curve at phi, pointing away from the
// orifice. "Distance outward" everywhere in this package is measured along it; on a circle it is the radial direction.
func (a *Annulus) Outward(phi float64) r3.Vec {
	d := a.deriv(a.paramOfPhi(phi))
	return r3.Unit(r3.Vec{X: d.Y, Y: -d.X})
}

// PhiOf returns the angle φ of a point round the origin, in [0, 2π).
func PhiOf(p r3.Vec) float64 { return wrapAngle(math.Atan2(p.Y, p.X)) }

func wrapAngle(x float64) float64 {
	x = math.Mod(x, 2*math.Pi)
	if x < 0 {
		x += 2 * math.Pi
	}
	if x >= 2*math.Pi {
		x = 0
	}
	return x
}

func (a *Annulus) point(t float64) r3.Vec {
	s, c := math.Sincos(t)
	w := s * s * (1 + s) / 2
	return r3.Vec{
		X: a.halfC * c * (1 + a.q*w),
		Y: a.halfS*s + a.e*s*s,
		Z: a.shape.HeightMM * (s*s + 4*a.k*s*s*s*c*c - a.m),
	}
}

func (a *Annulus) deriv(t float64) r3.Vec {
	s, c := math.Sincos(t)
	w := s * s * (1 + s) / 2
	dw := (s + 1.5*s*s) * c
	return r3.Vec{
		X: a.halfC * (-s*(1+a.q*w) + c*a.q*dw),
		Y: (a.halfS + 2*a.e*s) * c,
		Z: a.shape.HeightMM * (2*s*c + 4*a.k*(3*s*s*c*c*c-2*s*s*s*s*c)),
	}
}

func (a *Annulus) deriv2(t float64) r3.Vec {
	s, c := math.Sincos(t)
	w := s * s * (1 + s) / 2
	dw := (s + 1.5*s*s) * c
	ddw := (1+3*s)*c*c - (s+1.5*s*s)*s
	return r3.Vec{
		X: a.halfC * (-c*(1+a.q*w) - 2*s*a.q*dw + c*a.q*ddw),
		Y: -a.halfS*s + 2*a.e*(c*c-s*s),
		Z: a.shape.HeightMM * (2*(c*c-s*s) + 4*a.k*(6*s*c*c*c*c-17*s*s*s*c*c+2*s*s*s*s*s)),
	}
}

// paramOfArc inverts the arc-length table by Newton from the panel that holds mm.
func (a *Annulus) paramOfArc(mm float64) float64 {
	length := a.LengthMM()
	mm = math.Mod(mm, length)
	if mm < 0 {
		mm += length
	}
	i := sort.Search(annulusPanels, func(i int) bool { return a.cum[i+1] > mm })
	if i == annulusPanels {
		return 0
	}
	h := 2 * math.Pi / annulusPanels
	t0 := h * float64(i)
	target := mm - a.cum[i]
	t := t0 + h*target/(a.cum[i+1]-a.cum[i])
	for range 8 {
		dt := (target - a.arcBetween(t0, t)) / r3.Norm(a.deriv(t))
		t += dt
		if math.Abs(dt) < 1e-8 { // quadratic: what remains is below rounding
			break
		}
	}
	return t
}

// paramOfPhi solves x(t)·sin φ = y(t)·cos φ by Newton within the quadrant; quadrant borders are exact.
func (a *Annulus) paramOfPhi(phi float64) float64 {
	phi = wrapAngle(phi)
	quarter := math.Floor(phi / (math.Pi / 2))
	lo, hi := quarter*math.Pi/2, (quarter+1)*math.Pi/2
	sp, cp := math.Sincos(phi)
	t := phi
	for range 60 {
		p, d := a.point(t), a.deriv(t)
		f := p.Y*cp - p.X*sp // rises with t inside the quadrant
		if f > 0 {
			hi = t
		} else {
			lo = t
		}
		next := t - f/(d.Y*cp-d.X*sp)
		if !(next >= lo && next <= hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-t) < 1e-15 {
			break
		}
		t = next
	}
	return t
}

package geometry

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Outline selects the projected shape of an annulus.
type Outline int

const (
	DShape  Outline = iota // anterior part flatter and nearer to the commissural line than the posterior part
	Ellipse                // plain ellipse, for checks against closed formulas
)

// AnnulusShape describes a saddle-shaped annulus by four measures, all reproduced exactly by the curve it makes.
type AnnulusShape struct {
	SeptalLateralMM float64 // |A2 − P2| along y, 12-70 mm
	CommissuralMM   float64 // distance between the commissures along x, 15-80 mm
	HeightMM        float64 // extent along z, the normal of the best-fit plane, 0-20 mm

	// IntertrigoneShare is the part of the (3D) perimeter between the trigones, centred on A2, 0.15-0.32.
	// Zero means DefaultIntertrigoneShare. A larger share flattens the anterior part of a DShape.
	IntertrigoneShare float64

	// AnteriorDepthShare is the part of SeptalLateralMM that lies anterior of the commissural line, 0.33-0.50.
	// Zero means DefaultAnteriorDepthShare. An Ellipse ignores it.
	AnteriorDepthShare float64

	Outline Outline
}

// Validate reports the first value that is out of range, with the range, or nil.
func (s AnnulusShape) Validate() error {
	_, err := NewAnnulus(s)
	return err
}

// Curve returns n points equally spaced by arc length along the annulus (true arc length of the smooth curve, relative
// error below 1e-10), starting at φ = 0 and going counter-clockwise seen from the atrium. It panics if n < 3 or if the
// shape is not valid.
func (s AnnulusShape) Curve(n int) []r3.Vec {
	a, err := NewAnnulus(s)
	if err != nil {
		panic(err.Error())
	}
	return a.CurveTo(make([]r3.Vec, n))
}

func (s AnnulusShape) withDefaults() AnnulusShape {
	if s.IntertrigoneShare == 0 {
		s.IntertrigoneShare = DefaultIntertrigoneShare
	}
	if s.AnteriorDepthShare == 0 {
		s.AnteriorDepthShare = DefaultAnteriorDepthShare
	}
	return s
}

func (s AnnulusShape) checkRanges() error {
	checks := []struct {
		field     string
		v, lo, hi float64
	}{
		{"SeptalLateralMM", s.SeptalLateralMM, minSeptalLateralMM, maxSeptalLateralMM},
		{"CommissuralMM", s.CommissuralMM, minCommissuralMM, maxCommissuralMM},
		{"HeightMM", s.HeightMM, 0, maxHeightMM},
		{"SeptalLateralMM/CommissuralMM", s.SeptalLateralMM / s.CommissuralMM, minDiameterRatio, maxDiameterRatio},
		{"HeightMM/CommissuralMM", s.HeightMM / s.CommissuralMM, 0, maxHeightRatio},
		{"IntertrigoneShare", s.IntertrigoneShare, minIntertrigoneShare, maxIntertrigoneShare},
		{"AnteriorDepthShare", s.AnteriorDepthShare, minAnteriorDepthShare, maxAnteriorDepthShare},
	}
	for _, c := range checks {
		if math.IsNaN(c.v) || c.v < c.lo || c.v > c.hi {
			return fmt.Errorf("geometry: %s = %g is outside %g to %g: change it", c.field, c.v, c.lo, c.hi)
		}
	}
	if s.Outline != DShape && s.Outline != Ellipse {
		return fmt.Errorf("geometry: Outline = %d is neither DShape (0) nor Ellipse (1)", int(s.Outline))
	}
	return nil
}

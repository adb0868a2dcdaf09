package ring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Annulus is the ring at rest (mid-systole, untreated).
type Annulus struct {
	// Rest holds N ≥ 16 points in mm, closed without repeating the first, nearly equal arc length,
	// counter-clockwise seen from the atrium, the first at φ = 0 (posteromedial commissure). 128 is usual.
	Rest []r3.Vec
	// Fibrous says how much of each point belongs to the inter-trigone part, 0 to 1 (N values).
	Fibrous []float64
	// Shift moves the rest position of the foundation, mm (N values, or nil for none): ventricular reshaping.
	Shift []r3.Vec
	// Marks says where the landmarks lie; nil means "find them from the frame of DEVELOPERS.md".
	Marks *Marks
}

// Marks places the four landmarks as fractional indices into Rest, and the axes the diameters are measured along.
type Marks struct {
	A2, P2, Anterolateral, Posteromedial float64
	Septal, Commissural                  r3.Vec // unit vectors; DEVELOPERS.md: +y and +x
}

// Vein is the whole vein at rest, from the ostium to the interventricular vein.
type Vein struct {
	Rest      []r3.Vec  // M ≥ 4 points, mm, along the centreline
	Station   []float64 // arc length from the ostium, mm, strictly rising
	OnAtrium  []float64 // 0 (free of the atrium) to 1 (on the atrial wall): weight of the wall coupling
	Partner   []float64 // index of the nearest annulus point, 0 ≤ p < N, fractions interpolate; also where OnAtrium is 0
	Distance  []float64 // radial distance outward from the annulus, mm, ≥ 0
	Elevation []float64 // height above the annulus towards the atrium, mm, may be negative
	Clearance []float64 // lumen radius less band radius, mm, ≥ 0: room for the band to cut the curve; nil for none
}

// Load is a dead force on one annulus point, N (for instance the pull of a clip through the leaflet).
type Load struct {
	Point int
	Force r3.Vec
}

// Input is everything Solve needs. Devices that are absent are nil.
type Input struct {
	Annulus   Annulus
	Vein      Vein // may be empty (no points) when no sinus device is used
	Constants Constants
	Band      *Band
	Rods      *Rods
	Posterior *PosteriorBand
	FullRing  *FullRing
	Ties      []Tie // at most MaxTies
	Loads     []Load
}

// Check reports the first value out of its range, as one error that names field, value, range and fix.
func (in *Input) Check() error {
	if err := in.checkShape(); err != nil {
		return err
	}
	for i, p := range in.Annulus.Rest {
		if !finite(p) {
			return fmt.Errorf("ring: annulus.rest[%d] is %v; must be finite; correct the annulus diameters", i, p)
		}
	}
	for j, p := range in.Vein.Rest {
		if !finite(p) {
			return fmt.Errorf("ring: vein.rest[%d] is %v; must be finite; correct the vein's distance and elevation", j, p)
		}
		if w := in.Vein.OnAtrium[j]; !(w >= 0 && w <= 1) {
			return fmt.Errorf("ring: vein.on_atrium[%d] is %g; must lie in 0 to 1", j, w)
		}
		if d := in.Vein.Distance[j]; !(d >= 0 && d <= 60) {
			return fmt.Errorf("ring: vein.distance[%d] is %g mm; must lie in 0 to 60 mm", j, d)
		}
		if e := in.Vein.Elevation[j]; !(math.Abs(e) <= 60) {
			return fmt.Errorf("ring: vein.elevation[%d] is %g mm; must lie in -60 to 60 mm", j, e)
		}
	}
	if err := in.Constants.Check(); err != nil {
		return err
	}
	return in.checkDevices()
}

// checkShape verifies what the solver relies on to index its arrays.
func (in *Input) checkShape() error {
	n, m := len(in.Annulus.Rest), len(in.Vein.Rest)
	if n < 16 {
		return fmt.Errorf("ring: annulus has %d points; needs at least 16", n)
	}
	if len(in.Annulus.Fibrous) != n {
		return fmt.Errorf("ring: annulus.fibrous has %d values for %d points; give one each", len(in.Annulus.Fibrous), n)
	}
	if s := len(in.Annulus.Shift); s != 0 && s != n {
		return fmt.Errorf("ring: annulus.shift has %d values for %d points; give one each or none", s, n)
	}
	if m != 0 && m < 4 {
		return fmt.Errorf("ring: vein has %d points; needs at least 4, or none", m)
	}
	v := in.Vein
	if len(v.Station) != m || len(v.OnAtrium) != m || len(v.Partner) != m || len(v.Distance) != m || len(v.Elevation) != m {
		return fmt.Errorf("ring: vein lists differ in length (%d points); give one value per point", m)
	}
	if c := len(v.Clearance); c != 0 && c != m {
		return fmt.Errorf("ring: vein.clearance has %d values for %d points; give one each or none", c, m)
	}
	for j, p := range v.Partner {
		if !(p >= 0 && p < float64(n)) {
			return fmt.Errorf("ring: vein.partner[%d] is %g; must lie in 0 to below %d", j, p, n)
		}
		if j > 0 && !(v.Station[j] > v.Station[j-1]) {
			return fmt.Errorf("ring: vein.station[%d] is %g mm, not above %g mm; stations must rise", j, v.Station[j], v.Station[j-1])
		}
	}
	for k, l := range in.Loads {
		if l.Point < 0 || l.Point >= n {
			return fmt.Errorf("ring: loads[%d].point is %d; must lie in 0 to %d", k, l.Point, n-1)
		}
	}
	if len(in.Ties) > MaxTies {
		return fmt.Errorf("ring: %d ties; at most %d", len(in.Ties), MaxTies)
	}
	for k, t := range in.Ties {
		if t.A < 0 || t.A >= n || t.B < 0 || t.B >= n || t.A == t.B {
			return fmt.Errorf("ring: ties[%d] joins points %d and %d; must be two different points in 0 to %d", k, t.A, t.B, n-1)
		}
	}
	return nil
}

func finite(v r3.Vec) bool {
	s := v.X + v.Y + v.Z
	return !math.IsNaN(s) && !math.IsInf(s, 0)
}

package artery

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Flattened is a lumen of unchanged perimeter with minor radius Minor·R: lengths in open radii R, areas and
// conductance as shares of the open round lumen.
type Flattened struct {
	Minor       float64 // x, 1 round to 0 closed
	Major       float64 // major radius ÷ R of the ellipse, 1 to π/2
	Area        float64 // of the ellipse
	StadiumArea float64 // of the stadium, 2x − x²
	Conductance float64 // Poiseuille, of the ellipse
}

// Flatten returns the lumen with minor radius x (0 to 1) at constant perimeter (physics.md F).
func Flatten(x float64) Flattened {
	if !(x >= 0 && x <= 1) {
		panic("artery: minor radius not between 0 and 1")
	}
	a := majorRadius(x)
	return Flattened{Minor: x, Major: a, Area: a * x, StadiumArea: 2*x - x*x,
		Conductance: 2 * a * a * a * x * x * x / (a*a + x*x)}
}

// majorRadius solves 4aE(1−x²/a²) = 2π, the perimeter of an ellipse of half-axes a ≥ x, by bisection: the perimeter
// rises with a; a lies between 1 and π/2.
func majorRadius(x float64) float64 {
	low, high := 1.0, math.Pi/2
	for range 52 {
		a := (low + high) / 2
		if 4*a*mathext.CompleteE(1-x*x/(a*a)) < 2*math.Pi {
			low = a
		} else {
			high = a
		}
	}
	return (low + high) / 2
}

// wallPressure returns the wall's resistance to flattening as a pressure in N/mm²: that of a pinched thin ring of
// plate stiffness E h³/12(1−ν²), ν = 0.5, so that F = (p + wall)·πR(1−x). It is 2/(3π·pinchedRing) = 1.43 times
// the collapse pressure CriticalPressure of the same wall.
func wallPressure(t Tissue) float64 {
	plate := t.ArteryWall * cube(t.WallToRadius) / (12 * (1 - 0.25)) // EI/R³
	return 2 / (math.Pi * pinchedRing) * plate
}

// CriticalPressure returns the external pressure in N/mm² at which a tube wall of modulus e (N/mm²), Poisson ratio nu
// and thickness over radius h buckles: E h³/[4(1−ν²)] (physics.md F).
func CriticalPressure(e, nu, h float64) float64 { return e * cube(h) / (4 * (1 - nu*nu)) }

func cube(v float64) float64 { return v * v * v }

// minorRadius returns x under a two-sided force per length (N/mm) against a pressure (N/mm²) in a lumen of open radius
// (mm), and whether the walls meet.
func minorRadius(force, pressure, radius float64) (x float64, occluded bool) {
	x = 1 - force/(math.Pi*radius*pressure)
	if x <= 0 {
		return 0, true
	}
	return x, false
}

package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Landmark is a named place on an annulus.
type Landmark struct {
	Name  string
	Phi   float64 // radians, [0, 2π)
	ArcMM float64 // from φ = 0, counter-clockwise
	Point r3.Vec  // mm
}

// Landmarks are the places every reader of an annulus asks for.
type Landmarks struct {
	PosteromedialCommissure Landmark // φ = 0
	PosteromedialTrigone    Landmark // right trigone as seen from the atrium
	A2                      Landmark // φ = π/2
	AnterolateralTrigone    Landmark // left trigone as seen from the atrium
	AnterolateralCommissure Landmark // φ = π
	P2                      Landmark // φ = 3π/2
}

// Landmarks returns the commissures, A2, P2 and the trigones. The trigones lie half the inter-trigone share of the 3D
// perimeter either side of A2.
func (a *Annulus) Landmarks() Landmarks {
	at := func(name string, phi float64) Landmark {
		return Landmark{Name: name, Phi: phi, ArcMM: a.ArcOf(phi), Point: a.At(phi)}
	}
	a2 := at("A2", math.Pi/2)
	half := a.shape.IntertrigoneShare * a.LengthMM() / 2
	arc := func(name string, mm float64) Landmark {
		p := a.AtArc(mm)
		return Landmark{Name: name, Phi: PhiOf(p), ArcMM: mm, Point: p}
	}
	return Landmarks{
		PosteromedialCommissure: at("posteromedial commissure", 0),
		PosteromedialTrigone:    arc("posteromedial trigone", a2.ArcMM-half),
		A2:                      a2,
		AnterolateralTrigone:    arc("anterolateral trigone", a2.ArcMM+half),
		AnterolateralCommissure: at("anterolateral commissure", math.Pi),
		P2:                      at("P2", 3*math.Pi/2),
	}
}

// Intertrigone reports whether the arc position mm (wrapped) lies between the trigones.
func (a *Annulus) Intertrigone(mm float64) bool {
	centre := a.ArcOf(math.Pi / 2)
	d := math.Remainder(mm-centre, a.LengthMM())
	return math.Abs(d) <= a.shape.IntertrigoneShare*a.LengthMM()/2
}

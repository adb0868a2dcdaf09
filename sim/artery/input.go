package artery

import (
	"errors"
	"fmt"
	"math"
)

// Station is one place along a vessel.
type Station struct {
	AtMM         float64 // along the vessel, rising from station to station
	LumenMM      float64 // diameter of the round, open lumen at the arterial pressure
	DepthMM      float64 // lumen axis below the band's contact line, in the direction the band presses (to the heart); negative = outer side
	AsideMM      float64 // lumen axis beside the line of force, either sign
	BandNPerMM   float64 // band force on the vein per length, LineForce(tension, radius); 0 or more
	AnchorNPerMM float64 // anchor force on one side of the vein per length; 0 or more
}

// LineForce returns the force per length in N/mm of a band under tension (N) on a curve of radius (mm): T/R.
func LineForce(tensionN, radiusMM float64) float64 {
	if radiusMM <= 0 {
		panic("artery: radius of curvature not above 0")
	}
	return tensionN / radiusMM
}

// Bed is the muscle a vessel feeds. Zero fields take the defaults of DefaultBed.
type Bed struct {
	RestMLPerS   float64 // resting flow, unnarrowed
	Dilation     float64 // how many times its conductance can rise, above 1; the unnarrowed flow reserve
	ZeroFlowMMHg float64 // arterial pressure at which flow stops; negative for truly 0
}

// DefaultBed returns the bed of physics.md F (zero-flow 10 mmHg, reserve 4, 1 mL/s for 3 mm, by the cube of the
// lumen for other sizes).
func DefaultBed(lumenMM float64) Bed {
	return Bed{RestMLPerS: defaultRest * math.Pow(lumenMM/restLumen, 3), Dilation: defaultDilation, ZeroFlowMMHg: defaultZeroFlow}
}

// Vessel is the circumflex artery or one of its branches.
type Vessel struct {
	Name     string
	Stations []Station // at least one
	Bed      Bed
}

// Tissue is what lies between band and blood. Zero fields take defaults (constants.go); pass a small positive number
// for nearly none.
type Tissue struct {
	VeinWall     float64 // N/mm², hoop stiffness of the vein wall, modulus × thickness ÷ radius
	Fat          float64 // N/mm², stiffness of the soft tissue
	ArteryWall   float64 // N/mm², modulus of the arterial wall
	WallToRadius float64 // arterial wall thickness ÷ radius
}

// Input is everything Solve needs.
type Input struct {
	Vessels      []Vessel
	PressureMMHg float64 // mean arterial pressure
	Tissue       Tissue
}

func orDefault(v, d float64) float64 {
	if v == 0 {
		return d
	}
	return v
}

func (t Tissue) filled() Tissue {
	return Tissue{orDefault(t.VeinWall, defaultVeinWall), orDefault(t.Fat, defaultFat),
		orDefault(t.ArteryWall, defaultArteryWall), orDefault(t.WallToRadius, defaultWallToRadius)}
}

func (b Bed) filled(lumenMM float64) Bed {
	d := DefaultBed(lumenMM)
	zero := orDefault(b.ZeroFlowMMHg, d.ZeroFlowMMHg)
	return Bed{orDefault(b.RestMLPerS, d.RestMLPerS), orDefault(b.Dilation, d.Dilation), math.Max(zero, 0)}
}

// ErrInput is wrapped by every error of Validate.
var ErrInput = errors.New("artery: bad input")

// Validate returns an error naming the field, its value, the allowed range and the fix, or nil.
func (in Input) Validate() error {
	var errs []error
	check := func(name string, v, low, high float64, fix string) {
		if !(v >= low && v <= high) { // also catches NaN
			errs = append(errs, fmt.Errorf("%w: %s is %g, allowed %g to %g: %s", ErrInput, name, v, low, high, fix))
		}
	}
	check("PressureMMHg", in.PressureMMHg, 20, 300, "give the mean arterial pressure")
	check("Tissue.VeinWall", in.Tissue.VeinWall, 0, 10, "N/mm², 0 for the default")
	check("Tissue.Fat", in.Tissue.Fat, 0, 10, "N/mm², 0 for the default")
	check("Tissue.ArteryWall", in.Tissue.ArteryWall, 0, 20, "N/mm², 0 for the default")
	check("Tissue.WallToRadius", in.Tissue.WallToRadius, 0, 0.5, "thickness over radius, 0 for the default")
	for i, v := range in.Vessels {
		at := fmt.Sprintf("Vessels[%d].", i)
		if len(v.Stations) == 0 {
			errs = append(errs, fmt.Errorf("%w: %sStations is empty, allowed 1 or more: give stations", ErrInput, at))
		}
		check(at+"Bed.RestMLPerS", v.Bed.RestMLPerS, 0, 50, "0 for the default")
		check(at+"Bed.ZeroFlowMMHg", v.Bed.ZeroFlowMMHg, math.Inf(-1), math.Min(60, in.PressureMMHg-5), "must stay below the arterial pressure")
		if v.Bed.Dilation != 0 {
			check(at+"Bed.Dilation", v.Bed.Dilation, 1, 20, "0 for the default")
		}
		for k, s := range v.Stations {
			name := fmt.Sprintf("%sStations[%d].", at, k)
			check(name+"AtMM", s.AtMM, -1000, 1000, "mm along the vessel")
			if k > 0 {
				check(name+"AtMM", s.AtMM, v.Stations[k-1].AtMM, 1000, "stations must not go back")
			}
			check(name+"LumenMM", s.LumenMM, 0.2, 12, "diameter of the open lumen in mm")
			check(name+"DepthMM", s.DepthMM, -200, 200, "mm, positive towards the heart")
			check(name+"AsideMM", s.AsideMM, -500, 500, "mm")
			check(name+"BandNPerMM", s.BandNPerMM, 0, 10, "N/mm")
			check(name+"AnchorNPerMM", s.AnchorNPerMM, 0, 10, "N/mm")
		}
	}
	return errors.Join(errs...)
}

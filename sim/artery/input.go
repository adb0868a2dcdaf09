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

// limit is a number and what it may be; its name is put together only where it is not.
type limit struct {
	name         string
	v, low, high float64
	fix          string
}

// ok is false for what is not a number, too.
func (q *limit) ok() bool { return q.v >= q.low && q.v <= q.high }

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
	for i := range in.Vessels {
		v := &in.Vessels[i]
		if len(v.Stations) == 0 {
			errs = append(errs, fmt.Errorf("%w: Vessels[%d].Stations is empty, allowed 1 or more: give stations", ErrInput, i))
		}
		dilation := v.Bed.Dilation
		if dilation == 0 {
			dilation = 1
		}
		for _, q := range [...]limit{
			{"RestMLPerS", v.Bed.RestMLPerS, 0, 50, "0 for the default"},
			{"ZeroFlowMMHg", v.Bed.ZeroFlowMMHg, math.Inf(-1), math.Min(60, in.PressureMMHg-5), "must stay below the arterial pressure"},
			{"Dilation", dilation, 1, 20, "0 for the default"},
		} {
			if !q.ok() {
				check(fmt.Sprintf("Vessels[%d].Bed.%s", i, q.name), q.v, q.low, q.high, q.fix)
			}
		}
		before := math.Inf(-1)
		for k := range v.Stations {
			s := &v.Stations[k]
			for _, q := range [...]limit{
				{"AtMM", s.AtMM, -1000, 1000, "mm along the vessel"},
				{"AtMM", s.AtMM, before, 1000, "stations must not go back"},
				{"LumenMM", s.LumenMM, 0.2, 12, "diameter of the open lumen in mm"},
				{"DepthMM", s.DepthMM, -200, 200, "mm, positive towards the heart"},
				{"AsideMM", s.AsideMM, -500, 500, "mm"},
				{"BandNPerMM", s.BandNPerMM, 0, 10, "N/mm"},
				{"AnchorNPerMM", s.AnchorNPerMM, 0, 10, "N/mm"},
			} {
				if !q.ok() {
					check(fmt.Sprintf("Vessels[%d].Stations[%d].%s", i, k, q.name), q.v, q.low, q.high, q.fix)
				}
			}
			before = s.AtMM
		}
	}
	return errors.Join(errs...)
}

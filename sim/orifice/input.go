package orifice

import (
	"errors"
	"fmt"
	"math"

	"annuloscope/sim/units"
)

// Bond joins both margins over a width: a clip or a stitch.
type Bond struct {
	Position float64 // centre on the line of coaptation, −1 anterolateral to +1 posteromedial
	WidthMM  float64 // 0 or more
	Hold     float64 // 0 not grasped (no effect) to 1 firm
}

// Input is the valve in mid-diastole.
type Input struct {
	CommissuralMM   float64           // distance between the commissures, the chord of the opening
	SeptalLateralMM float64           // septal-lateral diameter, mid-diastole (places the picture, loads the bonds)
	MarginMM        float64           // perimeter of the free margin, both leaflets; above 2·CommissuralMM
	Intact          units.AnatomicCM2 // opening without bonds, the excursion limit as measured
	Bonds           []Bond            // at most MaxBonds, in any order
}

// ErrInput is wrapped by every error of Validate.
var ErrInput = errors.New("orifice: bad input")

// Validate returns an error naming the field, its value and the allowed range, or nil.
func (in Input) Validate() error {
	check := func(name string, v, low, high float64, fix string) error {
		if !(v >= low && v <= high) { // also catches NaN
			return fmt.Errorf("%w: %s is %g, allowed %.4g to %.4g: %s", ErrInput, name, v, low, high, fix)
		}
		return nil
	}
	errs := []error{
		check("CommissuralMM", in.CommissuralMM, 1, 200, "give the distance between the commissures in mm"),
		check("SeptalLateralMM", in.SeptalLateralMM, 1, 200, "give the mid-diastolic diameter in mm"),
	}
	if errors.Join(errs...) == nil {
		errs = append(errs, check("MarginMM", in.MarginMM, 2*in.CommissuralMM*1.0001, 2000,
			"the margin must be longer than twice the commissural distance"))
	}
	if errors.Join(errs...) == nil {
		most := units.AreaToCM2(MarginLimitMM2(in.CommissuralMM, in.MarginMM/2))
		errs = append(errs, check("Intact", float64(in.Intact), 1e-6*most, (1-1e-9)*most,
			"the margin cannot enclose more; lengthen MarginMM or lower Intact (cm²)"))
	}
	if len(in.Bonds) > MaxBonds {
		errs = append(errs, fmt.Errorf("%w: %d bonds, allowed 0 to %d: remove some", ErrInput, len(in.Bonds), MaxBonds))
	}
	for i, b := range in.Bonds {
		name := fmt.Sprintf("Bonds[%d].", i)
		errs = append(errs,
			check(name+"Position", b.Position, -1, 1, "the line runs from −1 to +1"),
			check(name+"WidthMM", b.WidthMM, 0, 100, "give the bonded width in mm"),
			check(name+"Hold", b.Hold, 0, 1, "0 is not grasped, 1 is firm"))
	}
	return errors.Join(errs...)
}

// ScaleIntact returns the intact opening after the annulus changed: in proportion to septal-lateral × commissural
// diameter, because both the chord and the reach across shrink with the ring. Chosen; no source. mm, all above 0.
func ScaleIntact(intact units.AnatomicCM2, septalLateralBefore, commissuralBefore, septalLateralNow, commissuralNow float64) units.AnatomicCM2 {
	if !(septalLateralBefore > 0 && commissuralBefore > 0) {
		panic("orifice: baseline diameters not above 0")
	}
	share := septalLateralNow * commissuralNow / (septalLateralBefore * commissuralBefore)
	return intact * units.AnatomicCM2(math.Max(share, 0))
}

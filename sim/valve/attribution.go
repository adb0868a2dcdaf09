package valve

import (
	"annuloscope/sim/repair"
	"annuloscope/sim/ring"
)

// Attribution answers "Where did the shortening go?" for a band or rods in the coronary sinus: what the same device
// would do with every cause of loss taken away, what it does, and how much each cause costs. ActualMM plus the millimetres
// of all causes is IdealMM, with no remainder. A negative part is a cause that helps: a short stretch about P2 acts on the
// septal-lateral diameter more than the same shortening spread from trigone to trigone.
type Attribution struct {
	Device       string  `json:"device"`        // sinus-band or sinus-rods
	Order        string  `json:"order"`         // how causes were removed
	ShorteningMM float64 `json:"shortening_mm"` // asked of the band; 0 for rods
	IdealMM      float64 `json:"ideal_mm"`      // septal-lateral fall with every cause removed
	ActualMM     float64 `json:"actual_mm"`     // septal-lateral fall that the device adds as it is
	// TransmittedFraction is ActualMM ÷ IdealMM. Sinus.TransmittedFraction divides by a band on the annulus itself beside
	// the vein as it is; the two references differ by some per cent, because a vein on a rigid wall also stiffens the annulus.
	TransmittedFraction float64     `json:"transmitted_fraction"`
	Causes              []CausePart `json:"causes"` // all five, in the order of ring.Cause
	Solves              int         `json:"solves"`
	Status              string      `json:"status"`
}

// CausePart is what one cause costs.
type CausePart struct {
	Code  string  `json:"code"` // slack, slip, wall, elevation, uncovered
	Name  string  `json:"name"`
	MM    float64 `json:"mm"`    // septal-lateral fall lost to it; negative: gained
	Share float64 `json:"share"` // MM ÷ IdealMM
}

var causeCodes = [ring.Causes]string{ring.Slack: "slack", ring.Slip: "slip", ring.WallGive: "wall", ring.Elevation: "elevation", ring.Uncovered: "uncovered"}

// removalOrder words the order in which causes are removed.
const removalOrder = "mean over all 120 orders of removal"

// leastIdealMM is the septal-lateral fall below which there is nothing to share out, mm. Chosen: a tenth of what is shown.
const leastIdealMM = 0.01

// attribute shares out what the sinus device of a solved state loses on the way, or returns nil where there is none that
// pulls. It is not done where goOn (nil: always) said no.
func attribute(in *ring.Input, goOn func() bool) (why *Attribution, done bool) {
	out := Attribution{Device: string(repair.SinusBand), Order: removalOrder}
	switch {
	case in.Band != nil && in.Band.ShorteningMM > 0 && !in.Band.State.Separated:
		out.ShorteningMM = in.Band.ShorteningMM
	case in.Band == nil && in.Rods != nil:
		out.Device = string(repair.SinusRods)
	default:
		return nil, true
	}
	if goOn == nil {
		goOn = func() bool { return true }
	}
	a, done := ring.AttributeWhile(in, goOn)
	out.IdealMM, out.ActualMM, out.Solves, out.Status = a.IdealMM, a.ActualMM, a.Solves, a.Status.String()
	if !done || a.IdealMM < leastIdealMM {
		return nil, done
	}
	out.TransmittedFraction = a.ActualMM / a.IdealMM
	for c := range ring.Causes {
		out.Causes = append(out.Causes, CausePart{causeCodes[c], c.String(), a.Parts[c], a.Parts[c] / a.IdealMM})
	}
	return &out, true
}

// Cause returns the part with that code; the zero CausePart if there is none.
func (a *Attribution) Cause(code string) CausePart {
	for _, c := range a.Causes {
		if c.Code == code {
			return c
		}
	}
	return CausePart{}
}

// Largest returns the cause that costs most, and whether any costs anything.
func (a *Attribution) Largest() (CausePart, bool) {
	var most CausePart
	for _, c := range a.Causes {
		if c.MM > most.MM {
			most = c
		}
	}
	return most, most.MM > 0
}

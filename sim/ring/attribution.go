package ring

import (
	"math/bits"
	"slices"
)

// Cause is one reason why shortening of a sinus band does not reach the annulus.
type Cause int

const (
	Slack     Cause = iota // slack of the band, straightening inside the lumen
	Slip                   // anchors slipped or migrated
	WallGive               // the atrial wall between vein and annulus yields
	Elevation              // the vein lies above the annulus
	Uncovered              // the band does not span the posterior arc from trigone to trigone, or has left the atrium
	Causes                 // how many there are
)

// String names the cause.
func (c Cause) String() string {
	return [...]string{"slack and straightening", "anchor slip", "wall give", "elevation", "uncovered arc"}[c]
}

// Attribution says where the shortening went. ActualMM + the sum of Parts = IdealMM, with no remainder. A part can be
// negative: shortening a short stretch about P2 acts on the septal-lateral diameter more than the same shortening spread
// from trigone to trigone, so an uncovered arc can help.
type Attribution struct {
	ActualMM float64         // septal-lateral loss as it is, mm
	IdealMM  float64         // with every cause removed, mm
	Parts    [Causes]float64 // loss that removing each cause would win back, averaged over all orders (Shapley), mm
	Status   Status          // worst of all solves
	Solves   int
}

// Attribute re-solves in with every combination of causes removed (32 equilibria when all are present, of the order of 0.1 s) and shares
// the difference among the causes by the mean over all orders of removal. A cause that is absent gets exactly zero.
//
// Removing a cause means: Slack, no slack and no clearance; Slip, anchors where they were placed (slip is frozen as the
// solve of in found it, so that removing another cause does not start new slip); WallGive, the wall is rigid; Elevation,
// the vein is lowered to the annulus at the same radial distance; Uncovered, vein and band run on to both trigones at
// the distance and elevation they have at the anchors, on the atrium all the way.
//
// It panics if in has no band.
func Attribute(in *Input) Attribution {
	if in.Band == nil {
		panic("ring: Attribute needs a band")
	}
	var plain, covered Solver
	var r Result
	plain.Solve(in, &r)
	out := Attribution{Status: r.Status, Solves: 1}
	frozen, band := *in, *in.Band
	band.State = r.Band.State
	band.TensionN = heldTension(in.Band)
	band.ProximalGripN, band.DistalGripN = 0, 0
	frozen.Band = &band
	full, grown := coverPosterior(&frozen)
	present := presentCauses(&frozen, in.Band.TensionN)
	if grown {
		present |= 1 << Uncovered
	}
	var value [1 << Causes]float64
	for k := range value {
		gray := k ^ k>>1 // neighbours differ by one cause: warm starts stay close
		if gray&^present != 0 {
			continue
		}
		solver, base := &plain, &frozen
		if gray&(1<<Uncovered) != 0 {
			solver, base = &covered, &full
		}
		state := without(base, in.Band.TensionN, gray)
		solver.Solve(&state, &r)
		out.Status = max(out.Status, r.Status)
		out.Solves++
		value[gray] = r.SeptalLateralLoss()
	}
	for set := range value {
		value[set] = value[set&present]
	}
	out.ActualMM, out.IdealMM = value[0], value[len(value)-1]
	out.Parts = shapley(&value)
	return out
}

// shapley averages the marginal change of every cause over all orders.
func shapley(value *[1 << Causes]float64) (parts [Causes]float64) {
	weight := [Causes]float64{1. / 5, 1. / 20, 1. / 30, 1. / 20, 1. / 5} // k!(4−k)!/5!
	for c := range Causes {
		for set := range value {
			if set&(1<<c) == 0 {
				parts[c] += weight[bits.OnesCount(uint(set))] * (value[set|1<<c] - value[set])
			}
		}
	}
	return parts
}

// presentCauses is the set of causes (all but Uncovered) that have something to remove.
func presentCauses(in *Input, askedTension float64) (set int) {
	b := in.Band
	if b.SlackMM > 0 || slices.ContainsFunc(in.Vein.Clearance, func(c float64) bool { return c != 0 }) {
		set |= 1 << Slack
	}
	if b.State.ProximalShiftMM != 0 || b.State.DistalShiftMM != 0 || b.TensionN != askedTension {
		set |= 1 << Slip
	}
	if !in.Constants.WallRigid {
		set |= 1 << WallGive
	}
	if slices.ContainsFunc(in.Vein.Elevation, func(e float64) bool { return e != 0 }) {
		set |= 1 << Elevation
	}
	return set
}

// without removes the causes of the set (all but Uncovered, which is a different vein) from in.
func without(in *Input, askedTension float64, set int) Input {
	out, band := *in, *in.Band
	if set&(1<<Slack) != 0 {
		band.SlackMM, out.Vein.Clearance = 0, nil
	}
	if set&(1<<Slip) != 0 {
		band.State.ProximalShiftMM, band.State.DistalShiftMM = 0, 0
		band.TensionN = askedTension
	}
	if set&(1<<WallGive) != 0 {
		out.Constants.WallRigid = true
	}
	if set&(1<<Elevation) != 0 {
		out.Vein = lowered(&out.Annulus, &out.Vein)
	}
	out.Band = &band
	return out
}

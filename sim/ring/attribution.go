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

// Attribute re-solves in with every combination of causes removed (32 equilibria when all are present, of the order of
// 0.1 s) and shares the difference among the causes by the mean over all orders of removal. A cause that is absent gets
// exactly zero. Without a band it does the same for the rods, which have neither slack nor anchors and whose stretch is their
// own: run on from trigone to trigone, more than half round, straight rods would push the trigones apart. Where other
// devices or loads act too, the loss is the one the device adds to theirs, in each combination.
//
// Removing a cause means: Slack, no slack and no clearance; Slip, anchors where they were placed (slip is frozen as the
// solve of in found it, so that removing another cause does not start new slip); WallGive, the wall is rigid; Elevation,
// the vein is lowered to the annulus at the same radial distance; Uncovered, vein and band run on to both trigones at
// the distance and elevation they have at the anchors, on the atrium all the way.
//
// It panics if in has neither a band nor rods.
func Attribute(in *Input) Attribution {
	a, _ := AttributeWhile(in, func() bool { return true })
	return a
}

// AttributeWhile is Attribute that asks goOn before every equilibrium and gives up, with done false, when it says no.
func AttributeWhile(in *Input, goOn func() bool) (out Attribution, done bool) {
	if in.Band == nil && in.Rods == nil {
		panic("ring: Attribute needs a band or rods")
	}
	a := attributor{others: in.others()}
	frozen, full, grown, asked := *in, Input{}, false, 0.0
	if in.Band != nil {
		var s Solver
		var r Result
		s.Solve(in, &r)
		a.status, a.solves = r.Status, 1
		band := *in.Band
		asked = band.TensionN
		band.State, band.TensionN = r.Band.State, heldTension(in.Band)
		band.ProximalGripN, band.DistalGripN = 0, 0
		frozen.Band = &band
		full, grown = coverPosterior(&frozen)
	}
	present := presentCauses(&frozen, asked)
	if grown {
		present |= 1 << Uncovered
	}
	var value [1 << Causes]float64
	for k := range value {
		gray := k ^ k>>1 // neighbours differ by one cause: warm starts stay close
		if gray&^present != 0 {
			continue
		}
		if !goOn() {
			return Attribution{}, false
		}
		base := &frozen
		if gray&(1<<Uncovered) != 0 {
			base = &full
		}
		state := without(base, asked, gray)
		value[gray] = a.gain(&state, gray)
	}
	for set := range value {
		value[set] = value[set&present]
	}
	return Attribution{ActualMM: value[0], IdealMM: value[len(value)-1], Parts: shapley(&value), Status: a.status, Solves: a.solves}, true
}

// Ideal is in with every cause removed: no slack, anchors as placed and holding, a rigid wall, the vein level with the
// annulus and, with a band, cover from trigone to trigone.
func Ideal(in *Input) Input {
	out := *in
	asked := 0.0
	if in.Band != nil {
		band := *in.Band
		asked = band.TensionN
		band.ProximalGripN, band.DistalGripN = 0, 0
		out.Band = &band
		out, _ = coverPosterior(&out)
	}
	return without(&out, asked, 1<<Causes-1)
}

// attributor solves the combinations of causes, warm from one to the next.
type attributor struct {
	others       bool
	device, bare [2]Solver // as it is, covered
	known        [1 << Causes]bool
	loss         [1 << Causes]float64
	result       Result
	status       Status
	solves       int
}

// gain is the septal-lateral loss that the device of state adds, mm.
func (a *attributor) gain(state *Input, set int) float64 {
	which := set >> Uncovered & 1
	with := a.solve(&a.device[which], state)
	if !a.others {
		return with
	}
	set &^= 1<<Slack | 1<<Slip // nothing of these is left without the device
	if !a.known[set] {
		plain := *state
		if plain.Band != nil {
			plain.Band = nil
		} else {
			plain.Rods = nil
		}
		a.known[set], a.loss[set] = true, a.solve(&a.bare[which], &plain)
	}
	return with - a.loss[set]
}

func (a *attributor) solve(s *Solver, in *Input) float64 {
	s.Solve(in, &a.result)
	a.status = max(a.status, a.result.Status)
	a.solves++
	return a.result.SeptalLateralLoss()
}

// others tells whether anything but the sinus band, or without a band the rods, acts on the annulus.
func (in *Input) others() bool {
	return in.Band != nil && in.Rods != nil || in.Posterior != nil || in.FullRing != nil || len(in.Ties) > 0 || len(in.Loads) > 0 || in.Annulus.Shift != nil
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
	if b := in.Band; b != nil {
		// A band held at a tension draws in whatever slack there is.
		if b.TensionN == 0 && (b.SlackMM > 0 || slices.ContainsFunc(in.Vein.Clearance, func(c float64) bool { return c != 0 })) {
			set |= 1 << Slack
		}
		if b.State.ProximalShiftMM != 0 || b.State.DistalShiftMM != 0 || b.TensionN != askedTension {
			set |= 1 << Slip
		}
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
	out := *in
	if in.Band != nil {
		band := *in.Band
		if set&(1<<Slack) != 0 {
			band.SlackMM, out.Vein.Clearance = 0, nil
		}
		if set&(1<<Slip) != 0 {
			band.State.ProximalShiftMM, band.State.DistalShiftMM = 0, 0
			band.TensionN = askedTension
		}
		out.Band = &band
	}
	if set&(1<<WallGive) != 0 {
		out.Constants.WallRigid = true
	}
	if set&(1<<Elevation) != 0 {
		out.Vein = lowered(&out.Annulus, &out.Vein)
	}
	return out
}

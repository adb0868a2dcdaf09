package artery

import "fmt"

// Risk is a class for teaching, not a prediction for a person.
type Risk int

// The classes, in rising order.
const (
	Low Risk = iota
	Possible
	Likely
)

// String returns low, possible or likely.
func (r Risk) String() string {
	switch r {
	case Low:
		return "low"
	case Possible:
		return "possible"
	case Likely:
		return "likely"
	}
	return fmt.Sprintf("Risk(%d)", int(r))
}

// RiskRule is the rule in words, for the screen. The thresholds are chosen; constants.go says what supports them.
const RiskRule = "likely: worst-view narrowing of 50 % or more, or less than 63 % of the flow reserve left, or closed; " +
	"possible: narrowing of 25 % or more, or less than 90 % of the reserve left, or less than 1 mm between a loaded " +
	"vein and the lumen; low: none of these. Thresholds chosen for teaching."

func riskOf(v VesselResult, closeVeinNPerMM float64) Risk {
	left := v.FlowReserve / v.OpenReserve
	switch {
	case v.Occluded || v.WorstViewPct >= likelyNarrowing || left < likelyReserve:
		return Likely
	case v.WorstViewPct >= possibleNarrowing || left < possibleReserve || closeVeinNPerMM >= loadedNPerMM:
		return Possible
	}
	return Low
}

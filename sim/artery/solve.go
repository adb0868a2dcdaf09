package artery

import (
	"math"

	"annuloscope/sim/units"
)

// StationResult is the lumen at one station.
type StationResult struct {
	AtMM           float64
	Lumen          Flattened
	WorstViewPct   float64 // narrowing of the diameter seen along the flat side
	BestViewPct    float64 // narrowing seen at right angles; negative: it looks wider than it was
	AreaLossPct    float64 // of the ellipse
	AreaLossLowPct float64 // of the stadium of the same minor radius
	ClearanceMM    float64 // contact line to lumen wall; negative when the line would lie inside the lumen
	VeinNPerMM     float64 // band + anchor force on the vein
	ContactNPerMM  float64 // what of it reaches the artery
	BandPct        float64 // parts of WorstViewPct; they add up to it
	AnchorPct      float64
	BandNPerMM     float64 // parts of ContactNPerMM
	AnchorNPerMM   float64
	BandShare      Share
	AnchorShare    Share
	Occluded       bool
}

// Parts is what anchors and band each do at the worst station.
type Parts struct {
	AnchorPct    float64 // of WorstViewPct; the two add up to it
	BandPct      float64
	AnchorNPerMM float64 // force on the artery
	BandNPerMM   float64
}

// VesselResult sums a vessel up.
type VesselResult struct {
	Name           string
	Stations       []StationResult
	Worst          int     // index of the station with the largest narrowing in the worst view
	MinClearanceMM float64 // over all stations
	ContactNPerMM  float64 // largest over all stations
	WorstViewPct   float64 // of the worst station, as the next three
	BestViewPct    float64
	AreaLossPct    float64
	AreaLossLowPct float64
	Flow           Flow
	FlowReserve    float64
	OpenReserve    float64 // reserve of the unnarrowed vessel
	From           Parts   // of WorstViewPct
	BandAlone      Alone   // the same vessel with the anchors taken away
	AnchorAlone    Alone   // the same vessel with the band slack
	Occluded       bool
	Risk           Risk
}

// Alone is a vessel under one cause alone.
type Alone struct {
	WorstViewPct float64
	FlowReserve  float64
	Risk         Risk
}

// Report is the answer of Solve.
type Report struct {
	Vessels []VesselResult // as given
	Worst   int            // index of the vessel with the highest risk, then the largest narrowing; −1 without vessels
}

// Solve squeezes every vessel. The error is that of Input.Validate.
func Solve(in Input) (Report, error) {
	if err := in.Validate(); err != nil {
		return Report{}, err
	}
	r := Report{Worst: -1}
	for i, v := range in.Vessels {
		res := squeeze(in, v, 1, 1)
		res.BandAlone = alone(squeeze(in, v, 1, 0))
		res.AnchorAlone = alone(squeeze(in, v, 0, 1))
		r.Vessels = append(r.Vessels, res)
		if r.Worst < 0 || worse(res, r.Vessels[r.Worst]) {
			r.Worst = i
		}
	}
	return r, nil
}

func worse(a, b VesselResult) bool {
	return a.Risk > b.Risk || a.Risk == b.Risk && a.WorstViewPct > b.WorstViewPct
}

func alone(v VesselResult) Alone { return Alone{v.WorstViewPct, v.FlowReserve, v.Risk} }

// squeeze solves one vessel with the band and anchor forces multiplied (0 or 1).
func squeeze(in Input, v Vessel, band, anchor float64) VesselResult {
	res := VesselResult{Name: v.Name, MinClearanceMM: math.Inf(1)}
	lumens := make([]Flattened, len(v.Stations))
	vein := 0.0
	for i, s := range v.Stations {
		st := station(in, s, band, anchor)
		res.Stations, lumens[i] = append(res.Stations, st), st.Lumen
		res.MinClearanceMM = math.Min(res.MinClearanceMM, st.ClearanceMM)
		res.ContactNPerMM = math.Max(res.ContactNPerMM, st.ContactNPerMM)
		res.Occluded = res.Occluded || st.Occluded
		if st.ClearanceMM < possibleClearance {
			vein = math.Max(vein, st.VeinNPerMM)
		}
		if st.WorstViewPct > res.Stations[res.Worst].WorstViewPct {
			res.Worst = i
		}
	}
	w := res.Stations[res.Worst]
	res.WorstViewPct, res.BestViewPct, res.AreaLossPct, res.AreaLossLowPct = w.WorstViewPct, w.BestViewPct, w.AreaLossPct, w.AreaLossLowPct
	res.From = Parts{w.AnchorPct, w.BandPct, w.AnchorNPerMM, w.BandNPerMM}
	bed := v.Bed.filled(v.Stations[0].LumenMM)
	res.Flow = seriesFlow(flattenedDrop(v.Stations, lumens), in.PressureMMHg, bed)
	res.FlowReserve, res.OpenReserve = res.Flow.Reserve, bed.Dilation
	res.Risk = riskOf(res, vein)
	return res
}

func station(in Input, s Station, band, anchor float64) StationResult {
	radius := s.LumenMM / 2
	r := StationResult{AtMM: s.AtMM, BandShare: BandShare(s, in.Tissue), AnchorShare: AnchorShare(s, in.Tissue),
		ClearanceMM: math.Hypot(s.DepthMM, s.AsideMM) - radius}
	fromBand, fromAnchor := band*s.BandNPerMM*r.BandShare.Artery, anchor*s.AnchorNPerMM*r.AnchorShare.Artery
	r.VeinNPerMM = band*s.BandNPerMM + anchor*s.AnchorNPerMM
	r.ContactNPerMM, r.BandNPerMM, r.AnchorNPerMM = fromBand+fromAnchor, fromBand, fromAnchor
	holds := units.PressureFromMMHg(in.PressureMMHg) + wallPressure(in.Tissue.filled())
	x, occluded := minorRadius(r.ContactNPerMM, holds, radius)
	r.Lumen, r.Occluded = Flatten(x), occluded
	r.WorstViewPct = 100 * (1 - x)
	r.BestViewPct = 100 * (1 - r.Lumen.Major)
	r.AreaLossPct = 100 * (1 - r.Lumen.Area)
	r.AreaLossLowPct = 100 * (1 - r.Lumen.StadiumArea)
	if r.ContactNPerMM > 0 {
		r.BandPct = r.WorstViewPct * fromBand / r.ContactNPerMM
		r.AnchorPct = r.WorstViewPct * fromAnchor / r.ContactNPerMM
	}
	return r
}

package valve

import "math"

// where gives v where ok, else NaN.
func where(ok bool, v float64) float64 {
	if ok {
		return v
	}
	return math.NaN()
}

const (
	midSystole  = "mid-systole"
	midDiastole = "mid-diastole"
	wholeBeat   = "whole beat"
)

var annulusQuantities = []Quantity{
	{"annulus.septal_lateral_mm", "Septal-lateral diameter", "mm", 1, Lower, "Width of the annulus from A2 to P2", midSystole,
		"distance of the two points along the aorta-posterior axis", "saddle contour, aorto-mitral part included", "S01",
		func(s *State) float64 { return s.Annulus.SeptalLateralMM }},
	{"annulus.commissural_mm", "Commissural diameter", "mm", 1, Neutral, "Width of the annulus from commissure to commissure", midSystole,
		"distance of the two commissures", "saddle contour", "S01", func(s *State) float64 { return s.Annulus.CommissuralMM }},
	{"annulus.perimeter_mm", "Annulus perimeter", "mm", 1, Neutral, "Length once round the annulus in space", midSystole,
		"sum of the chords of the solved ring", "128 nodes", "S01", func(s *State) float64 { return s.Annulus.PerimeterMM }},
	{"annulus.area_cm2", "Annulus area", "cm²", 2, Neutral, "Area of the annulus projected on its best-fit plane", midSystole,
		"shoelace formula of the projected ring", "projected, not the curved surface", "S01",
		func(s *State) float64 { return float64(s.Annulus.AreaCM2) }},
	{"annulus.height_mm", "Saddle height", "mm", 1, Neutral, "Height of the saddle across its best-fit plane", midSystole,
		"highest minus lowest point", "", "S01", func(s *State) float64 { return s.Annulus.HeightMM }},
	{"annulus.height_ratio", "Height over commissural width", "%", 1, Neutral, "How saddle-shaped the annulus is", midSystole,
		"100 × height ÷ commissural diameter", "", "S03", func(s *State) float64 { return 100 * s.Annulus.HeightRatio }},
}

var closureQuantities = []Quantity{
	{"coaptation.contact_mm.mean", "Contact length, mean", "mm", 1, Higher, "Length over which the closed leaflets touch, averaged along the line", midSystole,
		"mean of max(0, overlap) with the fitted unevenness", "between the commissures", "S21", func(s *State) float64 { return s.Coaptation.ContactMM.Mean }},
	{"coaptation.contact_mm.a2p2", "Contact length at A2-P2", "mm", 1, Higher, "Contact in the middle of the line", midSystole,
		"as above, at the middle station", "", "S21", func(s *State) float64 { return s.Coaptation.ContactMM.A2P2 }},
	{"coaptation.gap_mm.max", "Largest gap", "mm", 1, Lower, "Widest place where the edges do not meet", midSystole,
		"largest of max(0, −overlap)", "", "", func(s *State) float64 { return s.Coaptation.GapMM.Max }},
	{"coaptation.depth_mm", "Coaptation depth", "mm", 1, Lower, "How far below the annulus line the leaflets meet", midSystole,
		"height of the septal-lateral line over the meeting point at A2-P2", "long-axis section", "S21", func(s *State) float64 { return s.Coaptation.DepthMM }},
	{"coaptation.tenting_area_cm2", "Tenting area", "cm²", 2, Lower, "Area between leaflets and annulus line", midSystole,
		"area below the septal-lateral line in the A2-P2 section", "long-axis section", "S22, S29", func(s *State) float64 { return s.Coaptation.TentingAreaCM2 }},
	{"coaptation.tenting_volume_ml", "Tenting volume", "mL", 2, Lower, "Volume between leaflets and annulus", midSystole,
		"sum of the sections' tenting areas", "", "S01", func(s *State) float64 { return s.Coaptation.TentingVolumeML }},
	{"coaptation.billowing_mm", "Billowing height", "mm", 1, Lower, "Highest leaflet point above the annulus line", midSystole,
		"largest height over the septal-lateral line", "", "S33", func(s *State) float64 { return s.Coaptation.BillowingMM }},
	{"coaptation.flail_gap_mm", "Flail gap", "mm", 1, Lower, "Distance from a free edge to the other leaflet", midSystole,
		"free tip to the opposite leaflet", "none without torn or long chords", common, func(s *State) float64 {
			return where(s.Coaptation.FlailWidthMM > 0, s.Coaptation.FlailGapMM)
		}},
}

const common = "common practice, no source"

var leakQuantities = []Quantity{
	{"regurgitation.effective_orifice_cm2", "Leak: effective orifice", "cm²", 2, Lower, "Narrowest cross-section of the leaking jet", midSystole,
		"contraction coefficient × leaking area", "see the interval", "physics.md B3", func(s *State) float64 { return float64(s.Regurgitation.EffectiveOrificeCM2) }},
	{"regurgitation.effective_orifice_time_mean_cm2", "Leak: effective orifice, mean over systole", "cm²", 2, Lower, "The same averaged over systole", "systole",
		"time mean of the course of the orifice", "", "S01 for the course", func(s *State) float64 { return float64(s.Regurgitation.EffectiveOrificeMeanCM2) }},
	{"regurgitation.effective_orifice_peak_cm2", "Leak: effective orifice, peak", "cm²", 2, Lower, "Largest effective orifice in systole", "systole",
		"peak of the course of the orifice", "the course is that of the case's mechanism; not of one person", "S01 for the course", func(s *State) float64 { return float64(s.Regurgitation.EffectiveOrificePeakCM2) }},
	{"regurgitation.anatomic_orifice_cm2", "Leak: anatomic orifice", "cm²", 2, Lower, "Area of the hole itself", midSystole,
		"sum of the gaps along the line", "", "", func(s *State) float64 { return float64(s.Regurgitation.AnatomicOrificeCM2) }},
	{"regurgitation.volume_ml", "Leak volume a beat", "mL", 0, Lower, "Blood that flows back in one beat", "systole",
		"effective orifice × jet speed × time", "", "physics.md B", func(s *State) float64 { return s.Regurgitation.VolumeML }},
	{"regurgitation.fraction", "Leak fraction", "%", 0, Lower, "Share of the heart's stroke that leaks back", wholeBeat,
		"100 × leak volume ÷ total stroke", "", "physics.md B3", func(s *State) float64 { return 100 * s.Regurgitation.Fraction }},
}

var openingQuantities = []Quantity{
	{"opening.anatomic_area_cm2", "Opening area", "cm²", 2, Higher, "Area of the open valve as planimetry sees it, all orifices together", midDiastole,
		"sum of the drawn outlines", "", "physics.md A3", func(s *State) float64 { return float64(s.Opening.AnatomicAreaCM2) }},
	{"opening.effective_area_cm2", "Opening: effective area", "cm²", 2, Higher, "Narrowest cross-section of the inflow", midDiastole,
		"contraction coefficient × opening area", "", "physics.md A1", func(s *State) float64 { return float64(s.Opening.EffectiveAreaCM2) }},
	{"opening.mean_gradient_mmhg", "Mean gradient", "mmHg", 1, Lower, "Mean pressure difference across the open valve", "filling",
		"orifice equation averaged over filling", "", "physics.md A1, A3", func(s *State) float64 { return s.Opening.MeanGradientMMHg }},
}

var vesselQuantities = []Quantity{
	{"sinus.tension_n", "Band tension", "N", 1, Neutral, "Pull in the tether or band", midSystole,
		"stiffness of the tether × its stretch, in balance with the tissue", "", "S45", func(s *State) float64 { return where(s.Sinus.ShorteningMM > 0, s.Sinus.TensionN) }},
	{"sinus.shortening_mm", "Shortening reached", "mm", 1, Neutral, "How much shorter the path between the anchors became", midSystole,
		"rest length minus solved length", "", "", func(s *State) float64 { return where(s.Sinus.ShorteningMM > 0, s.Sinus.ShorteningMM) }},
	{"sinus.transmitted_fraction", "Transmitted to the annulus", "%", 0, Higher, "Septal-lateral change against the same band on the annulus itself", midSystole,
		"100 × change by the sinus band ÷ change by the band on the annulus over its posterior arc", "", "", func(s *State) float64 {
			return where(s.Sinus.ShorteningMM > 0, 100*s.Sinus.TransmittedFraction)
		}},
	{"artery.min_clearance_mm", "Artery: least clearance", "mm", 1, Higher, "Soft tissue left between device and artery", midSystole,
		"least distance of the two walls", "", common, func(s *State) float64 { return s.Artery.MinClearanceMM }},
	{"artery.worst_view_narrowing_pct", "Artery: narrowing, worst view", "%", 0, Lower, "Loss of diameter in the view that shows it most", midSystole,
		"1 − short axis ÷ round diameter", "flattened at constant perimeter", "physics.md F", func(s *State) float64 { return s.Artery.WorstViewNarrowing }},
	{"artery.area_loss_pct", "Artery: loss of area", "%", 0, Lower, "Loss of open cross-section", midSystole,
		"1 − flattened area ÷ round area", "", "physics.md F", func(s *State) float64 { return s.Artery.AreaLoss }},
	{"artery.flow_reserve", "Artery: flow reserve", "", 1, Higher, "How many times resting flow can rise", wholeBeat,
		"bed and flattened lumen in series", "", "physics.md F", func(s *State) float64 { return s.Artery.FlowReserve }},
}

var beatQuantities = []Quantity{
	{"beat.forward_sv_ml", "Forward stroke", "mL", 0, Higher, "Blood sent to the body each beat", wholeBeat, "total stroke − leak", "", "physics.md C3",
		func(s *State) float64 { return s.Beat.ForwardSVML }},
	{"beat.edv_ml", "End-diastolic volume", "mL", 0, Neutral, "Fullest volume of the left ventricle", "end of filling", "", "", "physics.md C3",
		func(s *State) float64 { return s.Beat.EDVML }},
	{"beat.esv_ml", "End-systolic volume", "mL", 0, Neutral, "Least volume of the left ventricle", "end of ejection", "", "", "physics.md C3",
		func(s *State) float64 { return s.Beat.ESVML }},
	{"beat.ef", "Ejection fraction", "%", 0, Neutral, "Share of the volume ejected, forward and back", wholeBeat, "100 × (EDV − ESV) ÷ EDV", "counts the leak as ejected", "physics.md C3",
		func(s *State) float64 { return 100 * s.Beat.EF }},
	{"beat.la_mean_mmhg", "Left atrial pressure, mean", "mmHg", 0, Lower, "Mean pressure in the left atrium", wholeBeat, "", "", "physics.md H",
		func(s *State) float64 { return s.Beat.LAMeanMMHg }},
	{"beat.la_v_mmhg", "Left atrial v wave", "mmHg", 0, Lower, "Peak pressure of atrial filling", "end of systole", "", "", "physics.md H",
		func(s *State) float64 { return s.Beat.LAVMMHg }},
}

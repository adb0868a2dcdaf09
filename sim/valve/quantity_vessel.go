package valve

// vesselDetailQuantities tell device and artery apart: where the whole of vesselQuantities comes from.
var vesselDetailQuantities = []Quantity{
	{"sinus.slip_mm", "Anchor slip", "mm", 1, Lower, "Vein that an anchor has slid past since it was placed", midSystole,
		"rest length of vein no longer between the anchors", "an anchor never slides back", common, func(s *State) float64 { return where(s.Sinus.SlipMM > 0, s.Sinus.SlipMM) }},
	{"sinus.max_contact_n_per_mm", "Greatest push on the vein", "N/mm", 3, Neutral, "Force per length with which band or rods press on the wall of the vein", midSystole,
		"tension × curvature, or the rods' bending force", "", "physics.md D6", func(s *State) float64 { return where(s.Sinus.MaxContactNPerMM > 0, s.Sinus.MaxContactNPerMM) }},
	{"artery.best_view_narrowing_pct", "Artery: narrowing, best view", "%", 0, Neutral, "The same in the view at right angles; below zero the flattened artery looks wider than it was", midSystole,
		"1 − long axis ÷ round diameter", "why one angiogram may miss it", "physics.md F", func(s *State) float64 { return where(s.Artery.ContactNPerMM > 0, s.Artery.BestViewNarrowing) }},
	{"artery.band_alone_pct", "Artery: narrowing by the band or rods alone", "%", 0, Lower, "Worst-view narrowing with the anchors' push taken away", midSystole,
		"the artery solved again without the anchors", "", "physics.md F", func(s *State) float64 { return where(s.Artery.ContactNPerMM > 0, s.Artery.BandAlone) }},
	{"artery.anchor_alone_pct", "Artery: narrowing by the anchors alone", "%", 0, Lower, "Worst-view narrowing with the band slack", midSystole,
		"the artery solved again without the band", "", "physics.md F", func(s *State) float64 { return where(s.Artery.ContactNPerMM > 0, s.Artery.AnchorAlone) }},
	{"artery.branch_worst_view_narrowing_pct", "Branches: narrowing, worst view", "%", 0, Lower, "Worst-view narrowing of the marginal and diagonal branch, the larger of the two", midSystole,
		"as for the circumflex", "only branches that are stated", "physics.md F, S66", func(s *State) float64 { return where(s.Artery.BranchWorstNarrowing > 0, s.Artery.BranchWorstNarrowing) }},
}

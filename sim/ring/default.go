package ring

// Default returns the calibrated constants.
func Default() Constants {
	return Constants{
		AnnulusTension: 30, AnnulusCompression: 0.8771697, AnnulusBending: 60,
		FibrousAxial: 1000, FibrousBending: 3000, FibrousFoundation: 0.5,
		FoundationSeptal: 0.002231965, FoundationCommissural: 0.03490293,
		VeinTension: 5, VeinCompression: 0.5, VeinBending: 5,
		Groove: 0.003, GrooveTangent: 0.02,
		WallMembrane: 0.5019994, WallShear: 0.1673331, WallTransverse: 0.05019994,
		BandStiffness: 50, AnchorLength: 12,
	}
}

package leaflet

// standard is the default valve with its annulus brought to a septal-lateral diameter of sl mm.
func standard(sl float64) Input {
	in := NewInput(NewAnatomy(EllipseAnnulus(28, 38, 6, 128)))
	in.Annulus = EllipseAnnulus(sl, 38, 6, 128)
	return in
}

// opened is the same in mid-diastole at p mmHg.
func opened(sl, mmHg float64, bonds ...Bond) Input {
	in := standard(sl)
	in.Phase, in.PressureNMM2, in.Bonds = Diastole, mmHg*133.322e-6, bonds
	return in
}

package repair

// LaterSource is what stands behind ClosesOff.
func (s Spec) LaterSource() string {
	switch s.Kind {
	case EdgeClip:
		return "opening: physics.md A3 (S2: 6.0 → 3.6 cm²); the rest " + common
	case EdgeStitch:
		return "two openings: physics.md A2 (S1, S4); the rest " + common
	}
	return common
}

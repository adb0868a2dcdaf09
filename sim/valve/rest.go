package valve

import (
	"annuloscope/sim/anatomy"

	"gonum.org/v1/gonum/spatial/r3"
)

// Rest is a patient's geometry at rest in mid-systole, before any repair, from the case's numbers alone: nothing is solved.
// mm, the valve's frame; slices of the vein and of the artery have one entry a node.
type Rest struct {
	Annulus []r3.Vec // equal arc length, counter-clockwise seen from the atrium, from the posteromedial commissure

	Vein                        []r3.Vec // from the mouth
	VeinStation, VeinRadius     []float64
	VeinDistance, VeinElevation []float64 // outward from the annulus in plan (0 where it overlaps it), and towards the atrium

	ArteryFirst int // the vein node of the first node of the artery; the others follow one to one
	Artery      []r3.Vec
	ArteryGap   []float64 // soft tissue between the walls of vein and artery
	ArteryAside []float64 // angle at the vein's inner wall between the way to the annulus and the way to the artery, radians
}

// RestOf returns the geometry of a patient at rest. The error is a *fault.Field that names the numbers that make no shape.
func RestOf(p *anatomy.Patient) (Rest, error) {
	s, err := newShape(p)
	if err != nil {
		return Rest{}, err
	}
	b := &baseline{patient: *p}
	line := s.arteryBeside(b, s.vein.Rest, s.rest)
	r := Rest{Annulus: s.rest, Vein: s.vein.Rest, VeinStation: s.vein.Station, VeinRadius: s.veinRadius,
		VeinDistance: s.vein.Distance, VeinElevation: s.vein.Elevation, ArteryFirst: line.first, Artery: line.points}
	for i := range line.points {
		gap, psi := s.placement(b, s.vein.Station[line.first+i])
		r.ArteryGap, r.ArteryAside = append(r.ArteryGap, gap), append(r.ArteryAside, psi)
	}
	return r, nil
}

package valve

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/sim/artery"
	"annuloscope/sim/ring"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	edgeMM         = 3.0   // over which the artery leaves the vein's side
	asideDeg       = 100.0 // where it lies away from its deep stretch: beside the vein and slightly to its outer side
	branchHalfMM   = 4.0   // half-length of a branch under the vein
	anchorEdgeMM   = 1.0
	arteryBranches = 2
)

// arteryLine is the circumflex beside the vein, node by node of the vein from where it ends (arteryFrom) on.
type arteryLine struct {
	first  int
	points []r3.Vec
}

// placement returns, at a station, the soft tissue between vein wall and artery wall and the angle between the
// direction to the annulus and the direction to the artery, seen from the vein's inner wall.
func (s *shape) placement(b *baseline, station float64) (gap, psi float64) {
	a := b.patient.Artery
	deep := deepShare(b, station)
	gap = a.SeparationMM + (a.SuperficialMM-a.SeparationMM)*(1-deep)
	return gap, (1 - deep) * asideDeg * math.Pi / 180
}

// deepShare is 1 where the artery lies between vein and annulus, 0 where beside the vein.
func deepShare(b *baseline, station float64) float64 {
	return softBox(station, b.patient.Artery.DeepFromMM, b.patient.Artery.DeepToMM, edgeMM)
}

// arteryBeside lays the circumflex beside a vein (rest or deformed) and an annulus.
func (s *shape) arteryBeside(b *baseline, vein, annulus []r3.Vec) arteryLine {
	var line arteryLine
	lumen, from := b.patient.Artery.DiameterMM/2, arteryFrom(b.patient.Dominance)
	for i, v := range vein {
		if s.vein.Station[i] < from {
			line.first = i + 1
			continue
		}
		heart := s.towardsAnnulus(i, v, annulus)
		down := r3.Vec{Z: -1}
		aside := r3.Sub(down, r3.Scale(r3.Dot(down, heart), heart))
		if n := r3.Norm(aside); n > 1e-9 {
			aside = r3.Scale(1/n, aside)
		}
		gap, psi := s.placement(b, s.vein.Station[i])
		inner := r3.Add(v, r3.Scale(s.veinRadius[i], heart))
		reach := gap + lumen
		line.points = append(line.points, r3.Add(inner, r3.Add(r3.Scale(reach*math.Cos(psi), heart), r3.Scale(reach*math.Sin(psi), aside))))
	}
	return line
}

// towardsAnnulus is the unit vector from a vein node to its place on the annulus.
func (s *shape) towardsAnnulus(i int, v r3.Vec, annulus []r3.Vec) r3.Vec {
	d := r3.Sub(s.partnerOf(i, annulus), v)
	if l := r3.Norm(d); l > 1e-9 {
		return r3.Scale(1/l, d)
	}
	return r3.Vec{Z: -1}
}

// squeeze asks sim/artery what the device does to the circumflex and its branches. contact is the band's force per
// length at each vein node (N/mm), or nil; pressure is the mean arterial pressure in mmHg.
func (s *shape) squeeze(b *baseline, p *plan, contact []float64, pressure float64) (artery.Report, error) {
	a := b.patient.Artery
	from := arteryFrom(b.patient.Dominance)
	force := func(i int) (band, anchor float64) {
		if contact != nil {
			band = contact[i]
		}
		return band, s.anchorForce(p, s.vein.Station[i])
	}
	main := artery.Vessel{Name: mainVessel}
	var branches [arteryBranches]artery.Vessel
	branches[0].Name, branches[1].Name = "marginal branch", "diagonal branch"
	for i, at := range s.vein.Station {
		band, anchor := force(i)
		if at >= from {
			gap, psi := s.placement(b, at)
			reach := gap + a.DiameterMM/2
			main.Stations = append(main.Stations, artery.Station{AtMM: at, LumenMM: a.DiameterMM, DepthMM: reach * math.Cos(psi),
				AsideMM: reach * math.Sin(psi), BandNPerMM: band, AnchorNPerMM: anchor})
		}
		for k, where := range [arteryBranches]float64{a.MarginalMM, a.DiagonalMM} {
			if where > 0 && math.Abs(at-where) <= branchHalfMM {
				branches[k].Stations = append(branches[k].Stations, artery.Station{AtMM: at, LumenMM: a.BranchMM,
					DepthMM: a.SeparationMM + a.BranchMM/2, BandNPerMM: band, AnchorNPerMM: anchor})
			}
		}
	}
	in := artery.Input{Vessels: []artery.Vessel{main}, PressureMMHg: pressure}
	for _, v := range branches {
		if len(v.Stations) > 0 {
			in.Vessels = append(in.Vessels, v)
		}
	}
	return artery.Solve(in)
}

// anchorForce is the outward push of the anchors on the vein at a station, N/mm.
func (s *shape) anchorForce(p *plan, at float64) float64 {
	if !p.hasAnchors {
		return 0
	}
	half := ring.Default().AnchorLength / 2
	return p.radialN * (softBox(at, p.proximal-half, p.proximal+half, anchorEdgeMM) + softBox(at, p.distal-half, p.distal+half, anchorEdgeMM))
}

func (s *shape) diastoleArea() float64 {
	return geometry.Measure(s.restDiastole, s.marksDiastole).ProjectedAreaMM2
}

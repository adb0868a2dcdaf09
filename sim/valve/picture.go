package valve

import (
	"slices"

	"annuloscope/sim/artery"
	"annuloscope/sim/closure"
	"annuloscope/sim/orifice"

	"gonum.org/v1/gonum/spatial/r3"
)

// shapesOf copies the solved geometry out for pictures and meshes.
func shapesOf(b *baseline, annulus, diastole, vein []r3.Vec, contact, push []float64, w *closure.Workspace, in *closure.Input,
	closed *closure.Result, open *orifice.Result, squeezed *artery.Report, p *plan, pap closure.Papillary) Shapes {
	s := b.shape
	out := Shapes{Annulus: slices.Clone(annulus), AnnulusDiastole: slices.Clone(diastole), Intertrigone: s.intertrigone,
		Vein: slices.Clone(vein), VeinRadius: s.veinRadius, VeinStation: s.vein.Station, VeinContact: append([]float64(nil), contact...),
		Covered: make([]bool, len(vein)), Papillary: papillaryTips(pap)}
	for i, w := range s.vein.OnAtrium {
		out.Covered[i] = w > 0.5
	}
	out.veinStrip(s, p, vein, annulus, push)
	out.Vessels = s.vesselShapes(b, squeezed)
	line := s.arteryBeside(b, vein, annulus)
	out.Artery = line.points
	for i := range line.points {
		out.ArteryRadius = append(out.ArteryRadius, b.patient.Artery.DiameterMM/2)
		out.ArteryStation = append(out.ArteryStation, s.vein.Station[line.first+i])
		out.ArteryNarrow = append(out.ArteryNarrow, squeezed.Vessels[0].Stations[i].WorstViewPct)
	}
	out.device(s, p, vein, annulus)
	for i := range closed.S {
		out.Stations = append(out.Stations, stationOf(w, &in.Line, closed, i))
	}
	for _, q := range open.Orifices {
		out.Orifices = append(out.Orifices, orificeOf(q))
	}
	return out
}

// device draws what was put in: the tether between the anchors in the vein, or the band on the annulus.
func (out *Shapes) device(s *shape, p *plan, vein, annulus []r3.Vec) {
	switch {
	case p.band != nil:
		for i, at := range s.vein.Station {
			if at >= p.proximal && at <= p.distal {
				out.Band = append(out.Band, vein[i])
			}
		}
		out.Anchors = []r3.Vec{atStation(s.vein.Station, vein, p.proximal), atStation(s.vein.Station, vein, p.distal)}
	case p.rods != nil:
		for i, at := range s.vein.Station {
			if at >= p.rods.ProximalMM && at <= p.rods.DistalMM {
				out.Band = append(out.Band, vein[i])
			}
		}
	case p.fullRing != nil:
		out.Band = append(slices.Clone(annulus), annulus[0])
	case p.posterior != nil:
		out.Band = posterior(s.intertrigone, annulus)
	}
}

// posterior returns the annulus points from trigone to trigone behind, in order.
func posterior(intertrigone []bool, annulus []r3.Vec) []r3.Vec {
	n := len(annulus)
	first := 0
	for i := range intertrigone {
		if intertrigone[i] && !intertrigone[(i+1)%n] {
			first = (i + 1) % n
		}
	}
	var out []r3.Vec
	for k := 0; k < n && !intertrigone[(first+k)%n]; k++ {
		out = append(out, annulus[(first+k)%n])
	}
	return out
}

func atStation(stations []float64, line []r3.Vec, at float64) r3.Vec {
	for i := 1; i < len(stations); i++ {
		if at <= stations[i] {
			t := (at - stations[i-1]) / (stations[i] - stations[i-1])
			return r3.Add(r3.Scale(1-t, line[i-1]), r3.Scale(t, line[i]))
		}
	}
	return line[len(line)-1]
}

func stationOf(w *closure.Workspace, line *closure.Line, r *closure.Result, i int) Station {
	st := Station{S: r.S[i], ContactMM: r.ContactMM[i], GapMM: r.GapMM[i], LeakMM: r.GapMM[i]}
	st.Anterior = w.Curve3(line, i, closure.Anterior, make([]r3.Vec, closure.CurvePoints))
	st.Posterior = w.Curve3(line, i, closure.Posterior, make([]r3.Vec, closure.CurvePoints))
	j := w.Junction(i)
	st.Junction = r3.Vec{X: line.Stations[i].XMM, Y: -j.X, Z: j.Z}
	return st
}

// openDepthMM is how far below the annulus plane the open margins are drawn; the outlines are a plan (sim/orifice).
const openDepthMM = 14.0

func orificeOf(q orifice.Orifice) Orifice {
	out := Orifice{AreaCM2: float64(q.Area)}
	var x, y float64
	for _, v := range q.Outline {
		out.Outline = append(out.Outline, r3.Vec{X: v.X, Y: v.Y, Z: -openDepthMM})
		x += v.X
		y += v.Y
	}
	if n := float64(len(q.Outline)); n > 0 {
		out.Centre = r3.Vec{X: x / n, Y: y / n, Z: -openDepthMM}
	}
	return out
}

package closure

import "annuloscope/sim/units"

// Along gives mean contact and mean gap (mm) at every station from signed overlaps (mm) that another engine found on the
// same line: with the unevenness of the fit, and beside and within the clips as Solve does. reports are those of the
// clips; contact and gap have one entry per station. It returns the anatomic orifice.
func (f *Fitted) Along(line *Line, overlap []float64, clips []Clip, reports []ClipReport, contact, gap []float64) units.AnatomicCM2 {
	n := len(line.Stations)
	if len(overlap) != n || len(contact) != n || len(gap) != n || len(reports) != len(clips) {
		panic("closure: Along needs one value per station and one report per clip")
	}
	half, area := line.LengthMM()/2, 0.0
	for i, st := range line.Stations {
		u, bond := f.Report.UnevennessMM, 0.0
		for c := range clips {
			grip := reports[c].Grip
			u *= beside(st.S*half, half, &clips[c], grip, f.Report.CouplingLengthMM)
			bond = 1 - (1-bond)*(1-grip*box(st.S*half, clips[c].Position*half, clips[c].WidthMM, clipEdgeMM))
		}
		e := meanGap(overlap[i], u)
		contact[i] = max(e+overlap[i], 0)
		gap[i] = e * (1 - bond)
		area += weight(i, n) * gap[i]
	}
	return units.AnatomicCM2(units.AreaToCM2(area * line.SpacingMM))
}

// Regions takes extremes and means over the thirds of the line of one value per station.
func (l *Line) Regions(v []float64) Regional {
	s := make([]float64, len(l.Stations))
	for i := range s {
		s[i] = l.Stations[i].S
	}
	return regional(s, v)
}

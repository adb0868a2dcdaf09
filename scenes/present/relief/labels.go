package relief

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/words"

	"gonum.org/v1/gonum/spatial/r3"
)

// Labels names the landmarks beside the structures, the most important first.
func (m *Model) Labels(p *Placer, w *words.Words, open float64, o Options) {
	if m.Empty() || m.rows == 0 {
		return
	}
	defer p.Draw()
	th := p.U.T
	mid, _ := p.Cam.Project(p.In, r3.Scale(0.5, r3.Add(m.commissureL, m.commissureR)))
	outward := func(at r3.Vec) draw.Point {
		q, _ := p.Cam.Project(p.In, at)
		d := draw.Point{X: q.X - mid.X, Y: q.Y - mid.Y}
		if math.Hypot(d.X, d.Y) < 8 {
			return draw.Point{Y: -1}
		}
		return d
	}
	flat := math.Abs(p.Cam.Elevation) > 35
	if o.Areas && !o.Quiet && open > 0.5 {
		for i, q := range m.Shapes.Orifices {
			p.Place(Mark{Text: w.With(q.AreaCM2, 2, "cm²"), At: m.centres[i], Bold: true, Size: theme.Body, Color: th.Ink})
		}
	}
	if flat && !o.Few {
		for side, names := range [2][3]string{{"A1", "A2", "A3"}, {"P1", "P2", "P3"}} {
			for i, name := range names {
				p.Place(Mark{Text: name, At: m.scallop(side, i, open), Bold: true, Size: theme.Body, Color: th.Ink})
			}
		}
	}
	if open < 0.02 {
		if at, gap := m.widestGap(); gap > 0.1 && !o.Quiet && !m.shellShown(o) {
			p.Place(Mark{Text: w.F("label.gap", "mm", w.Num(gap, 1)), At: at, Out: draw.Point{X: 0.4, Y: 1}, Gap: 18, Lead: true, Bold: true, Color: th.Gap})
		}
	}
	if open < 0.02 && o.Jet {
		if at, leak := m.jet(); leak > 0.1 {
			p.Place(Mark{Text: w.T("label.jet"), At: at, Out: draw.Point{X: 1, Y: -0.6}, Gap: 30, Lead: true, Bold: true, Color: th.Gap})
		}
	}
	for _, c := range m.Clips {
		key := "label.clip"
		if c.Held <= 0 {
			key = "label.clip.lost"
		}
		at := m.ClipPlace(c)
		if open > 0 {
			at = r3.Add(at, r3.Scale(open, m.marginShift(m.rowOf([]r3.Vec{at}))))
		}
		p.Place(Mark{Text: w.T(key), At: at, Out: draw.Point{X: -0.3, Y: -1}, Gap: 14, Lead: true, Color: th.Clip})
	}
	n := len(m.Shapes.Annulus)
	top, bottom := m.Shapes.Annulus[n/4], m.Shapes.Annulus[3*n/4]
	for i := range m.Shapes.Annulus {
		if q := m.Shapes.Annulus[i]; math.Abs(q.X) < 2 {
			if q.Y > 0 {
				top = q
			} else {
				bottom = q
			}
		}
	}
	if flat {
		p.Place(Mark{Text: "12", Turn: 1, At: top, Out: outward(top), Gap: 8, Bold: true, Color: th.Soft})
		p.Place(Mark{Text: "9", Turn: 1, At: m.commissureL, Out: outward(m.commissureL), Gap: 8, Bold: true, Color: th.Soft})
		p.Place(Mark{Text: "3", Turn: 1, At: m.commissureR, Out: outward(m.commissureR), Gap: 8, Bold: true, Color: th.Soft})
		p.Place(Mark{Text: "6", Turn: 1, At: bottom, Out: outward(bottom), Gap: 8, Bold: true, Color: th.Soft})
	}
	p.Place(Mark{Text: w.T("label.aorta"), Turn: 30, At: top, Out: outward(top), Gap: 26, Bold: true, Size: theme.Body, Color: th.Ink})
	p.Place(Mark{Text: w.T("label.anterolateral"), Turn: 60, At: m.commissureL, Out: outward(m.commissureL), Gap: 14, Color: th.Ink})
	if !o.Cut {
		p.Place(Mark{Text: w.T("label.posteromedial"), Turn: 60, At: m.commissureR, Out: outward(m.commissureR), Gap: 14, Color: th.Ink})
	}
	if !o.Vessels {
		return
	}
	sh := &m.Shapes
	if k := len(sh.Vein); k > 1 {
		p.Place(Mark{Text: w.T("label.vein"), At: sh.Vein[k/6], Out: outward(sh.Vein[k/6]), Gap: 12, Lead: true, Color: th.Vein})
	}
	if k := len(sh.Artery); k > 1 {
		at, worst := sh.Artery[k*3/5], 0.0
		for i, v := range sh.ArteryNarrow {
			if v > worst && i < k {
				at, worst = sh.Artery[i], v
			}
		}
		text := w.T("label.artery")
		if worst >= 1 && !o.Quiet {
			text = w.F("label.artery.narrow", "pct", w.Num(worst, 0))
		}
		p.Place(Mark{Text: text, At: at, Out: outward(at), Gap: 14, Lead: true, Color: th.Artery})
	}
	if k := len(sh.Band); k > 1 {
		key := "label.band"
		switch {
		case len(sh.Anchors) > 0:
		case len(sh.VeinPush) > 0:
			key = "label.rods"
		default:
			key = "label.device"
		}
		p.Place(Mark{Text: w.T(key), At: sh.Band[k/2], Out: outward(sh.Band[k/2]), Gap: 12, Lead: true, Color: th.Device})
	}
}

// scallop is a place on the belly of a leaflet's third.
func (m *Model) scallop(side, third int, open float64) r3.Vec {
	row := 1 + int(float64(m.rows-3)*[3]float64{0.2, 0.5, 0.8}[third]+0.5)
	share := 0.55
	if side == 1 {
		share = 0.5
	}
	i := row*across + int(share*(across-1))
	return r3.Add(r3.Scale(1-open, m.closed[side][i]), r3.Scale(open, m.open[side][i]))
}

func (m *Model) widestGap() (at r3.Vec, gap float64) {
	for _, st := range m.Shapes.Stations {
		if st.GapMM > gap {
			at, gap = st.Junction, st.GapMM
		}
	}
	return at, gap
}

// jet is where the leak is widest.
func (m *Model) jet() (at r3.Vec, leak float64) {
	for _, st := range m.Shapes.Stations {
		if st.LeakMM > leak {
			at, leak = st.Junction, st.LeakMM
		}
	}
	return at, leak
}

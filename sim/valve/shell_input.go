package valve

import (
	"math"

	"annuloscope/sim/closure"
	"annuloscope/sim/leaflet"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// lineShare is where the outermost section stands on the shell's line, which runs from commissure to commissure.
const lineShare = closure.CommissureLimit

// shellTissue is a patient's shell: the lengths that the sections' fit implies, hung in the annulus as measured, with
// the unknowns of fitShell.
func (b *baseline) shellTissue(x shellUnknowns) leaflet.Anatomy {
	a := leaflet.NewAnatomy(b.shape.baseline)
	a.AnteriorMM, a.PosteriorMM = within(b.fit.Central.AnteriorMM, 12, 45), within(b.fit.Central.PosteriorMM, 8, 35)
	a.Growth, a.LineDepthMM, a.BasalSlackMM = x.growth, x.lineMM, shellBasalSlackMM
	a.CommissureMM *= shellCommissure
	a.MarginX, a.MarginY = a.MarginX*shellMargin, a.MarginY*shellMargin
	a.RestTips = b.shellTips(papillaryAt(&b.patient, false, [2]closure.PapillaryShift{}), x)
	return a
}

// shellTips places the tips from which the shell's chords come: beside and behind the middle as the sections' muscles
// are, as deep as the fit asks for, and displaced as the sections' are.
func (b *baseline) shellTips(q closure.Papillary, x shellUnknowns) [2]r3.Vec {
	tips, normal := papillaryTips(q), closure.DefaultPapillary()
	for m := range tips {
		tips[m].Y -= closure.PapillaryPosterior * b.fit.PapillaryMM
		tips[m].Z += -x.lineMM - x.branchMM - normal.Tips[m].Z
	}
	return tips
}

func within(v, lo, hi float64) float64 { return math.Min(math.Max(v, lo), hi) }

// shellChange is what the condition of leaflets and chords means for the shell.
func shellChange(in *leaflet.Input, st *closure.State) {
	for _, f := range st.Faults {
		c := leaflet.ChordChange{Leaflet: leaflet.Side(f.Leaflet), S: within(f.Position*lineShare, -1, 1), WidthMM: f.WidthMM}
		if f.Ruptured {
			c.Ruptured = true
			in.Chords = append(in.Chords, c)
		}
		if f.ElongationMM != 0 {
			c.Ruptured, c.LengthMM = false, within(f.ElongationMM, -10, 30)
			in.Chords = append(in.Chords, c)
		}
	}
	if st.RestrictionMM > 0 {
		in.Chords = append(in.Chords, leaflet.ChordChange{Leaflet: leaflet.Posterior, WidthMM: 100, LengthMM: -st.RestrictionMM, WithBasal: true})
	}
	in.Growth *= 1 + st.Growth
	for _, c := range st.Calcifications {
		in.Patches = append(in.Patches, leaflet.StiffPatch{Leaflet: leaflet.Side(c.Leaflet), S: within(c.Position*lineShare, -1, 1), WidthMM: c.WidthMM,
			ToV: 1, Factor: 1 + (calcifiedStiffness-1)*c.Severity})
	}
}

// shellBonds maps the clips to bonds of the shell. Whether and how well a clip holds is decided as for the sections, by
// the gap before any clip (sim/closure).
func shellBonds(p *plan, clips []closure.ClipReport) []leaflet.Bond {
	var out []leaflet.Bond
	for i, c := range p.clips {
		out = append(out, leaflet.Bond{S: c.Position * lineShare, WidthMM: c.WidthMM, ReachMM: bondDepthMM, Hold: clips[i].Grip})
	}
	return out
}

// shellPressure is a pressure (mmHg) in N/mm², within what the shell takes.
func shellPressure(mmHg float64) float64 { return within(units.PressureFromMMHg(mmHg), 0, 0.06) }

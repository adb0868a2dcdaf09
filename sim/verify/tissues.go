package verify

import (
	"strings"

	"annuloscope/sim/closure"
	"annuloscope/sim/ring"
	"annuloscope/sim/ring/calibrate"
)

// tissues compares tissue stiffness and leaflet lengths with measurements.
func tissues() []Row {
	s := &sheet{group: "Tissue", source: "anatomy.md "}
	_, rep := calibrate.Fit()
	for _, r := range rep.Rows {
		name, unit, _ := strings.Cut(r.Name, ", ")
		s.add(Published, name+" (used in the fit)", unit, r.Published, r.Model, r.SD, r.Source)
	}
	s.add(Published, "tension over septal-lateral fall of the sinus cinch, derived", "N/mm", 0.33, rep.SecantNPerMM, 0.33*0.24, "S45, spread of the tension")
	for _, p := range calibrate.Predict(ring.Default()) {
		if !(p.SD > 0) { // no figure or no spread published
			continue
		}
		kind := Published
		if strings.Contains(p.Source, "from memory") {
			kind = Memory
		}
		s.add(kind, p.Name, p.Unit, p.Published, p.Model, p.SD, p.Source+"; "+p.Note)
	}
	in := closureInput(28, 61)
	f, t := closure.Template(in)
	r := closure.Solve(f, in, nil)
	s.add(Published, "anterior leaflet length of the normal valve", "mm", 21.1, t.Central.AnteriorMM, 3.1, "S24")
	s.add(Published, "posterior leaflet length of the normal valve", "mm", 11.7, t.Central.PosteriorMM, 2.9, "S24")
	s.add(Published, "marginal chord length of the normal valve", "mm", 19.3, t.Central.ChordPosteriorMM, 5, "S36")
	s.add(Published, "tenting area of the normal valve", "cm²", 0.95, r.TentingAreaCM2, 0.2, "S22")
	s.band(Published, "billowing height of the normal valve (1.0 mm divides normal from degenerative)", "mm", 0, 1, r.BillowingHeightMM, "S33")
	s.exact("effective leak of the normal valve", "cm²", 0, float64(r.EffectiveOrifice), 1e-5, "")
	s.from("definition of the template: a valve without a leak, solved anew")
	return s.rows
}

package gallery

import (
	"fmt"

	"annuloscope/scenes/present/figure"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/valve"
)

// Stamp says where a figure comes from.
func (g *Gallery) Stamp(kind string) figure.Stamp {
	d, w := g.d, g.d.W()
	r := &d.S.Report
	if c := g.Comparison(); kind == Compare && c.Base() != nil { // what was compared was solved apart
		r = &c.Columns[0].Report
	}
	p := &r.Provenance
	v := &d.V
	s := figure.Stamp{CaseHash: p.CaseSHA256, Version: valve.Version, Caution: w.T("app.caution"), Title: g.Title(kind), Alt: g.Alt(kind)}
	if d.S.Case.Patient.Imported {
		s.Caution = w.T("imported.mark") + ": " + w.T("imported.why") + " " + s.Caution
	}
	converged := "no"
	if p.Converged {
		converged = "yes"
	}
	s.Fields = []figure.Field{{Name: "case", Value: d.S.Case.Name}, {Name: "schema", Value: p.Schema}, {Name: "engine", Value: p.Engine},
		{Name: "circulation", Value: r.After.Beat.Tier}, {Name: "status", Value: p.Status}, {Name: "converged", Value: converged},
		{Name: "residual", Value: fmt.Sprintf("%.3g N", p.Residual)}, {Name: "tolerance", Value: fmt.Sprintf("%.3g N", p.Tolerance)},
		{Name: "units", Value: "mm, N, cm², mL, mmHg"}, {Name: "seed", Value: "none: nothing is random"},
		{Name: "view", Value: fmt.Sprintf("azimuth %g, elevation %g, zoom %.3g, %s, phase %.3g, cut %g", v.Azimuth, v.Elevation, v.Zoom, v.Mode, v.Phase, v.Station)}}
	for i, st := range d.S.Case.Repairs {
		s.Fields = append(s.Fields, figure.Field{Name: fmt.Sprintf("repair-%d", i+1), Value: st.String()})
	}
	if kind == Compare {
		for i, plan := range d.S.Plans() {
			s.Fields = append(s.Fields, figure.Field{Name: fmt.Sprintf("plan-%d", i+1), Value: plan.String()})
		}
	}
	return s
}

// moving adds what a film shows.
func moving(s figure.Stamp, o Order, k study.Knob) figure.Stamp {
	text := fmt.Sprintf("one beat in %d frames; only mid-systole and mid-diastole are solved, the rest is drawn between them", o.Frames)
	if o.Knob != "" {
		text = fmt.Sprintf("%s from %g to %g %s in %d frames, each solved", o.Knob, o.From, o.To, k.Unit, o.Frames)
	}
	s.Fields = append(s.Fields, figure.Field{Name: "movement", Value: text})
	return s
}

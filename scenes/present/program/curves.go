package program

import (
	"errors"
	"strings"

	"annuloscope/geometry/meshio"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/tell"
	"annuloscope/sim/fault"
	"annuloscope/sim/measured"
)

// dropCurve takes a dropped file that may hold a measured curve, told by the ending of its name, and tells whether it was
// one. The name also says which curve it is; without a hint it is the annulus. What the curves do not say is that of the
// patient that was open when the first of them came.
func (p *Program) dropCurve(e input.Event) bool {
	name := strings.ToLower(e.Name)
	if k := strings.LastIndexByte(name, '.'); k < 0 || !strings.Contains(" .csv .vtk .vtp ", " "+name[k:]+" ") {
		return false
	}
	p.dirty = true
	line, err := meshio.Read(strings.NewReader(string(e.Data)))
	if err != nil {
		p.d.Refuse(errors.New(strings.TrimPrefix(err.Error(), "meshio: ")))
		return true
	}
	in := &p.curves
	switch {
	case strings.Contains(name, "artery") || strings.Contains(name, "circumflex"):
		in.Artery = &line
	case strings.Contains(name, "sinus") || strings.Contains(name, "vein"):
		in.Sinus = &line
	default:
		*in = measured.Input{Annulus: line, Base: p.d.S.Case.Clone()}
	}
	p.importCurves()
	return true
}

// importCurves opens the case of the curves that have come so far.
func (p *Program) importCurves() {
	w := p.d.W()
	if len(p.curves.Annulus.Points) == 0 || p.curves.Sinus != nil && !p.d.S.Case.Patient.Imported { // or another case was opened since
		p.d.Say(w.T("imported.first"), true)
		return
	}
	r, err := measured.Import(p.curves)
	var f *fault.Field
	if errors.As(err, &f) && f.Path == "artery" && p.curves.Sinus == nil {
		p.d.Say(w.T("imported.vein"), true)
		return
	}
	if err != nil {
		p.curves = measured.Input{}
		p.d.Refuse(err)
		return
	}
	r.Case.Name, r.Case.Title, r.Case.Note = "imported", w.T("imported.title"), ""
	if err := p.d.S.Open(r.Case); err != nil {
		p.d.Refuse(err)
		return
	}
	most := 0.0
	for _, x := range r.Residuals {
		most = max(most, x.RMSMM)
	}
	p.d.Say(w.F("imported.opened", "unit", string(r.Unit), "gap", w.With(most, 2, "mm"), "name", tell.Title(w, p.curves.Base)), false)
}

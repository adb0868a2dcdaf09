package program_test

import (
	"bytes"
	"strings"
	"testing"

	"annuloscope/geometry/meshio"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/sim/meshes"
)

// Curves dropped on the window, in the order that makes sense and in one that does not: the case opens, is marked, and
// has no grade; a file that is no curve is refused.
func TestDroppedCurvesOpen(t *testing.T) {
	p := start(t, "functional")
	files := map[string][]byte{}
	for _, c := range meshes.Curves(&p.Desk().S.Report.Scene.Before, false) {
		var b bytes.Buffer
		if err := meshio.WriteCSV(&b, c.Line, nil); err != nil {
			t.Fatal(err)
		}
		files[c.Name+".csv"] = b.Bytes()
	}
	drop := func(name string) string {
		p.Handle(input.Event{Kind: input.Drop, Name: name, Data: files[name]})
		settle(p)
		return p.Announcement()
	}
	if say := drop("sinus-curve.csv"); !strings.Contains(say, "annulus first") || p.Desk().S.Case.Patient.Imported {
		t.Errorf("a sinus alone: %q", say)
	}
	for _, name := range []string{"annulus-curve.csv", "artery-curve.csv", "sinus-curve.csv"} {
		say := drop(name)
		if name == "artery-curve.csv" && !strings.Contains(say, "sinus as well") {
			t.Errorf("an artery without its vein: %q", say)
		}
	}
	s := p.Desk().S
	if !s.Case.Patient.Imported || s.Case.Patient.Annulus.SeptalLateralMM != 36 || s.Case.Patient.Artery.DeepFromMM < 90 || s.Report.Before.Regurgitation.Grade.Class != "" {
		t.Errorf("%+v, grade %q, says %q", s.Case.Patient.Annulus, s.Report.Before.Regurgitation.Grade.Class, p.Announcement())
	}
	before := s.Case
	for name, text := range map[string]string{"x.csv": "no numbers", "y.vtp": "<VTKFile/>", "z.vtk": "# vtk DataFile Version 3.0\n", "flat.csv": "0,0,0\n1,0,0\n"} {
		files[name] = []byte(text)
		if say := drop(name); !strings.Contains(say, "cannot") && len(say) < 20 || s.Case.Name != before.Name {
			t.Errorf("%s: %q", name, say)
		}
	}
}

func TestImportedPictures(t *testing.T) {
	imported := func(p *program.Program) {
		c := p.Desk().S.Case.Clone()
		c.Patient.Imported = true
		if err := p.Desk().S.Open(c); err != nil {
			t.Fatal(err)
		}
	}
	shoot(t, nil, []shot{
		{"imported-1024", 1024, 768, imported},
		{"imported-german", 1280, 800, func(p *program.Program) { imported(p); set(p, "dark", "de", 1) }},
		{"imported-200", 1024, 768, func(p *program.Program) { imported(p); set(p, "light", "en", 2) }},
	})
}

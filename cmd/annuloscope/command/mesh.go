package command

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"annuloscope/geometry/meshio"
	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/save"
	"annuloscope/sim/meshes"
	"annuloscope/sim/valve"
)

type meshCmd struct {
	caseFlags
	engineFlag
	State     string  `enum:"before,after" default:"after" help:"Before or after the repairs (${enum})."`
	Phase     string  `enum:"systole,diastole" default:"systole" help:"Closed valve or open annulus (${enum}); the sections' leaflets exist only in systole, the shell's in both."`
	Thickness float64 `placeholder:"MM" help:"Write the leaflets as closed solids of this thickness, up to 3 mm, instead of open surfaces."`
	Output    string  `short:"o" required:"" placeholder:"DIR" help:"The folder to write to; made when missing."`
}

// Run writes every part as VTP with its fields and as STL, and the curves as CSV and VTP.
func (c *meshCmd) Run(s *Streams) error {
	if !(c.Thickness >= 0 && c.Thickness <= meshes.MaxThicknessMM) {
		return failWith(Usage, "--thickness %g: out of range; allowed: 0 to %d mm", c.Thickness, meshes.MaxThicknessMM)
	}
	cs, err := c.load()
	if err != nil {
		return err
	}
	r, err := valve.Solve(cs, c.options(valve.Options{Circulation: true}))
	if err != nil {
		return err
	}
	if !r.Provenance.Converged {
		return failWith(NotConverged, "not converged, no mesh written: %s", r.Provenance.Status)
	}
	c.warn(s, &r)
	shapes := &r.Scene.After
	if c.State == "before" {
		shapes = &r.Scene.Before
	}
	if err := os.MkdirAll(c.Output, 0o755); err != nil {
		return failWith(Failed, "%w", err)
	}
	meta := []meshio.Meta{{Key: "caution", Value: r.Notice}, {Key: "case", Value: r.Provenance.CaseName}, {Key: "case_sha256", Value: r.Provenance.CaseSHA256},
		{Key: "program", Value: r.Provenance.Program + " " + r.Provenance.Version}, {Key: "state", Value: c.State}, {Key: "phase", Value: c.Phase}, {Key: "engine", Value: r.Provenance.Engine},
		{Key: "frame", Value: "x posteromedial, y aorta, z atrium; origin between the commissures"}}
	for _, p := range meshes.Parts(shapes, &r.Scene.Before, meshes.Options{Diastole: c.Phase == "diastole", ThicknessMM: c.Thickness}) {
		base := filepath.Join(c.Output, p.Name)
		if err := save.File(base+".vtp", func(w io.Writer) error {
			return meshio.WriteVTP(w, p.Mesh, meshio.VTPOptions{Meta: meta})
		}); err != nil {
			return failWith(Failed, "%w", err)
		}
		if err := save.File(base+".stl", func(w io.Writer) error {
			return meshio.WriteSTL(w, p.Mesh, p.Name+" "+c.State+" "+c.Phase)
		}); err != nil {
			return failWith(Failed, "%w", err)
		}
		kind := "open surface"
		if p.Solid {
			kind = "closed solid"
		}
		fmt.Fprintf(s.Out, "%s.vtp, %s.stl: %s, %d faces\n", base, base, kind, len(p.Mesh.Faces))
	}
	for _, curve := range meshes.Curves(shapes, c.Phase == "diastole") {
		base := filepath.Join(c.Output, curve.Name)
		if err := save.File(base+".csv", func(w io.Writer) error { return meshio.WriteCSV(w, curve.Line, meta) }); err != nil {
			return failWith(Failed, "%w", err)
		}
		if err := save.File(base+".vtp", func(w io.Writer) error {
			return meshio.WriteVTPPolyline(w, curve.Line, meshio.VTPOptions{Meta: meta})
		}); err != nil {
			return failWith(Failed, "%w", err)
		}
		fmt.Fprintf(s.Out, "%s.csv, %s.vtp: curve, %d points; `annuloscope import` reads it\n", base, base, len(curve.Line.Points))
	}
	if c.Phase == "diastole" && r.Provenance.Engine != valve.ShellEngine {
		fmt.Fprintln(s.Err, "annuloscope: the open leaflets have no shape in the sections (--engine shell has one); their openings are written in plan, at a drawn depth")
	}
	_, err = fmt.Fprintln(s.Out, "\n"+plain.Leaflets(&r)+" Lengths in mm; units of the fields stand in each VTP file.\n"+r.Notice)
	return err
}

package command

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"annuloscope/assets"
	"annuloscope/geometry/contour"
	"annuloscope/geometry/meshio"
	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/save"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/measured"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

type importCmd struct {
	Annulus  string   `required:"" help:"The annulus: points of one closed curve, in any order and any frame. CSV (x, y, z), legacy VTK or VTP." placeholder:"FILE"`
	Sinus    string   `help:"The centreline of the coronary sinus from its mouth to the interventricular vein, radius as a fourth column or a field." placeholder:"FILE"`
	Artery   string   `help:"The centreline of the circumflex artery; needs --sinus." placeholder:"FILE"`
	Unit     string   `default:"auto" enum:"auto,mm,cm,m" help:"Unit of the coordinates: auto (from the header or the size), mm, cm, m."`
	Plane    string   `help:"The normal of the annulus plane, towards the atrium, instead of the fitted one." placeholder:"X,Y,Z"`
	Landmark []string `help:"A landmark in the frame of the points, instead of one that is found: a2, p2, posteromedial, anterolateral (the commissures, both or none), atrium (any point well above the annulus). May be given again." placeholder:"NAME=X,Y,Z" sep:"none"`
	Into     string   `help:"A built-in case or a file that gives what the curves do not say (default: the invented normal adult). A file keeps its comments." placeholder:"CASE"`
	Name     string   `default:"imported" help:"Name of the new case. Use none that identifies a person."`
	Output   string   `short:"o" help:"The case file to write; without it the case goes to standard output and the residuals to standard error." placeholder:"CASE.yaml"`
}

// Run reads the curves, makes the case and says how well it fits them.
func (c *importCmd) Run(s *Streams) error {
	in := measured.Input{Unit: measured.Unit(c.Unit)}
	var err error
	if in.Landmarks, err = c.landmarks(); err != nil {
		return err
	}
	if in.Annulus, err = readCurve("annulus", c.Annulus); err != nil {
		return err
	}
	for _, l := range []struct {
		name, file string
		to         **meshio.Polyline
	}{{"sinus", c.Sinus, &in.Sinus}, {"artery", c.Artery, &in.Artery}} {
		if l.file == "" {
			continue
		}
		p, err := readCurve(l.name, l.file)
		if err != nil {
			return err
		}
		*l.to = &p
	}
	old, err := c.base(&in.Base)
	if err != nil {
		return err
	}
	r, err := measured.Import(in)
	if err != nil {
		return err
	}
	r.Case.Name = c.Name
	text, err := write(old, &r.Case, c.Output)
	if err != nil {
		return err
	}
	if c.Output == "" {
		if _, err := s.Out.Write(text); err != nil {
			return err
		}
		return tellImport(s.Err, &r)
	}
	if err := save.File(c.Output, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return failWith(Failed, "writing %s: %w", c.Output, err)
	}
	fmt.Fprintf(s.Out, "%s\n", c.Output)
	return tellImport(s.Out, &r)
}

// base reads the case that gives the rest; old is its text when it is the user's own file.
func (c *importCmd) base(to *casefile.Case) (old []byte, err error) {
	switch {
	case c.Into == "":
		*to = casefile.Case{Patient: anatomy.Normal()}
	default:
		if *to, err = Load(c.Into); err != nil {
			return nil, err
		}
	}
	if c.Into == "" || slices.Contains(assets.CaseNames(), c.Into) {
		to.Title, to.Note = "Imported geometry", "Imported from measured curves; what they do not say is invented."
		return nil, nil
	}
	return readFile(c.Into, casefile.MaxBytes+1)
}

// write returns the case as a file that begins with the caution (JSON has no comments): an old text is changed in place, and
// keeps its own, unless it is to become JSON.
func write(old []byte, c *casefile.Case, name string) ([]byte, error) {
	if strings.EqualFold(filepath.Ext(name), ".json") && (old == nil || !json.Valid(old)) {
		text := casefile.EncodeJSON(*c)
		_, err := casefile.Decode(text)
		return text, err
	}
	notice := []byte("# " + valve.NoticeFor(&c.Patient) + "\n")
	if old == nil {
		text := append(notice, casefile.Encode(*c)...)
		_, err := casefile.Decode(text) // the name is the user's
		return text, err
	}
	text, err := casefile.Update(old, *c)
	if err != nil || bytes.Contains(text, notice) || bytes.HasPrefix(bytes.TrimSpace(text), []byte("{")) {
		return text, err
	}
	return append(notice, text...), nil
}

// tellImport writes what was found and how far the curves lie from each other.
func tellImport(w io.Writer, r *measured.Result) error {
	fmt.Fprintf(w, "unit: %s\n", r.Unit)
	if len(r.Found) > 0 {
		fmt.Fprintf(w, "found, not given: %s\n", strings.Join(r.Found, ", "))
	}
	for _, text := range r.Warnings {
		fmt.Fprintf(w, "look at this: %s\n", text)
	}
	p := &r.Case.Patient
	fmt.Fprintf(w, "annulus: septal-lateral %.1f mm, commissural %.1f mm, height %.1f mm; vein %.0f mm\n\n",
		p.Annulus.SeptalLateralMM, p.Annulus.CommissuralMM, p.Annulus.HeightMM, p.Sinus.LengthMM)
	rows := [][]string{{"distance", "points", "root mean square, mm", "largest, mm"}}
	for _, x := range r.Residuals {
		rows = append(rows, []string{x.Curve + " from " + x.From, strconv.Itoa(x.Points), fmt.Sprintf("%.3f", x.RMSMM), fmt.Sprintf("%.3f", x.MaxMM)})
	}
	if err := plain.Table(w, rows); err != nil {
		return err
	}
	_, err := fmt.Fprintln(w, "\n"+valve.NoticeFor(p))
	return err
}

func readCurve(what, name string) (meshio.Polyline, error) {
	f, err := os.Open(name)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return meshio.Polyline{}, &fault.Field{Path: what, Value: name, Problem: "no such file", Allowed: "a CSV, VTK or VTP file", Fix: "check the name"}
		}
		return meshio.Polyline{}, failWith(Failed, "reading: %w", err)
	}
	defer f.Close()
	p, err := meshio.Read(f)
	if err != nil {
		return p, failWith(BadCase, "%s: %s: %s", what, name, strings.TrimPrefix(err.Error(), "meshio: "))
	}
	return p, nil
}

func (c *importCmd) landmarks() (g contour.Given, err error) {
	if c.Plane != "" {
		if g.Normal, err = vector("--plane", c.Plane); err != nil {
			return g, err
		}
	}
	places := map[string]**r3.Vec{"a2": &g.A2, "p2": &g.P2, "posteromedial": &g.PosteromedialCommissure, "anterolateral": &g.AnterolateralCommissure, "atrium": &g.AtrialSide}
	for _, text := range c.Landmark {
		name, value, _ := strings.Cut(text, "=")
		at, ok := places[strings.ToLower(strings.TrimSpace(name))]
		if !ok {
			return g, failWith(Usage, "--landmark %s: no such landmark; allowed: a2, p2, posteromedial, anterolateral, atrium", text)
		}
		if *at, err = vector("--landmark "+name, value); err != nil {
			return g, err
		}
	}
	return g, nil
}

func vector(flag, text string) (*r3.Vec, error) {
	parts := strings.Split(text, ",")
	var v [3]float64
	for i := range v {
		var err error
		if len(parts) == 3 {
			v[i], err = strconv.ParseFloat(strings.TrimSpace(parts[i]), 64)
		}
		if len(parts) != 3 || err != nil {
			return nil, failWith(Usage, "%s %s: not a place; allowed: three numbers such as 0,0,1", flag, text)
		}
	}
	return &r3.Vec{X: v[0], Y: v[1], Z: v[2]}, nil
}

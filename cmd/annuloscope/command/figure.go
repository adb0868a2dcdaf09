package command

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/gallery"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/save"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// lookFlags are how a figure, a film or a handout looks.
type lookFlags struct {
	shellFlags
	View     string  `help:"atrium, ventricle, side or axis." default:"atrium"`
	Phase    string  `help:"systole or diastole." enum:"systole,diastole" default:"systole"`
	Station  float64 `help:"Place of the cut along the line: -1 anterolateral, 1 posteromedial." default:"0"`
	Theme    string  `help:"light, dark or projector." enum:"light,dark,projector" default:"light"`
	Language string  `help:"en or de." enum:"en,de" default:"en"`
	Show     string  `help:"What the pictures of a comparison show: valve, contact, gap, contact.change, gap.change, and in three dimensions tension or tension.change." enum:"valve,contact,gap,tension,contact.change,gap.change,tension.change" default:"valve"`
}

func (f *lookFlags) usage() error {
	var views []string
	for _, v := range relief.Views() {
		views = append(views, v.Name)
	}
	switch {
	case !slices.Contains(views, f.View):
		return failWith(Usage, "--view %s: no such view; allowed: %s", f.View, strings.Join(views, ", "))
	case !(f.Station >= -1 && f.Station <= 1):
		return failWith(Usage, "--station %g: off the line; allowed: -1 to 1", f.Station)
	}
	return nil
}

// open drives the program to a case that looks as asked for.
func (f *lookFlags) open(s *Streams, cs casefile.Case) (*program.Program, error) {
	p, err := drive(cs)
	if err != nil {
		return nil, err
	}
	d := p.Desk()
	d.P.Theme, d.P.Language = f.Theme, f.Language
	p.Settings()
	d.Look(f.View)
	d.V.Station = f.Station
	if f.Show != "valve" {
		d.V.Map = f.Show
	}
	d.Hold(map[string]string{"systole": desk.Held, "diastole": desk.Opened}[f.Phase])
	f.settle(s, p)
	return p, nil
}

// file makes the file of an order from the program's state and returns it. solve makes a runner for what is solved beside
// the case itself.
func (f *lookFlags) file(p *program.Program, o gallery.Order, solve func() study.Runner) ([]byte, error) {
	d := p.Desk()
	g := gallery.New(d.S.Snapshot(solve()), d.V, d.P, solve)
	j, err := g.Start(o)
	if err != nil {
		return nil, failWith(Usage, "%s", strings.TrimPrefix(err.Error(), "gallery: "))
	}
	for !j.Step() {
	}
	_, data, err := j.Result()
	return data, err
}

type figureCmd struct {
	caseFlags
	planFlags
	lookFlags
	What        string  `help:"What to draw: valve, cut, strip, orifices, charts, waves, compare or screen." enum:"valve,cut,strip,orifices,charts,waves,compare,screen" default:"valve"`
	Output      string  `short:"o" required:"" help:"Where to write; the ending chooses the format: .png or .svg." placeholder:"FILE"`
	Width       int     `help:"Width in pixels at scale 1; left out: what suits the figure." default:"0"`
	Height      int     `help:"Height in pixels at scale 1." default:"0"`
	Scale       float64 `help:"1, 2 or 4." default:"1"`
	Transparent bool    `help:"Leave the background out (PNG only)."`
	Screen      bool    `help:"The same as --what screen." hidden:""`
}

// usage checks what kong cannot.
func (c *figureCmd) usage() error {
	ending := strings.ToLower(filepath.Ext(c.Output))
	if c.Screen {
		c.What = gallery.Screen
	}
	w, h := gallery.Size(c.What)
	if c.Width == 0 {
		c.Width = int(w)
	}
	if c.Height == 0 {
		c.Height = int(h)
	}
	switch {
	case ending != ".png" && ending != ".svg":
		return failWith(Usage, "-o %s: the ending %q is no format; allowed: .png, .svg (films: annuloscope film; pages: annuloscope handout)", c.Output, ending)
	case c.Scale != 1 && c.Scale != 2 && c.Scale != 4:
		return failWith(Usage, "--scale %g: not a scale; allowed: 1, 2, 4", c.Scale)
	case c.Width < 320 || c.Width > 4000 || c.Height < 240 || c.Height > 4000:
		return failWith(Usage, "--width %d, --height %d: out of range; allowed: 320 to 4000 by 240 to 4000 pixels", c.Width, c.Height)
	case c.Transparent && ending != ".png":
		return failWith(Usage, "--transparent: only a PNG can leave the background out")
	}
	return c.lookFlags.usage()
}

func (c *figureCmd) Run(s *Streams) error {
	if err := c.usage(); err != nil {
		return err
	}
	cs, err := c.load()
	if err != nil {
		return err
	}
	p, err := c.open(s, cs)
	if err != nil {
		return err
	}
	o := gallery.Order{What: c.What, Format: strings.ToLower(filepath.Ext(c.Output))[1:], Scale: c.Scale, Transparent: c.Transparent,
		Width: float64(c.Width), Height: float64(c.Height)}
	switch c.What {
	case gallery.Compare:
		plans, err := c.plans(cs, c.Language)
		if err != nil {
			return err
		}
		p.Desk().S.SetPlans(plans)
	case gallery.Screen:
		o.Screen = new(draw.List)
		for range 2 { // the first picture measures, the second has everything in its place
			p.Tick(0)
			p.Paint(o.Screen, o.Width, o.Height)
		}
	}
	data, err := c.file(p, o, coldRunner)
	if err != nil {
		return err
	}
	return written(s, p, c.Output, data)
}

// written keeps a finished file and says so.
func written(s *Streams, p *program.Program, name string, data []byte) error {
	if err := save.File(name, func(w io.Writer) error { _, err := io.Copy(w, bytes.NewReader(data)); return err }); err != nil {
		return failWith(Failed, "writing %s: %w", name, err)
	}
	st := p.Desk().S
	fmt.Fprintf(s.Err, "wrote %s. %s\n", name, valve.NoticeFor(&st.Case.Patient))
	if r := &st.Report; !r.Provenance.Converged {
		return failWith(NotConverged, "not converged: %s", r.Provenance.Status)
	}
	return nil
}

package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/figure"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/save"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

type figureCmd struct {
	caseFlags
	Output      string  `short:"o" required:"" help:"Where to write; the ending chooses the format: .png or .svg." placeholder:"FILE"`
	View        string  `help:"atrium, ventricle, side or axis." default:"atrium"`
	Phase       string  `help:"systole or diastole." enum:"systole,diastole" default:"systole"`
	Width       int     `help:"Width in pixels at scale 1." default:"960"`
	Height      int     `help:"Height in pixels at scale 1." default:"640"`
	Scale       float64 `help:"1, 2 or 4." default:"1"`
	Theme       string  `help:"light, dark or projector." enum:"light,dark,projector" default:"light"`
	Language    string  `help:"en or de." enum:"en,de" default:"en"`
	Transparent bool    `help:"Leave the background out (PNG only)."`
	Screen      bool    `help:"Draw the whole screen instead of the valve alone."`
}

// usage checks what kong cannot.
func (c *figureCmd) usage() error {
	ending := strings.ToLower(filepath.Ext(c.Output))
	var views []string
	for _, v := range relief.Views() {
		views = append(views, v.Name)
	}
	_, known := relief.FindView(c.View)
	switch {
	case ending != ".png" && ending != ".svg":
		return failWith(Usage, "-o %s: the ending %q is no format; allowed: .png, .svg", c.Output, ending)
	case !known:
		return failWith(Usage, "--view %s: no such view; allowed: %s", c.View, strings.Join(views, ", "))
	case c.Scale != 1 && c.Scale != 2 && c.Scale != 4:
		return failWith(Usage, "--scale %g: not a scale; allowed: 1, 2, 4", c.Scale)
	case c.Width < 320 || c.Width > 4000 || c.Height < 240 || c.Height > 4000:
		return failWith(Usage, "--width %d, --height %d: out of range; allowed: 320 to 4000 by 240 to 4000 pixels", c.Width, c.Height)
	}
	return nil
}

func (c *figureCmd) Run(s *Streams) error {
	if err := c.usage(); err != nil {
		return err
	}
	cs, err := c.load()
	if err != nil {
		return err
	}
	p, err := drive(cs)
	if err != nil {
		return err
	}
	d := p.Desk()
	d.P.Theme, d.P.Language = c.Theme, c.Language
	p.Settings()
	d.Look(c.View)
	d.Hold(map[string]string{"systole": desk.Held, "diastole": desk.Opened}[c.Phase])
	list := new(draw.List)
	for range 2 { // the first picture measures, the second has everything in its place
		p.Tick(0)
		if c.Screen {
			p.Paint(list, float64(c.Width), float64(c.Height))
		} else {
			p.Figure(list, float64(c.Width), float64(c.Height))
		}
	}
	if err := c.write(list, stamp(p, cs)); err != nil {
		return failWith(Failed, "writing %s: %w", c.Output, err)
	}
	fmt.Fprintf(s.Err, "wrote %s. %s\n", c.Output, valve.NoticeFor(&cs.Patient))
	if r := d.S.Report; !r.Provenance.Converged {
		return failWith(NotConverged, "not converged: %s", r.Provenance.Status)
	}
	return nil
}

func (c *figureCmd) write(list *draw.List, st figure.Stamp) error {
	return save.File(c.Output, func(w io.Writer) error {
		if strings.EqualFold(filepath.Ext(c.Output), ".svg") {
			return figure.SVG(w, list, st)
		}
		return figure.PNG(w, list, st, figure.Options{Scale: c.Scale, Transparent: c.Transparent})
	})
}

// stamp says where a figure comes from.
func stamp(p *program.Program, c casefile.Case) figure.Stamp {
	r := &p.Desk().S.Report
	return figure.Stamp{CaseHash: r.Provenance.CaseSHA256, Version: valve.Version, Caution: figureCaution(p, c), Title: c.Title, Alt: p.Description(),
		Fields: []figure.Field{{Name: "Engine", Value: r.Provenance.Engine}, {Name: "Circulation", Value: r.After.Beat.Tier},
			{Name: "Status", Value: r.Provenance.Status}, {Name: "Units", Value: "mm, N, cm², mL, mmHg"}, {Name: "Case", Value: c.Name}}}
}

// figureCaution is what the caption strip says; imported geometry is named as such.
func figureCaution(p *program.Program, c casefile.Case) string {
	if c.Patient.Imported {
		return figure.Caution + ". " + p.Desk().W().T("imported.mark") + ": " + p.Desk().W().T("imported.why")
	}
	return figure.Caution
}

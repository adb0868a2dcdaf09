package command

import (
	"path/filepath"
	"strings"

	"annuloscope/scenes/present/gallery"
)

type handoutCmd struct {
	caseFlags
	engineFlag
	planFlags
	Compare  bool   `help:"Compare plans even without --plan: the case's own, or the band alone, the clip alone, and both."`
	Output   string `short:"o" required:"" help:"Where to write; the ending must be .pdf." placeholder:"FILE.pdf"`
	Language string `help:"en or de." enum:"en,de" default:"en"`
}

// Run writes a page about the case with its repairs, or about the plans.
func (c *handoutCmd) Run(s *Streams) error {
	if ending := strings.ToLower(filepath.Ext(c.Output)); ending != ".pdf" {
		return failWith(Usage, "-o %s: the ending %q is no format of a handout; allowed: .pdf", c.Output, ending)
	}
	cs, err := c.load()
	if err != nil {
		return err
	}
	look := lookFlags{shellFlags: shellFlags{engineFlag: c.engineFlag, Field: "none"}, View: "atrium", Phase: "systole", Theme: "projector", Language: c.Language, Show: "valve"}
	p, err := look.open(s, cs)
	if err != nil {
		return err
	}
	o := gallery.Order{What: gallery.Valve, Format: gallery.PDF}
	if c.Compare || len(c.Plan) > 0 {
		o.What = gallery.Compare
		plans, err := c.plans(cs, c.Language)
		if err != nil {
			return err
		}
		p.Desk().S.SetPlans(plans)
	}
	data, err := look.file(p, o, coldRunner)
	if err != nil {
		return err
	}
	return written(s, p, c.Output, data)
}

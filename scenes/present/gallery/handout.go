package gallery

import (
	"slices"
	"strings"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/figure"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Handout makes the page of a case (Valve) or of a comparison (Compare): pictures, table, what happened and why,
// assumptions, sources, caution. Its words are those of the gallery's language; its look is always light, for paper.
func (g *Gallery) Handout(kind string) *figure.Handout {
	w := g.d.W()
	h := &figure.Handout{Title: tell.Title(w, g.d.S.Case), Stamp: g.Stamp(kind)}
	if g.d.S.Case.Patient.Imported {
		h.Mark = w.T("imported.mark")
	}
	if kind == Compare {
		g.comparison(h)
	} else {
		g.single(h)
	}
	section := func(key, text string) {
		if text != "" {
			h.Sections = append(h.Sections, figure.Section{Heading: w.T(key), Text: text})
		}
	}
	leaflets, r := "handout.sections", &g.d.S.Report
	if kind == Compare && g.Comparison().Base() != nil {
		r = &g.Comparison().Columns[0].Report
	}
	if r.Provenance.Engine == valve.ShellEngine {
		leaflets = "handout.shell"
	}
	section("handout.assumptions", w.F("handout.assumptions.text", "leaflets", w.T(leaflets)))
	cases := []casefile.Case{g.d.S.Case}
	if kind == Compare {
		cases = nil
		for _, k := range g.Comparison().Columns {
			cases = append(cases, k.Case)
		}
	}
	section("handout.sources", g.sources(cases...))
	section("handout.caution", w.T("handout.caution.text"))
	return h
}

// single is the page of one case.
func (g *Gallery) single(h *figure.Handout) {
	w, s := g.d.W(), g.d.S
	r := &s.Report
	h.Subtitle = tell.Repairs(w, s.Case.Repairs)
	hold := g.d.V.Mode
	for _, p := range []struct {
		kind, mode, caption string
		w, h                float64
	}{{Valve, desk.Held, "handout.valve", 380, 340}, {Cut, desk.Held, "handout.cut", 380, 340}, {Orifices, desk.Opened, "handout.orifices", 380, 340}} {
		g.d.Hold(p.mode)
		l := new(draw.List)
		g.bare(l, p.kind, p.w, p.h)
		h.Pictures = append(h.Pictures, figure.Picture{List: l, Caption: w.T(p.caption)})
	}
	g.d.Hold(hold)
	h.Columns = []string{w.T("handout.quantity"), w.T("table.before"), w.T("table.after"), w.T("table.change")}
	pair := &study.Comparison{Columns: []study.Column{{Solved: true}, {Solved: true}}}
	pair.Columns[0].Report.After, pair.Columns[1].Report.After = r.Before, r.After
	for _, q := range valve.Quantities() {
		rank := tell.Rank(q, pair)
		if tell.Main(q.Path) && rank.Applies {
			h.Rows = append(h.Rows, []string{label(g, q), w.Num(rank.Values[0], q.Decimals), w.Num(rank.Values[1], q.Decimals), rank.Verdict(w, 1)})
		}
	}
	var notes []string
	for _, f := range r.Findings {
		notes = append(notes, tell.Finding(w, f))
	}
	h.Sections = append(h.Sections, figure.Section{Heading: w.T("handout.what"), Text: g.story()})
	if len(notes) > 0 {
		h.Sections = append(h.Sections, figure.Section{Heading: w.T("heading.findings"), Text: strings.Join(notes, " ")})
	}
	g.later(h, s.Case.Repairs)
}

// story tells what all repairs together did and why; without any it is the sentence of the case.
func (g *Gallery) story() string {
	w, s := g.d.W(), g.d.S
	if len(s.Case.Repairs) == 0 {
		return tell.Caption(w, s)
	}
	var names []string
	for _, st := range s.Case.Repairs {
		if name := tell.RepairName(w, string(st.Kind)); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return tell.Comparison(w, &s.Report.Before, []tell.Compared{{Name: tell.List(w, names), Case: s.Case, Report: &s.Report}})
}

// later says what the repairs close off.
func (g *Gallery) later(h *figure.Handout, steps []repair.Step) {
	w := g.d.W()
	var parts []string
	seen := map[repair.Kind]bool{}
	for _, st := range steps {
		if spec, ok := repair.Find(st.Kind); ok && spec.ClosesOff != "" && !seen[st.Kind] {
			seen[st.Kind] = true
			parts = append(parts, tell.RepairName(w, string(st.Kind))+": "+strings.TrimSuffix(w.Table("later."+string(st.Kind), spec.ClosesOff), ".")+".")
		}
	}
	if len(parts) > 0 {
		h.Sections = append(h.Sections, figure.Section{Heading: w.T("handout.later"), Text: strings.Join(parts, "\n")})
	}
}

// comparison is the page of the plans.
func (g *Gallery) comparison(h *figure.Handout) {
	w, c := g.d.W(), g.Comparison()
	h.Subtitle = w.T("handout.compare")
	l := new(draw.List)
	g.bare(l, Compare, 900, 330)
	h.Pictures = []figure.Picture{{List: l, Caption: w.T("handout.plans")}}
	h.Columns = []string{w.T("handout.quantity")}
	for i := range c.Columns {
		name := w.T("compare.untreated")
		if i > 0 {
			name = c.Columns[i].Plan.Name
		}
		h.Columns = append(h.Columns, name)
	}
	for _, q := range valve.Quantities() {
		rank := tell.Rank(q, c)
		if !tell.Main(q.Path) || !rank.Applies {
			continue
		}
		row := []string{label(g, q)}
		for i := range c.Columns {
			cell := w.Num(rank.Values[i], q.Decimals)
			if v := rank.Verdict(w, i); v != "" {
				cell += " " + v
			}
			row = append(row, cell)
		}
		h.Rows = append(h.Rows, row)
	}
	h.Sections = append(h.Sections, figure.Section{Heading: w.T("handout.what"), Text: g.compare.Sentence()})
}

// label names a quantity with its unit and the direction that is better.
func label(g *Gallery, q valve.Quantity) string {
	w := g.d.W()
	name := tell.Label(w, q)
	if unit := w.Unit(q.Unit); unit != "" {
		name += " (" + unit + ")"
	}
	return name + " " + w.T([...]string{"handout.neutral", "handout.lower", "handout.higher"}[q.Better])
}

// bare draws a figure without its heading, for a page that has its own.
func (g *Gallery) bare(l *draw.List, kind string, width, height float64) {
	u := g.d.U
	u.Begin(l, width, height)
	g.d.Sync()
	g.d.Pose()
	r := draw.Rect{W: width, H: height}
	switch kind {
	case Valve:
		g.d.Plain(r)
	case Cut:
		g.cut.Cut(r)
		g.d.Mark(r)
	case Orifices:
		g.orifices(r.Inset(u.S(6)))
		g.d.Mark(r)
	case Compare:
		g.compare.Figure(r, false)
	}
	u.Controls = u.Controls[:0]
	u.End()
}

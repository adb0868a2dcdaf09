package program

import (
	"encoding/json"
	"strconv"

	"annuloscope/assets/validation"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// leftOut are the paragraphs on what the model leaves out: knows.NAME is a heading, knows.NAME.text says it.
func leftOut() []string {
	return []string{"harm", "people", "time", "body", "wall", "artery", "band", "ring", "leaflets", "numbers", "person"}
}

// checks is assets/validation/validation.json.
type checks struct {
	Rows, Exact, Passed, Failed, Gaps int
	NotAsymptotic                     int `json:"not_asymptotic"`
	Disagree                          []check
}

type check struct {
	Quantity, Unit, Source, Kind string
	Expected, Tolerance, Ours    float64
}

func readChecks() (c checks, err error) {
	err = json.Unmarshal(validation.Table, &c)
	return c, err
}

// knows is the page on what the model does not know.
func (p *Program) knows() {
	u, w := p.d.U, p.d.W()
	x, y, width := p.sheet(w.T("button.knows"))
	y += p.reading("knows.intro", x, y, width, w.T("knows.intro"), theme.Body, false) + u.S(12)
	item := func(id, head, text, small string) {
		h := u.Height(head, theme.Body, true, width) + u.Height(text, theme.Body, false, width)
		if small != "" {
			h += u.Height(small, theme.Small, false, width)
		}
		u.Info(id, draw.Rect{X: x - u.S(4), Y: y - u.S(4), W: width + u.S(4), H: h + u.S(8)}, head, text)
		y += u.Para(x, y, width, head, theme.Body, true, u.T.Ink)
		y += u.Para(x, y, width, text, theme.Body, false, u.T.Ink)
		if small != "" {
			y += u.Para(x, y, width, small, theme.Small, false, u.T.Soft)
		}
		y += u.S(12)
	}
	for _, name := range leftOut() {
		item("knows/"+name, w.T("knows."+name), w.T("knows."+name+".text"), "")
	}
	u.Rule(x, y, width)
	y += u.S(12)
	y += p.reading("knows.checks", x, y, width, w.T("knows.checks"), theme.Lead, true) + u.S(4)
	c, err := readChecks()
	if err != nil {
		u.EndPanel(y + u.Para(x, y, width, err.Error(), theme.Body, true, u.T.Worse))
		return
	}
	num := func(v float64) string { return w.Num(v, decimals(v)) }
	y += p.reading("knows.counts", x, y, width, w.F("knows.counts", "rows", c.Rows, "exact", c.Exact, "passed", c.Passed, "failed", c.Failed,
		"gaps", c.Gaps, "grids", c.NotAsymptotic), theme.Body, false) + u.S(16)
	for i, r := range c.Disagree {
		unit := w.Unit(r.Unit)
		if unit != "" {
			unit = "\u00a0" + unit
		}
		item("check/"+strconv.Itoa(i), w.Table("check."+r.Quantity, r.Quantity),
			w.F("knows.gap", "expected", num(r.Expected), "tolerance", num(r.Tolerance)+unit, "ours", num(r.Ours)+unit),
			w.T("tip.source")+": "+w.Table("checksource."+r.Source, r.Source)+" ("+w.Table("checkkind."+r.Kind, r.Kind)+")")
	}
	u.EndPanel(y + u.S(8))
}

// decimals is how many decimals the shortest form of v has.
func decimals(v float64) int {
	s := strconv.FormatFloat(v, 'f', -1, 64)
	for i := range s {
		if s[i] == '.' {
			return len(s) - i - 1
		}
	}
	return 0
}

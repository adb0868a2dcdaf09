package compareview

import (
	"math"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// grid says where the table's columns stand.
type grid struct {
	x, y, label        float64
	first, column, gap float64
	columns            []int
	stacked            bool // the label has its own line
	dense              bool // value and verdict on one line where they fit
}

func (g *grid) cell(k int) draw.Rect {
	return draw.Rect{X: g.first + float64(k)*(g.column+g.gap), W: g.column}
}

// table lists the quantities: the untreated value, and for each plan its value, the change and what that means.
func (v *View) table(g grid) float64 {
	u, w := v.d.U, v.d.W()
	y := g.y
	lh := u.LineHeight(theme.Small)
	most := 0.0
	if !g.stacked {
		most = u.Para(g.x, y, g.label-u.S(8), w.T("compare.better"), theme.Small, false, u.T.Soft)
	}
	for k, i := range g.columns {
		c := g.cell(k)
		for n, line := range u.Lines(v.name(i), theme.Small, true, c.W-u.S(16)) {
			u.Text(draw.Rect{X: c.X + u.S(8), Y: y + float64(n)*lh, W: c.W - u.S(16), H: lh}, line, theme.Small, true, draw.Start, u.T.Soft)
			most = math.Max(most, float64(n+1)*lh)
		}
	}
	y += math.Max(most, lh) + u.S(4)
	right := g.first + float64(len(g.columns))*(g.column+g.gap) - g.gap
	u.Rule(g.x, y, right-g.x)
	for _, q := range valve.Quantities() {
		if v.all || tell.Main(q.Path) {
			y = v.row(q, g, y, right)
		}
	}
	y += u.S(8)
	if v.bare && !v.c.Shell() { // a figure's stamp names the engine as well
		return y
	}
	y += u.Para(g.x, y, right-g.x, v.engine(), theme.Small, false, u.T.Soft) + u.S(6)
	if v.bare {
		return y
	}
	return y + u.Switch("compare/all", g.x, y, math.Min(right-g.x, u.S(420)), w.T("table.all"), v.all, false) + u.S(4)
}

// engine says whose numbers the columns show.
func (v *View) engine() string {
	w := v.d.W()
	refused := v.c.Refused()
	switch {
	case v.deep():
		return w.T("compare.engine.shell")
	case !v.c.Shell():
		return w.T("compare.engine.sections")
	case len(refused) == 0:
		return w.T("shell.settling")
	}
	var names []string
	for _, i := range refused {
		names = append(names, v.name(i))
	}
	return w.F("compare.engine.refused", "names", tell.List(w, names))
}

// row draws one quantity; one that applies nowhere is left out.
func (v *View) row(q valve.Quantity, g grid, y, right float64) float64 {
	u, w := v.d.U, v.d.W()
	r := tell.Rank(q, v.c)
	if !r.Applies {
		return y
	}
	name := tell.Label(w, q)
	if unit := w.Unit(q.Unit); unit != "" {
		name += " (" + unit + ")"
	}
	direction := w.T([...]string{"compare.neutral", "compare.lower", "compare.higher"}[q.Better])
	width := g.label - u.S(8)
	lh, sh := u.LineHeight(theme.Body), u.LineHeight(theme.Small)
	directionH := u.Height(direction, theme.Small, false, width)
	if g.dense {
		name, directionH = name+" "+w.T([...]string{"handout.neutral", "handout.lower", "handout.higher"}[q.Better]), 0
	}
	nameH := u.Height(name, theme.Body, false, width)
	labelH := nameH + directionH
	beside := func(k, i int, text string) bool { // the verdict has room beside the value
		return g.dense && u.Wide(w.Num(r.Values[i], q.Decimals), theme.Body, true)+u.Wide(text, theme.Small, false)+u.S(28) <= g.cell(k).W
	}
	valueH := lh
	for k, i := range g.columns {
		if _, text := v.verdict(&r, i); text != "" && !beside(k, i, text) {
			valueH = math.Max(valueH, lh+sh*float64(len(u.Lines(text, theme.Small, false, g.cell(k).W-u.S(16)))))
		}
	}
	h, top := math.Max(labelH, valueH), y+u.S(3)
	if g.stacked {
		h, top = labelH+valueH, y+u.S(3)+labelH
	}
	u.Info("quantity/"+q.Path, draw.Rect{X: g.x - u.S(2), Y: y + 1, W: right - g.x + u.S(4), H: h + u.S(6) - 1}, tell.Label(w, q), v.spoken(&r, q))
	u.Para(g.x, y+u.S(3), width, name, theme.Body, false, u.T.Ink)
	if !g.dense {
		u.Para(g.x, y+u.S(3)+nameH, width, direction, theme.Small, false, u.T.Soft)
	}
	for k, i := range g.columns {
		c := g.cell(k)
		c.X, c.W, c.Y = c.X+u.S(8), c.W-u.S(16), top
		ink := u.T.Ink
		if v.c.Columns[i].Stale {
			ink = u.T.Soft
		}
		c.H = lh
		u.Text(c, w.Num(r.Values[i], q.Decimals), theme.Body, true, draw.Start, ink)
		color, text := v.verdict(&r, i)
		if beside(k, i, text) {
			c.X += u.Wide(w.Num(r.Values[i], q.Decimals), theme.Body, true) + u.S(10)
			u.Text(c, text, theme.Small, false, draw.Start, color)
			continue
		}
		for n, line := range u.Lines(text, theme.Small, false, c.W) {
			if text != "" {
				u.Text(draw.Rect{X: c.X, Y: c.Y + lh + float64(n)*sh, W: c.W, H: sh}, line, theme.Small, false, draw.Start, color)
			}
		}
	}
	y += h + u.S(6)
	u.Rule(g.x, y, right-g.x)
	return y
}

// verdict is a cell's second line: how the value changed, with a shape, a word and a colour.
func (v *View) verdict(r *tell.Ranked, i int) (draw.Color, string) {
	u, w := v.d.U, v.d.W()
	text := r.Verdict(w, i)
	switch {
	case r.Marks[i] == tell.Best, r.Marks[i] == tell.BetterThan:
		return u.T.Better, text
	case r.Marks[i] == tell.WorseThan:
		return u.T.Worse, text
	}
	return u.T.Soft, text
}

// spoken is the row for who listens.
func (v *View) spoken(r *tell.Ranked, q valve.Quantity) string {
	w := v.d.W()
	var parts []string
	for i := range v.c.Columns {
		text := v.name(i) + " " + w.With(r.Values[i], q.Decimals, q.Unit)
		if verdict := r.Verdict(w, i); verdict != "" {
			text += " " + verdict
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

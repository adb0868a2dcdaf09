package cohortview

import (
	"math"
	"sort"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/cohort"
	"annuloscope/sim/valve"
)

const (
	shownRanks = 5
	leastRanks = 20 // patients below which nothing is said of what decides
)

// numbers draws the shares, what decides, and the outside; it returns the y below.
func (v *View) numbers(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	y = v.progress(x, y, width)
	if v.d.U.Width >= wideFrom*u.Scale {
		y = v.patient(x, y, width)
	}
	if v.all == nil || v.all.N == 0 {
		return y
	}
	head := func(text string) {
		y += u.S(6) + u.Para(x, y+u.S(6), width, text, theme.Body, true, u.T.Ink) + u.S(3)
	}
	brushed := v.moved()
	title := w.T("cohort.shares")
	if brushed {
		title = w.F("cohort.shares.within", "n", v.within, "all", len(v.g.members))
	}
	head(title)
	a, s := total(v.all), total(v.some)
	for _, row := range []struct {
		key    string
		of, in func(p cohort.Part) int
	}{
		{"cohort.fits", func(p cohort.Part) int { return p.Fits }, func(p cohort.Part) int { return p.N }},
		{"cohort.narrowed", func(p cohort.Part) int { return p.Narrowed }, func(p cohort.Part) int { return p.Fits }},
		{"cohort.risk", func(p cohort.Part) int { return p.Risk }, func(p cohort.Part) int { return p.Fits }},
		{"cohort.gradient", func(p cohort.Part) int { return p.Gradient }, func(p cohort.Part) int { return p.Fits }},
	} {
		text := v.share(row.of(s), row.in(s))
		if brushed {
			text += " (" + w.F("cohort.ofall", "share", v.share(row.of(a), row.in(a))) + ")"
		}
		y += v.row(x, y, width, w.T(row.key), text)
	}
	head(w.T("cohort.grades"))
	for _, k := range byCount(s.After) {
		name := w.Table("class."+k, k)
		if k == cohort.NoGrade {
			name = w.T("cohort.nograde")
		}
		y += v.row(x, y, width, name, v.share(s.After[k], s.Fits))
	}
	if s.Fits == 0 {
		y += u.Para(x, y, width, w.T("cohort.nobody"), theme.Body, false, u.T.Soft)
	}
	y = v.deciding(x, y, width)
	head(w.T("cohort.outside"))
	for i, g := range v.all.Gaps() {
		if math.IsNaN(g.Model) {
			continue
		}
		y += u.Para(x, y, width, w.F("cohort.gap", "what", w.T([]string{"cohort.gap.fit", "cohort.gap.seen", "cohort.gap.rule"}[i]), "ours", w.Num(100*g.Model, 0),
			"theirs", w.Num(100*g.Outside, 0), "gap", w.Signed(100*(g.Model-g.Outside), 0)), theme.Body, false, u.T.Ink) + u.S(4)
	}
	y += u.Para(x, y, width, w.T("cohort.practice"), theme.Small, false, u.T.Soft)
	return y
}

// progress says how many patients there are and what is done to them.
func (v *View) progress(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	y += u.Para(x, y, width, w.F("cohort.progress", "n", len(v.g.members), "of", sizes[v.size]), theme.Body, true, u.T.Ink)
	if v.g.failed != nil {
		y += u.Para(x, y, width, v.g.failed.Error(), theme.Body, false, u.T.Worse)
	}
	p, own := v.plan()
	names := ""
	for i, s := range p.Repairs {
		if i > 0 {
			names += ", "
		}
		names += tell.RepairName(w, string(s.Kind))
	}
	key := "cohort.done"
	if !own {
		key = "cohort.default"
	}
	y += u.Para(x, y, width, w.F(key, "repairs", names), theme.Body, false, u.T.Soft) + u.S(6)
	if v.d.V.Engine == valve.ShellEngine {
		y += u.Para(x, y, width, w.T("cohort.sections"), theme.Body, false, u.T.Soft) + u.S(6)
	}
	if v.moved() {
		f := widget.Flow{U: u, X: x, Y: y, W: width}
		u.Button("cohort/whole", f.Next(w.T("cohort.whole")), w.T("cohort.whole"), "", widget.Quiet, false)
		y += f.Height() + u.S(6)
	}
	return y
}

// row writes a name on the left and a value on the right, under each other where they do not fit.
func (v *View) row(x, y, width float64, name, value string) float64 {
	u := v.d.U
	vw := u.Wide(value, theme.Body, true)
	nw := width - vw - u.S(8)
	if nw < width*0.45 {
		h := u.Para(x, y, width, name, theme.Body, false, u.T.Ink)
		return h + u.Para(x, y+h, width, value, theme.Body, true, u.T.Ink) + u.S(3)
	}
	h := u.Para(x, y, nw, name, theme.Body, false, u.T.Ink)
	u.Text(draw.Rect{X: x + width - vw, Y: y, W: vw, H: u.LineHeight(theme.Body)}, value, theme.Body, true, draw.End, u.T.Ink)
	return h + u.S(3)
}

func (v *View) share(n, of int) string {
	if of == 0 {
		return "–"
	}
	return v.d.W().With(100*float64(n)/float64(of), 0, "%")
}

// total adds the groups up.
func total(s *cohort.Summary) cohort.Part {
	t := cohort.Part{After: map[string]int{}}
	for _, p := range s.ByGroup {
		t.N, t.Fits, t.Risk, t.Likely, t.Gradient, t.Narrowed = t.N+p.N, t.Fits+p.Fits, t.Risk+p.Risk, t.Likely+p.Likely, t.Gradient+p.Gradient, t.Narrowed+p.Narrowed
		for k, n := range p.After {
			t.After[k] += n
		}
	}
	return t
}

func byCount(m map[string]int) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool {
		if m[keys[i]] != m[keys[j]] {
			return m[keys[i]] > m[keys[j]]
		}
		return keys[i] < keys[j]
	})
	return keys
}

// decides is the group of which it is told what decides: the one chosen, or the functional.
func (v *View) decides() cohort.Group {
	if v.group > 0 {
		return cohort.Group(v.group - 1)
	}
	return cohort.Functional
}

// deciding draws the strongest rank correlations with their 95 % intervals on a line from −1 to 1.
func (v *View) deciding(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	g, response := v.decides(), measures[v.axis[1]].response()
	y += u.S(6)
	y += u.Para(x, y, width, w.F("cohort.decides", "what", w.T([]string{"cohort.r.width", "cohort.r.leak", "cohort.r.artery"}[response]),
		"group", w.T("cohort.group."+g.String())), theme.Body, true, u.T.Ink) + u.S(3)
	ranks := v.some.Deciding(g, response)
	if len(ranks) == 0 || ranks[0].N < leastRanks {
		return y + u.Para(x, y, width, w.T("cohort.few"), theme.Body, false, u.T.Soft)
	}
	for i, r := range ranks {
		if i == shownRanks {
			break
		}
		name := r.Path
		if k, ok := v.d.S.Knob("anatomy/" + r.Path); ok {
			name = tell.KnobName(w, k)
		}
		text := w.F("cohort.rho", "rho", w.Signed(r.Rho, 2), "low", w.Signed(r.Low, 2), "high", w.Signed(r.High, 2))
		y += u.Para(x, y, width, name, theme.Body, false, u.T.Ink)
		y += u.Para(x, y, width, text, theme.Small, false, u.T.Soft)
		mid := y + u.S(5)
		at := func(rho float64) float64 { return x + width*(rho+1)/2 }
		u.List.FillRect(draw.Rect{X: x, Y: mid, W: width, H: 1}, u.T.Rule)
		u.List.FillRect(draw.Rect{X: at(0), Y: mid - u.S(4), W: 1, H: u.S(8)}, u.T.Edge)
		u.List.Line(u.T.Accent, u.S(3), draw.Point{X: at(r.Low), Y: mid}, draw.Point{X: at(r.High), Y: mid})
		u.Disc(at(r.Rho), mid, u.S(4), u.T.Accent)
		y += u.S(14)
	}
	return y + u.Para(x, y, width, w.F("cohort.ranks", "n", ranks[0].N), theme.Small, false, u.T.Soft)
}

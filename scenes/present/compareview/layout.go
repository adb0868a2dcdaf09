package compareview

import (
	"cmp"
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// Layout limits in logical pixels at 100 %.
const (
	wideFrom    = 900.0
	tallFrom    = 500.0
	leastColumn = 244.0 // of a plan beside others
	mostColumn  = 460.0
	leastMap    = 190.0 // height of a picture
)

// Build lays the scene out in r: names and controls on the left, a column for each plan, and below them the table whose
// columns stand under the plans'.
func (v *View) Build(r draw.Rect) {
	v.d.Small = true
	v.load()
	u := v.d.U
	if r.W < wideFrom*u.Scale || r.H < tallFrom*u.Scale {
		v.narrow(r)
		return
	}
	gap := u.S(theme.Grid)
	left := u.S(232)
	if r.W > u.S(1240) {
		left = u.S(292)
	}
	columns, width := v.columns(r.W-left-gap, gap)
	picH := math.Round(r.H * 0.5)
	key := 0.0 // height of the colour scale under the pictures
	if v.shown().name != "" {
		key = v.legendHeight(r.W-left-gap-u.S(24)) + u.S(12) + gap
	}
	v.d.Panel("compare controls", draw.Rect{X: r.X, Y: r.Y, W: left, H: picH}, 12, func(x, y, w float64) float64 {
		return v.choosePictures(x, v.choosePlans(x, y, w, len(columns)), w, false)
	})
	if len(v.c.Columns) > 0 {
		head := v.headHeight(columns, width-u.S(16))
		for k, i := range columns {
			v.column(i, draw.Rect{X: r.X + left + gap + float64(k)*(width+gap), Y: r.Y, W: width, H: picH - key}, head)
		}
		if len(columns) == 1 {
			v.invite(draw.Rect{X: r.X + left + 2*gap + width, Y: r.Y, W: r.W - left - 2*gap - width, H: picH - key})
		}
		if key > 0 {
			k := draw.Rect{X: r.X + left + gap, Y: r.Y + picH - key + gap, W: r.W - left - gap, H: key - gap}
			u.Card(k)
			v.legend(k.X+u.S(12), k.Y+u.S(6), k.W-u.S(24))
		}
	}
	t := draw.Rect{X: r.X, Y: r.Y + picH + gap, W: r.W, H: r.H - picH - gap}
	u.Card(t)
	x, y, _ := u.BeginPanel("compare table", draw.Rect{X: t.X + u.S(8), Y: t.Y + u.S(8), W: t.W - u.S(8), H: t.H - u.S(16)})
	u.EndPanel(v.table(grid{x: x, y: y, label: left - u.S(8), first: r.X + left + gap, column: width, gap: gap, columns: columns, dense: true}))
}

// columns says which columns have room and how wide each is. The untreated valve always comes first.
func (v *View) columns(room, gap float64) (shown []int, width float64) {
	u := v.d.U
	n := max(len(v.c.Columns), 1)
	fit := min(max(int((room+gap)/(u.S(leastColumn)+gap)), 1), n)
	width = math.Min((room-gap*float64(fit-1))/float64(fit), u.S(mostColumn))
	if len(v.c.Columns) == 0 {
		return nil, width
	}
	if v.first >= n-1 {
		v.first = 0
	}
	shown = append(shown, 0)
	for k := range fit - 1 {
		shown = append(shown, 1+(v.first+k)%(n-1))
	}
	return shown, width
}

// narrow puts everything under each other in one panel that scrolls, two columns at a time where they have room.
func (v *View) narrow(r draw.Rect) {
	u := v.d.U
	u.Card(r)
	in := r.Inset(u.S(8))
	x, y, width := u.BeginPanel("compare", draw.Rect{X: in.X - u.S(4), Y: in.Y, W: in.W + u.S(8), H: in.H})
	x, y, width = x+u.S(4), y+u.S(4), width-u.S(8)
	gap := u.S(theme.Grid)
	shown, column := v.columns(width, gap)
	if n := len(v.c.Columns); n > 1 && len(shown) < 2 { // two side by side even where that is tight
		column = (width - gap) / 2
		if column < u.S(150) {
			column = width
		}
		shown = []int{0, 1 + v.first}
	}
	y = v.choosePlans(x, y, width, len(shown))
	if len(v.c.Columns) > 0 {
		head := v.headHeight(shown, column-u.S(16))
		h := head + u.S(leastMap) + u.S(16)
		px := x
		for _, i := range shown {
			if px+column > x+width+1 {
				px, y = x, y+h+gap
			}
			v.column(i, draw.Rect{X: px, Y: y, W: column, H: h}, head)
			px += column + gap
		}
		y += h + gap
		if len(v.c.Columns) == 1 {
			ih := v.inviteHeight(width)
			v.invite(draw.Rect{X: x, Y: y, W: width, H: ih})
			y += ih + gap
		}
	}
	y = v.choosePictures(x, y, width, true) + u.S(8)
	u.EndPanel(v.table(grid{x: x, y: y, label: width, first: x, column: (width - gap*float64(len(shown)-1)) / float64(max(len(shown), 1)), gap: gap, columns: shown, stacked: true}))
}

// choosePlans says which plans stand beside the untreated valve where not all have room, and offers to add one.
func (v *View) choosePlans(x, y, width float64, shown int) float64 {
	u, w := v.d.U, v.d.W()
	if n := len(v.c.Columns) - 1; shown-1 < n && n > 0 {
		y += u.Para(x, y, width, w.T("compare.first"), theme.Body, true, u.T.Ink) + u.S(4)
		names := make([]string, n)
		for i := range names {
			names[i] = v.name(i + 1)
		}
		y += u.Options("compare/first", x, y, width, w.T("compare.first"), names, v.first) + u.S(10)
	}
	if len(v.d.S.Plans()) < study.MostPlans && len(v.c.Columns) > 1 {
		y += v.addButtons(x, y, width) + u.S(10)
	}
	return y
}

// choosePictures says what the pictures show and from where.
func (v *View) choosePictures(x, y, width float64, legend bool) float64 {
	u, w := v.d.U, v.d.W()
	var names []string
	at := 0
	for k, i := range v.choices() {
		names = append(names, w.T("compare.show."+cmp.Or(shows[i].name, "valve")))
		if shows[i].name == v.shown().name {
			at = k
		}
	}
	y = v.d.Engine(x, y, width) + u.S(2)
	y += u.Para(x, y, width, w.T("compare.shows"), theme.Body, true, u.T.Ink) + u.S(4)
	y += u.Options("compare/show", x, y, width, w.T("compare.shows"), names, at) + u.S(8)
	if legend && v.shown().name != "" {
		y += v.legend(x, y, width) + u.S(10)
	}
	y += v.d.ViewChoice(x, y, width) + u.S(10)
	return y + v.d.TurnButtons(x, y) + u.S(4)
}

// addButtons offers to add the present valve and the built-in comparisons.
func (v *View) addButtons(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	f := widget.Flow{U: u, X: x, Y: y, W: width, Tall: theme.Primary}
	label := w.T("compare.add")
	u.Button("compare/add", f.Next(label), label, "", widget.Loud, false)
	if len(v.d.S.Plans()) < 2 {
		label = w.T("compare.suggest")
		u.Button("compare/suggest", f.Next(label), label, "", widget.Quiet, false)
	}
	return f.Height()
}

// invite says how to begin, where there is nothing yet to compare.
func (v *View) invite(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	u.Card(r)
	in := r.Inset(u.S(20))
	y := in.Y
	y += u.Para(in.X, y, in.W, w.T("compare.begin"), theme.Lead, true, u.T.Ink) + u.S(6)
	y += u.Para(in.X, y, in.W, w.T("compare.how"), theme.Body, false, u.T.Ink) + u.S(12)
	if !v.bare {
		v.addButtons(in.X, y, in.W)
	}
}

func (v *View) inviteHeight(width float64) float64 {
	u, w := v.d.U, v.d.W()
	width -= u.S(40)
	f := widget.Flow{U: u, W: width}
	f.Next(w.T("compare.add"))
	f.Next(w.T("compare.suggest"))
	return u.S(58) + u.Height(w.T("compare.begin"), theme.Lead, true, width) + u.Height(w.T("compare.how"), theme.Body, false, width) + f.Height()
}

package lectern

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"
)

// Type sizes while presenting, logical pixels at 100 %; chosen for the last row of a lecture room.
const (
	bigTitle = 26.0
	bigText  = 22.0
	huge     = 96.0 // of the one number, where it fits
	least    = 28.0
	stage    = 1024.0 // width for which the type sizes are made
	labels   = 1.3    // of the picture, against those of the screen
)

// Cover draws the presentation over the whole screen above foot.
func (v *View) Cover(w, foot float64) {
	u := v.d.U
	if v.blank {
		r := draw.Rect{W: w, H: foot - u.S(4)}
		u.Button("lectern/blank", r, "", v.d.W().T("lectern.blank.off"), widget.Bare, false)
		u.Fill(r, 0, draw.Color{R: 12, G: 12, B: 12, A: 255})
		if u.ShowRing && u.Focus == "lectern/blank" {
			u.Outline(r.Inset(u.S(4)), 0, u.S(3), draw.Color{R: 255, G: 255, B: 255, A: 255})
		}
		return
	}
	scale := u.Scale
	defer func() { u.Scale = scale }()
	u.Scale = math.Max(scale, math.Min(math.Min(w/stage, u.Tall/(stage*0.75)), 2)) // a larger screen is a larger picture, not a smaller type
	v.d.Quiet = !v.shown
	defer func() { v.d.Quiet = false }()
	s := v.order.Steps[v.at]
	pad := u.S(12)
	x, y, width := pad, u.S(8), w-2*pad
	count := v.d.W().F("lectern.count", "at", v.at+1, "n", len(v.order.Steps))
	cw := u.Wide(count, theme.Lead, false) + u.S(8)
	title := s.Title
	if title == "" {
		title = v.name(s.State.Open)
	}
	tw := width - cw - u.S(8)
	u.Text(draw.Rect{X: x + width - cw, Y: y, W: cw, H: u.LineHeight(bigTitle)}, count, theme.Lead, false, draw.End, u.T.Soft)
	y += u.Para(x, y, tw, title, v.fit(title, bigTitle, tw, 2), true, u.T.Ink) + u.S(4)
	bottom := v.row(x, foot-u.S(6), width)
	room := draw.Rect{X: x, Y: y, W: width, H: bottom - y - u.S(8)}
	p, t := room, room
	if room.W > room.H*1.1 {
		p.W = math.Round((room.W - pad) * 0.56)
		t.X, t.W = p.X+p.W+pad, room.W-p.W-pad
	} else {
		p.H = math.Round((room.H - pad) * 0.5)
		t.Y, t.H = p.Y+p.H+pad, room.H-p.H-pad
	}
	u.Card(p)
	in := p.Inset(u.S(4))
	u.Picture("picture", in, v.d.W().T("picture.valve"))
	size := u.Scale
	if in.W > u.S(440) && in.H > u.S(400) { // labels that the last row can read, where they find room
		u.Scale *= labels
	}
	v.d.Plain(in)
	u.Scale = size
	v.words(t, s)
}

// words are the question, the number and, when shown, the sentence. Where there is no room for question and number the
// number comes first once it is shown.
func (v *View) words(r draw.Rect, s Step) {
	u, w := v.d.U, v.d.W()
	x, y, width := u.BeginPanel("lectern/words", r)
	size := v.fit(s.Ask, bigText, width, 5)
	h := u.Height(s.Ask, size, true, width)
	q, ok := valve.FindQuantity(s.Number)
	var n number
	if ok {
		n = v.number(q, width)
	}
	ask := func() {
		if s.Ask != "" {
			u.Info("lectern/ask", draw.Rect{X: x, Y: y, W: width, H: h}, s.Ask, "")
			y += u.Para(x, y, width, s.Ask, size, true, u.T.Ink) + u.S(12)
		}
	}
	first := ok && v.shown && h+u.S(12)+n.height > r.H
	if !first {
		ask()
	}
	if ok {
		y = n.draw(v, x, y, width)
	}
	if first {
		ask()
	}
	if v.shown && !v.d.S.Updating() {
		text := tell.Told(w, v.d.S)
		size := v.fit(text, bigText, width, 8)
		u.Info("lectern/told", draw.Rect{X: x, Y: y, W: width, H: u.Height(text, size, false, width)}, text, "")
		y += u.Para(x, y, width, text, size, false, u.T.Ink)
	}
	if m := v.d.Message; m != "" {
		y += u.Para(x, y+u.S(8), width, "● "+m, theme.Lead, false, u.T.Ink) + u.S(8)
	}
	u.EndPanel(y + u.S(4))
}

// number is the one number, large; dots stand in its place while it is hidden.
type number struct {
	id, label, text, before string
	size, height            float64
}

func (v *View) number(q valve.Quantity, width float64) number {
	u, w := v.d.U, v.d.W()
	n := number{id: "quantity/" + q.Path, label: tell.Label(w, q), text: "· · ·", before: w.T("lectern.hidden")}
	if v.shown && !v.d.S.Stale() && v.d.S.Failure == nil {
		r := &v.d.S.Report
		n.text, n.before = w.With(q.Of(&r.After), q.Decimals, q.Unit), ""
		if len(v.d.S.Case.Repairs) > 0 {
			n.before = w.F("lectern.before", "value", w.With(q.Of(&r.Before), q.Decimals, q.Unit))
		}
	}
	n.size = math.Min(v.fit(n.text, huge, width, 1), math.Max(least, u.Tall/7/u.Scale))
	n.height = u.Height(n.label, theme.Lead, false, width) + u.LineHeight(n.size)
	if n.before != "" {
		n.height += u.Height(n.before, theme.Lead, false, width)
	}
	return n
}

// draw returns the y below.
func (n number) draw(v *View, x, y, width float64) float64 {
	u := v.d.U
	u.Info(n.id, draw.Rect{X: x, Y: y, W: width, H: n.height}, n.label, n.text+" "+n.before)
	y += u.Para(x, y, width, n.label, theme.Lead, false, u.T.Soft)
	y += u.Para(x, y, width, n.text, n.size, true, u.T.Ink)
	if n.before != "" {
		y += u.Para(x, y, width, n.before, theme.Lead, false, u.T.Soft)
	}
	return y + u.S(14)
}

// fit is the largest type size up to most at which a text takes at most so many lines of a width.
func (v *View) fit(text string, most, width float64, lines int) float64 {
	for size := most; size > theme.Lead; size -= 2 {
		if len(v.d.U.Lines(text, size, true, width)) <= lines {
			return size
		}
	}
	return theme.Lead
}

// row is the buttons at the lower edge; it returns the y above them.
func (v *View) row(x, bottom, width float64) float64 {
	u, w := v.d.U, v.d.W()
	show := "lectern.show"
	if v.shown {
		show = "lectern.hide"
	}
	items := []struct {
		id, label string
		off       bool
	}{{"back", w.T("lectern.back"), v.at == 0 && !v.shown}, {"show", w.T(show), false}, {"next", w.T("lectern.next"), v.at+1 == len(v.order.Steps) && v.shown},
		{"blank", w.T("lectern.blank"), false}, {"try", w.T("lectern.try"), false}, {"stop", w.T("lectern.stop"), false}}
	f := widget.Flow{U: u, X: x, Y: 0, W: width, Tall: theme.Primary}
	for _, i := range items {
		f.Next(i.label)
	}
	top := bottom - f.Height()
	f = widget.Flow{U: u, X: x, Y: top, W: width, Tall: theme.Primary}
	for _, i := range items {
		look := widget.Quiet
		if i.id == "show" && !v.shown || i.id == "next" && v.shown {
			look = widget.Loud
		}
		u.Button("lectern/"+i.id, f.Next(i.label), i.label, "", look, i.off)
	}
	return top
}

// answer is the number of the step in words.
func (v *View) answer() string {
	q, ok := valve.FindQuantity(v.order.Steps[v.at].Number)
	if !ok || !v.d.S.Solved {
		return ""
	}
	w, r := v.d.W(), &v.d.S.Report
	return w.F("lectern.answer", "name", tell.Label(w, q), "value", w.With(q.Of(&r.After), q.Decimals, q.Unit), "before", w.With(q.Of(&r.Before), q.Decimals, q.Unit))
}

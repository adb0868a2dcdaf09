package lessonview

import (
	"fmt"
	"math"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/casefile"
)

// quiet is a runner that never answers: knobs are asked for their names without solving.
type quiet struct{}

func (quiet) Submit(uint64, casefile.Case) {}
func (quiet) Poll() (study.Result, bool)   { return study.Result{}, false }

// list draws all lessons with what was done in each.
func (v *View) list(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	v.d.Small = true
	u.Card(r)
	in := r.Inset(u.S(12))
	x, y, width := u.BeginPanel("lessons", in)
	x, y, width = x+u.S(4), y+u.S(2), width-u.S(8)
	y += v.text("lesson/head", x, y, width, w.T("lesson.title"), theme.Title, true, u.T.Ink) + u.S(4)
	y += v.text("lesson/intro", x, y, math.Min(width, u.S(measure)), w.T("lesson.intro"), theme.Body, false, u.T.Soft) + u.S(10)
	columns, gap := 1, u.S(12)
	if width >= u.S(860) {
		columns = 2
	}
	cw := math.Floor((width - gap*float64(columns-1)) / float64(columns))
	names := v.names()
	for i := 0; i < len(names); i += columns {
		tall := 0.0
		row := names[i:min(i+columns, len(names))]
		for _, n := range row {
			tall = math.Max(tall, v.item(n, 0, 0, cw, 0, false))
		}
		for k, n := range row {
			v.item(n, x+float64(k)*(cw+gap), y, cw, tall, true)
		}
		y += tall + gap
	}
	y += u.S(4)
	y += v.text("lesson/private", x, y, math.Min(width, u.S(measure)), w.T("lesson.private"), theme.Body, false, u.T.Soft) + u.S(6)
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	none := len(v.progress.Lessons) == 0
	for _, id := range []string{"save", "forget"} {
		label := w.T("lesson." + id)
		u.Button("lesson/"+id, f.Next(label), label, "", widget.Quiet, none)
	}
	u.EndPanel(y + f.Height() + u.S(8))
}

// item draws one lesson of the list, or only measures it, and returns its height.
func (v *View) item(name string, x, y, width, tall float64, paint bool) float64 {
	u, w := v.d.U, v.d.W()
	l, own := v.find(name)
	e := v.progress.find(name)
	label := w.T("lesson.begin")
	if e.Done {
		label = w.T("lesson.again")
	} else if e.Seen > 0 {
		label = w.T("lesson.go")
	}
	bw, bh := u.ButtonSize(label)
	bh = math.Max(bh, u.S(theme.Primary))
	pad := u.S(12)
	text := width - 2*pad
	title := fmt.Sprintf("%d  %s", l.Order, w.Table("", l.Title))
	summary := w.Table("", l.Summary)
	state := v.state(e, l.Minutes)
	if !own {
		state += " · " + w.T("lesson.english.short")
	}
	bw = math.Min(bw, text)
	side := text - bw - u.S(12)
	below := side < u.S(120)
	sh := u.Height(state, theme.Body, false, side)
	foot := math.Max(bh, sh)
	if below {
		side = text
		sh = u.Height(state, theme.Body, false, side)
		foot = sh + u.S(6) + bh
	}
	h := pad + u.Height(title, reading, true, text) + u.S(4) + u.Height(summary, theme.Body, false, text) + u.S(8) + foot + pad
	if !paint {
		return h
	}
	r := draw.Rect{X: x, Y: y, W: width, H: tall}
	u.Card(r)
	py := y + pad
	th := u.Height(title, reading, true, text) + u.S(4) + u.Height(summary, theme.Body, false, text)
	v.info("lesson/item/"+name, draw.Rect{X: x + u.S(6), Y: py, W: width - u.S(12), H: th}, strings.Join([]string{title, summary, state}, ". "), "")
	py += u.Para(x+pad, py, text, title, reading, true, u.T.Ink) + u.S(4)
	u.Para(x+pad, py, text, summary, theme.Body, false, u.T.Ink)
	fy := y + tall - pad - bh
	sy := fy + (bh-sh)/2
	if below {
		sy = fy - u.S(6) - sh
	}
	ink := u.T.Soft
	if e.Done {
		ink = u.T.Better
	}
	u.Para(x+pad, sy, side, state, theme.Body, false, ink)
	u.Button("lesson/open/"+name, draw.Rect{X: x + width - pad - bw, Y: fy, W: bw, H: bh}, label, label+": "+title, widget.Quiet, false)
	return h
}

// state says how far a lesson was gone through.
func (v *View) state(e Entry, minutes int) string {
	w := v.d.W()
	agreed := 0
	for _, a := range []*Answer{e.Prediction, e.Transfer} {
		if a != nil && a.Agreed != nil && *a.Agreed {
			agreed++
		}
	}
	switch {
	case e.Done:
		return w.F("lesson.state.done", "n", fmt.Sprint(agreed))
	case e.Seen > 0:
		return w.F("lesson.state.at", "n", fmt.Sprint(e.Seen), "of", fmt.Sprint(pages))
	}
	return w.F("lesson.state.new", "n", fmt.Sprint(minutes))
}

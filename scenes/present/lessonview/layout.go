package lessonview

import (
	"fmt"
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"
)

const (
	reading  = theme.Lead // type size of the lessons' text
	measure  = 760.0      // widest column of text, logical pixels at 100 %: about 85 letters
	twoFrom  = 900.0      // width from which numbers stand beside the text
	textPart = 0.46       // share of the text in two columns
)

// text writes a paragraph that a screen reader meets as well, and returns its height.
func (v *View) text(id string, x, y, width float64, s string, size float64, bold bool, ink draw.Color) float64 {
	u := v.d.U
	h := u.Height(s, size, bold, width)
	r := draw.Rect{X: x - u.S(4), Y: y - u.S(2), W: width + u.S(4), H: h + u.S(4)}
	v.info(id, r, s, "")
	u.Para(x, y, width, s, size, bold, ink)
	return h
}

// info registers a text; under the pointer it stays as it is, for it does nothing.
func (v *View) info(id string, r draw.Rect, name, value string) {
	u := v.d.U
	hover := u.Hover
	if hover == id {
		u.Hover = ""
	}
	u.Info(id, r, name, value)
	u.Hover = hover
}

// blocks writes a section and returns the y below.
func (v *View) blocks(l *lesson.Lesson, section string, res lesson.Results, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	for i, b := range l.Sections[section].Blocks {
		s, in, bold, ink := b.Text.Fill(w, res), 0.0, false, u.T.Ink
		switch b.Kind {
		case lesson.Key:
			bold, in = true, u.S(14)
		case lesson.Heading:
			bold = true
			y += u.S(6)
		case lesson.Bullet:
			in = u.S(20)
			u.Disc(x+u.S(8), y+u.LineHeight(reading)/2, u.S(2.5), u.T.Accent)
		}
		h := v.text(fmt.Sprintf("lesson/%s/%d", section, i+1), x+in, y, width-in, s, reading, bold, ink)
		if b.Kind == lesson.Key {
			u.List.FillRect(draw.Rect{X: x, Y: y, W: u.S(4), H: h}, u.T.Accent)
		}
		y += h + u.S(12)
	}
	return y
}

// head writes the heading of a section within a page.
func (v *View) head(id, text string, x, y, width float64) float64 {
	u := v.d.U
	return y + v.text("lesson/heading/"+id, x, y, width, text, theme.Title, true, u.T.Ink) + u.S(8)
}

// tight is the height, in lines of text, below which title and buttons scroll with the page.
const tight = 20

// lesson draws one page: title on top, the ways on below, the page between them.
func (v *View) lesson(l *lesson.Lesson, own bool, r draw.Rect) {
	u := v.d.U
	v.d.Small = true
	u.Card(r)
	in := r.Inset(u.S(12))
	id := fmt.Sprint("lesson ", l.Name, v.page)
	if in.H < tight*u.LineHeight(reading) {
		x, y, width := u.BeginPanel(id, draw.Rect{X: in.X - u.S(4), Y: in.Y, W: in.W + u.S(8), H: in.H})
		x, width = x+u.S(6), width-u.S(10)
		y = v.middle(l, x, v.title(l, own, x, y+u.S(4), width)+u.S(4), width)
		u.EndPanel(y + v.ways(l, x, y, width, true) + u.S(8))
		return
	}
	top := v.title(l, own, in.X, in.Y, in.W)
	h := v.ways(l, in.X, 0, in.W, false)
	x, y, width := u.BeginPanel(id, draw.Rect{X: in.X, Y: top, W: in.W, H: in.Y + in.H - h - top})
	u.EndPanel(v.middle(l, x+u.S(6), y+u.S(6), width-u.S(10)) + u.S(8))
	v.ways(l, in.X, in.Y+in.H-h, in.W, true)
}

// middle draws what stands between title and buttons and returns the y below.
func (v *View) middle(l *lesson.Lesson, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	res, done := v.queue.results(l)
	y = v.head("page", w.T("lesson.section."+sectionOf[v.page]), x, y, width)
	column := math.Min(width, u.S(measure))
	switch v.page {
	case asking:
		y = v.asks(l, x, y, column)
	case computing:
		y = v.reveal(l, "computation", &l.Prediction, &l.Compute, res, done, x, y, width)
	case reasons:
		y = v.blocks(l, "why", res, x, y, column)
	case evidence:
		y = v.proof(l, res, x, y, column)
	case exploring:
		y = v.free(l, res, x, y, column)
	case another:
		y = v.blocks(l, "transfer", res, x, y, column)
		y = v.predict(l, &l.Transfer, x, y, column)
		if v.answer(l) != nil {
			y = v.head("answer", w.T("lesson.section.answer"), x, y+u.S(8), width)
			y = v.reveal(l, "answer", &l.Transfer, &l.After, res, done, x, y, width)
		}
	}
	return y
}

// title writes the lesson's title with the way back to the list; it returns the y below.
func (v *View) title(l *lesson.Lesson, own bool, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	label := w.T("lesson.list")
	bw, bh := u.ButtonSize(label)
	bw = math.Min(bw, width*0.4)
	bh = math.Max(bh, u.Height(label, theme.Body, false, bw-u.S(8))+u.S(8))
	text := width - bw - u.S(20)
	title := w.Table("", l.Title)
	name := w.F("lesson.head", "title", title, "page", w.T("lesson.section."+sectionOf[v.page]), "n", fmt.Sprint(v.page+1), "of", fmt.Sprint(pages))
	th := u.Height(title, theme.Title, true, text)
	v.info("lesson/head", draw.Rect{X: x, Y: y, W: text + u.S(4), H: th}, name, "")
	u.Para(x+u.S(4), y, text, title, theme.Title, true, u.T.Ink)
	u.Button("lesson/list", draw.Rect{X: x + width - bw, Y: y, W: bw, H: bh}, label, "", widget.Quiet, false)
	y += math.Max(th, bh) + u.S(6)
	if !own {
		y += v.text("lesson/language", x+u.S(4), y, width-u.S(8), w.T("lesson.english"), theme.Body, false, u.T.Soft) + u.S(4)
	}
	if v.d.V.Engine == valve.ShellEngine {
		y += v.text("lesson/engine", x+u.S(4), y, width-u.S(8), w.T("lesson.sections"), theme.Body, false, u.T.Soft) + u.S(4)
	}
	u.Rule(x, y, width)
	return y + u.S(4)
}

// ways draws the buttons that lead on and back, and where one is, or only measures them; it returns their height.
func (v *View) ways(l *lesson.Lesson, x, y, width float64, paint bool) float64 {
	u, w := v.d.U, v.d.W()
	e := v.progress.find(l.Name)
	id, label, off := "lesson/next", w.T("lesson.next"), e.Prediction == nil
	if v.page == another {
		id, label, off = "lesson/finish", w.T("lesson.finish"), e.Transfer == nil
	}
	back := w.T("lesson.back")
	h := u.S(theme.Primary)
	bw, _ := u.ButtonSize(back)
	nw, _ := u.ButtonSize(label)
	nw = math.Max(nw, u.S(110))
	where := w.F("lesson.where", "n", fmt.Sprint(v.page+1), "of", fmt.Sprint(pages))
	if off {
		where += ". " + w.T("lesson.first")
	}
	mw := width - bw - nw - u.S(24)
	above := 0.0
	if mw < u.S(120) || u.Height(where, theme.Body, false, mw) > h {
		above = u.Height(where, theme.Body, false, width) + u.S(4)
	}
	if !paint {
		return u.S(8) + above + h
	}
	u.Rule(x, y+u.S(2), width)
	y += u.S(8)
	if above > 0 {
		v.info("lesson/where", draw.Rect{X: x, Y: y, W: width, H: above}, where, "")
		u.Para(x, y, width, where, theme.Body, false, u.T.Soft)
	} else {
		m := draw.Rect{X: x + bw + u.S(12), Y: y, W: mw, H: h}
		v.info("lesson/where", m, where, "")
		u.Centred(m, where, theme.Body, false, u.T.Soft)
	}
	u.Button("lesson/back", draw.Rect{X: x, Y: y + above, W: bw, H: h}, back, "", widget.Quiet, v.page == 0)
	look := widget.Loud
	if off {
		look = widget.Quiet
	}
	u.Button(id, draw.Rect{X: x + width - nw, Y: y + above, W: nw, H: h}, label, "", look, off)
	return u.S(8) + above + h
}

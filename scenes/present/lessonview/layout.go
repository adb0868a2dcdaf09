package lessonview

import (
	"fmt"
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
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

// lesson draws one page: title on top, the ways on below, the page between them.
func (v *View) lesson(l *lesson.Lesson, own bool, r draw.Rect) {
	u, w := v.d.U, v.d.W()
	v.d.Small = true
	u.Card(r)
	in := r.Inset(u.S(12))
	res, done := v.queue.results(l)
	top := v.title(l, own, in)
	bottom := v.ways(l, in)
	area := draw.Rect{X: in.X, Y: top, W: in.W, H: bottom - top}
	x, y, width := u.BeginPanel(fmt.Sprint("lesson ", l.Name, v.page), area)
	x, y, width = x+u.S(6), y+u.S(6), width-u.S(10)
	y = v.head("page", w.T("lesson.section."+sectionOf[v.page]), x, y, width)
	switch v.page {
	case asking:
		y = v.asks(l, x, y, math.Min(width, u.S(measure)))
	case computing:
		y = v.reveal(l, "computation", &l.Prediction, &l.Compute, res, done, x, y, width)
	case reasons:
		y = v.blocks(l, "why", res, x, y, math.Min(width, u.S(measure)))
	case evidence:
		y = v.proof(l, res, x, y, math.Min(width, u.S(measure)))
	case exploring:
		y = v.free(l, res, x, y, math.Min(width, u.S(measure)))
	case another:
		y = v.blocks(l, "transfer", res, x, y, math.Min(width, u.S(measure)))
		y = v.predict(l, &l.Transfer, x, y, math.Min(width, u.S(measure)))
		if v.answer(l) != nil {
			y = v.head("answer", w.T("lesson.section.answer"), x, y+u.S(8), width)
			y = v.reveal(l, "answer", &l.Transfer, &l.After, res, done, x, y, width)
		}
	}
	u.EndPanel(y + u.S(8))
}

// title writes the lesson's title with the way back to the list; it returns the y below.
func (v *View) title(l *lesson.Lesson, own bool, in draw.Rect) float64 {
	u, w := v.d.U, v.d.W()
	label := w.T("lesson.list")
	bw, bh := u.ButtonSize(label)
	bw = math.Min(bw, in.W*0.4)
	bh = math.Max(bh, u.Height(label, theme.Body, false, bw-u.S(8))+u.S(8))
	text := in.W - bw - u.S(16)
	title := w.Table("", l.Title)
	name := w.F("lesson.head", "title", title, "page", w.T("lesson.section."+sectionOf[v.page]), "n", fmt.Sprint(v.page+1), "of", fmt.Sprint(pages))
	th := u.Height(title, theme.Title, true, text)
	v.info("lesson/head", draw.Rect{X: in.X, Y: in.Y, W: text, H: th}, name, "")
	u.Para(in.X+u.S(4), in.Y, text-u.S(4), title, theme.Title, true, u.T.Ink)
	u.Button("lesson/list", draw.Rect{X: in.X + in.W - bw, Y: in.Y, W: bw, H: bh}, label, "", widget.Quiet, false)
	y := in.Y + math.Max(th, bh) + u.S(6)
	if !own {
		y += v.text("lesson/language", in.X+u.S(4), y, in.W-u.S(8), w.T("lesson.english"), theme.Body, false, u.T.Soft) + u.S(4)
	}
	u.Rule(in.X, y, in.W)
	return y + u.S(4)
}

// ways draws the buttons that lead on and back, and where one is; it returns the y above.
func (v *View) ways(l *lesson.Lesson, in draw.Rect) float64 {
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
	y := in.Y + in.H - h
	mw := in.W - bw - nw - u.S(24)
	above := 0.0
	if u.Height(where, theme.Body, false, mw) > h || mw < u.S(120) {
		above = u.Height(where, theme.Body, false, in.W) + u.S(4)
		v.info("lesson/where", draw.Rect{X: in.X, Y: y - above, W: in.W, H: above}, where, "")
		u.Para(in.X, y-above, in.W, where, theme.Body, false, u.T.Soft)
	} else {
		m := draw.Rect{X: in.X + bw + u.S(12), Y: y, W: mw, H: h}
		v.info("lesson/where", m, where, "")
		u.Centred(m, where, theme.Body, false, u.T.Soft)
	}
	u.Button("lesson/back", draw.Rect{X: in.X, Y: y, W: bw, H: h}, back, "", widget.Quiet, v.page == 0)
	look := widget.Loud
	if off {
		look = widget.Quiet
	}
	u.Button(id, draw.Rect{X: in.X + in.W - nw, Y: y, W: nw, H: h}, label, "", look, off)
	u.Rule(in.X, y-above-u.S(6), in.W)
	return y - above - u.S(8)
}

package lessonview

import (
	"fmt"
	"math"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// asks is the first page: the question and the prediction.
func (v *View) asks(l *lesson.Lesson, x, y, width float64) float64 {
	w := v.d.W()
	y = v.blocks(l, "question", nil, x, y, width)
	y = v.head("prediction", w.T("lesson.section.prediction"), x, y+v.d.U.S(4), width)
	y = v.blocks(l, "prediction", nil, x, y, width)
	return v.predict(l, &l.Prediction, x, y, width)
}

// predict draws the choices or the slider with the button that commits them, or what was committed.
func (v *View) predict(l *lesson.Lesson, q *lesson.Question, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	if a := v.answer(l); a != nil {
		return y + v.text("lesson/committed", x, y, width, w.F("lesson.yours", "answer", v.said(q, a)), reading, true, u.T.Ink) + u.S(12)
	}
	if g := q.Number; g != nil {
		name := w.T("lesson.slider")
		if v.moved {
			name = w.T("lesson.slider.moved")
		}
		y += u.Slider(x, y, math.Min(width, u.S(480)), widget.SliderSpec{ID: "lesson/number", Name: name, Value: v.number, Min: g.Min, Max: g.Max, Step: g.Step,
			Mark: math.NaN(), Decimals: g.Decimals, Unit: g.Unit}) + u.S(8)
	} else {
		y += u.Stack("lesson/choice", x, y, width, reading, w.T("lesson.section.prediction"), v.options(q), v.choice) + u.S(6)
	}
	label := w.T("lesson.commit")
	bw, bh := u.ButtonSize(label)
	bw, bh = math.Min(math.Max(bw, u.S(160)), width), math.Max(bh, u.S(theme.Primary))
	bh = math.Max(bh, u.Height(label, theme.Body, true, bw-u.S(8))+u.S(10))
	u.Button("lesson/commit", draw.Rect{X: x, Y: y, W: bw, H: bh}, label, "", widget.Loud, !v.ready(q))
	y += bh + u.S(6)
	return y + u.Para(x, y, width, w.T("lesson.commit.note"), theme.Body, false, u.T.Soft) + u.S(8)
}

func (v *View) options(q *lesson.Question) []string {
	var out []string
	for _, c := range q.Choices {
		out = append(out, v.d.W().Table("", c.Text))
	}
	return out
}

// said is a prediction in words.
func (v *View) said(q *lesson.Question, a *Answer) string {
	if q.Number != nil && a.Number != nil {
		return v.d.W().With(*a.Number, q.Number.Decimals, q.Number.Unit)
	}
	if i := a.Choice - 1; i >= 0 && i < len(q.Choices) {
		return v.d.W().Table("", q.Choices[i].Text)
	}
	return "–"
}

// truth is the model's answer in words.
func (v *View) truth(q *lesson.Question, res lesson.Results) string {
	w := v.d.W()
	if g := q.Number; g != nil {
		if t, ok := g.Truth(res); ok {
			return w.With(t, g.Decimals, g.Unit)
		}
	} else if i := q.Right(res); i >= 0 {
		return w.Table("", q.Choices[i].Text)
	}
	return "–"
}

// verdict tells prediction and model side by side, and why.
func (v *View) verdict(q *lesson.Question, a *Answer, res lesson.Results) string {
	w, because, key := v.d.W(), "", "lesson.differs"
	if j := a.Choice - 1; q.Number == nil && j >= 0 && j < len(q.Choices) {
		because = q.Choices[j].Because.Fill(w, res)
	}
	if agrees(q, a, res) {
		key = "lesson.agreed"
	}
	return strings.TrimSpace(w.F(key, "answer", v.said(q, a), "model", v.truth(q, res), "because", because))
}

// reveal shows what the model says: verdict, text, numbers and pictures, or how far the computation is.
func (v *View) reveal(l *lesson.Lesson, section string, q *lesson.Question, t *lesson.Table, res lesson.Results, done bool, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	if !done {
		say := w.F("lesson.computing", "n", fmt.Sprint(min(len(res)+1, len(l.Plans))), "of", fmt.Sprint(len(l.Plans)))
		if v.queue.failure != "" {
			say = w.F("lesson.failed", "why", v.queue.failure)
		}
		return y + v.text("lesson/computing", x, y, width, say, reading, true, u.T.Ink) + u.S(12)
	}
	left := math.Min(width, u.S(measure))
	two := width >= u.S(twoFrom) && (len(t.Plans) > 0 || t.Picture != "")
	if two {
		left = math.Round(width * textPart)
	}
	ly := y
	verdict := v.verdict(q, v.answer(l), res)
	mark, ink := "▲ ", u.T.Better
	if !agrees(q, v.answer(l), res) {
		mark, ink = "■ ", u.T.Ink
	}
	ly += v.text("lesson/verdict", x+u.S(12), ly, left-u.S(12), mark+verdict, reading, true, ink) + u.S(12)
	u.List.FillRect(draw.Rect{X: x, Y: y, W: u.S(4), H: ly - y - u.S(12)}, u.T.Accent)
	ly = v.blocks(l, section, res, x, ly, left)
	rx, ry, rw := x, ly, width
	if two {
		rx, ry, rw = x+left+u.S(24), y, width-left-u.S(24)
	}
	ry = v.pictures(l, t, res, rx, ry, rw)
	ry = v.bars(l, t, res, rx, ry, rw)
	ry = v.table(l, t, res, rx, ry, rw)
	return math.Max(ly, ry)
}

// proof is the page of published results.
func (v *View) proof(l *lesson.Lesson, res lesson.Results, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	y = v.blocks(l, "evidence", res, x, y, width)
	for i := range l.Evidence {
		y = v.card(&l.Evidence[i], fmt.Sprintf("lesson/card/%d", i+1), res, x, y, width) + u.S(12)
	}
	y = v.head("sources", w.T("lesson.sources"), x, y+u.S(4), width)
	for i, s := range l.Sources {
		y += v.text(fmt.Sprintf("lesson/source/%d", i+1), x, y, width, s.Key+": "+s.Citation, theme.Body, false, u.T.Soft) + u.S(4)
	}
	return y
}

// card draws one published result beside the model's number.
func (v *View) card(e *lesson.Evidence, id string, res lesson.Results, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	pad := u.S(12)
	in := width - 2*pad
	finding, who := w.Table("", e.Finding), w.F("lesson.card.who", "citation", e.Citation, "source", e.Source, "subjects", e.Subjects, "followed", e.Followed)
	model, gap, ok := e.Model(res)
	m, g := "…", "…"
	if ok {
		m, g = w.With(model, e.Decimals, e.Unit), w.Signed(gap, e.Decimals)
	}
	published := w.With(e.Published, e.Decimals, e.Unit)
	if e.Spread != "" {
		published += " (" + e.Spread + ")"
	}
	cells := [][2]string{{w.T("lesson.card.published"), published}, {w.T("lesson.card.model"), m}, {w.T("lesson.card.gap"), g}}
	cw := (in - 2*pad) / 3
	stacked := cw < u.S(130)
	rows := 0.0
	if stacked {
		cw = in
	}
	heights := make([]float64, 3)
	for i, c := range cells {
		heights[i] = u.Height(c[0], theme.Body, false, cw) + u.Height(c[1], theme.Title, true, cw)
		if stacked {
			rows += heights[i] + u.S(4)
		} else {
			rows = math.Max(rows, heights[i])
		}
	}
	h := 2*pad + u.Height(finding, reading, true, in) + u.S(6) + rows + u.S(8) + u.Height(who, theme.Body, false, in)
	if e.Note != "" {
		h += u.S(6) + u.Height(w.Table("", e.Note), theme.Body, false, in)
	}
	r := draw.Rect{X: x, Y: y, W: width, H: h}
	v.info(id, r, e.Card(w, res), "")
	u.Fill(r, u.S(8), u.T.Tint)
	if u.Focus == id && u.ShowRing {
		u.Outline(r, u.S(8), u.S(3), u.T.Focus)
	}
	py := y + pad
	py += u.Para(x+pad, py, in, finding, reading, true, u.T.Ink) + u.S(6)
	for i, c := range cells {
		cx := x + pad + float64(i)*(cw+pad)
		if stacked {
			cx = x + pad
		}
		ch := u.Para(cx, py, cw, c[0], theme.Body, false, u.T.Soft)
		ch += u.Para(cx, py+ch, cw, c[1], theme.Title, true, u.T.Ink)
		if stacked {
			py += ch + u.S(4)
		}
	}
	if !stacked {
		py += rows
	}
	py += u.S(8)
	py += u.Para(x+pad, py, in, who, theme.Body, false, u.T.Ink)
	if e.Note != "" {
		u.Para(x+pad, py+u.S(6), in, w.Table("", e.Note), theme.Body, false, u.T.Soft)
	}
	return y + h
}

// free is the page that leads to free exploration.
func (v *View) free(l *lesson.Lesson, res lesson.Results, x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	y = v.blocks(l, "explore", res, x, y, width)
	y = v.head("controls", w.T("lesson.controls"), x, y+u.S(4), width)
	p, _ := l.Plan(l.Explore.Plan)
	s := study.New(quiet{}, p.Case)
	for i, id := range l.Explore.Controls {
		k, ok := s.Knob(id)
		if !ok {
			continue
		}
		name := tell.KnobName(w, k)
		if kind, ok := strings.CutPrefix(id, "repair/"); ok {
			kind, _, _ = strings.Cut(kind, "/")
			name = tell.RepairName(w, kind) + ": " + name
		}
		u.Disc(x+u.S(8), y+u.LineHeight(reading)/2, u.S(2.5), u.T.Accent)
		y += v.text(fmt.Sprintf("lesson/control/%d", i+1), x+u.S(20), y, width-u.S(20), name, reading, false, u.T.Ink) + u.S(6)
	}
	if l.Explore.Scene == "valve" {
		y += v.text("lesson/more", x, y, width, w.T("lesson.more"), theme.Body, false, u.T.Soft)
	}
	y += u.S(8)
	label := w.F("lesson.explore", "scene", w.T("scene."+l.Explore.Scene))
	bw := math.Min(u.Wide(label, theme.Body, true)+u.S(28), width)
	bh := math.Max(u.Height(label, theme.Body, true, bw-u.S(8))+u.S(12), u.S(theme.Primary))
	u.Button("lesson/explore", draw.Rect{X: x, Y: y, W: bw, H: bh}, label, "", widget.Loud, false)
	y += bh + u.S(8)
	if v.aside != nil {
		g := widget.Flow{U: u, X: x, Y: y, W: width}
		label = w.T("lesson.restore")
		u.Button("lesson/restore", g.Next(label), label, "", widget.Quiet, false)
		y += g.Height() + u.S(8)
	}
	return y + v.text("lesson/return", x, y, width, w.T("lesson.return"), theme.Body, false, u.T.Soft) + u.S(8)
}

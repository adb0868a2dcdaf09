package lectern

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"
)

// numbers are the quantities offered to be shown large.
func numbers() []string {
	return []string{"", "annulus.septal_lateral_mm", "coaptation.contact_mm.mean", "coaptation.gap_mm.max", "regurgitation.effective_orifice_cm2",
		"regurgitation.volume_ml", "opening.anatomic_area_cm2", "opening.mean_gradient_mmhg", "sinus.transmitted_fraction", "artery.worst_view_narrowing_pct"}
}

// Build lays the list out in r.
func (v *View) Build(r draw.Rect) {
	u := v.d.U
	u.Card(r)
	in := r.Inset(u.S(12))
	gap := u.S(20)
	if in.W < u.S(760) {
		x, y, width := u.BeginPanel("lectern", draw.Rect{X: in.X - u.S(4), Y: in.Y, W: in.W + u.S(8), H: in.H})
		y = v.list(x+u.S(4), y+u.S(4), width-u.S(8))
		u.Rule(x, y, width)
		u.EndPanel(v.step(x+u.S(4), y+u.S(12), width-u.S(8)))
		return
	}
	left := math.Round((in.W - gap) * 0.46)
	x, y, width := u.BeginPanel("lectern/list", draw.Rect{X: in.X - u.S(4), Y: in.Y, W: left + u.S(8), H: in.H})
	u.EndPanel(v.list(x+u.S(4), y+u.S(4), width-u.S(8)))
	x, y, width = u.BeginPanel("lectern/step", draw.Rect{X: in.X + left + gap - u.S(4), Y: in.Y, W: in.W - left - gap + u.S(8), H: in.H})
	u.EndPanel(v.step(x+u.S(4), y+u.S(4), width-u.S(8)))
}

// reading writes a paragraph that the page's HTML side has too.
func (v *View) reading(id string, x, y, width float64, text string, bold bool, c draw.Color) float64 {
	u := v.d.U
	u.Info("lectern/read/"+id, draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(4), H: u.Height(text, theme.Body, bold, width)}, text, "")
	return u.Para(x, y, width, text, theme.Body, bold, c)
}

func (v *View) flow(x, y, width float64, ids ...string) float64 {
	u, w := v.d.U, v.d.W()
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	for _, id := range ids {
		label := w.T("lectern." + id)
		off := id == "remove" && len(v.order.Steps) == 0 || id == "earlier" && v.at == 0 || id == "later" && v.at+1 >= len(v.order.Steps) ||
			(id == "save" || id == "sheet") && len(v.order.Steps) == 0
		u.Button("lectern/"+id, f.Next(label), label, "", widget.Quiet, off)
	}
	return y + f.Height() + u.S(10)
}

// list is the running order and what can be done with all of it.
func (v *View) list(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	y += v.reading("intro", x, y, width, w.T("lectern.intro"), false, u.T.Soft) + u.S(8)
	if len(v.order.Steps) > 0 {
		label := w.T("lectern.start")
		bw, bh := u.ButtonSize(label)
		bw = math.Min(math.Max(bw, u.S(160)), width)
		bh = math.Max(math.Max(bh, u.S(theme.Primary)), u.Height(label, theme.Body, true, bw-u.S(8))+u.S(8))
		u.Button("lectern/start", draw.Rect{X: x, Y: y, W: bw, H: bh}, label, "", widget.Loud, false)
		y += bh + u.S(10)
		y += u.Switch("lectern/light", x, y, width, w.T("lectern.light"), v.light, false) + u.S(10)
	}
	y = v.flow(x, y, width, "add", "demo", "open", "save", "sheet", "full")
	for i, s := range v.order.Steps {
		text := fmt.Sprintf("%d  %s", i+1, v.titleOf(s))
		h := math.Max(u.Height(text, theme.Body, i == v.at, width-u.S(20))+u.S(10), u.S(32))
		r := draw.Rect{X: x, Y: y, W: width, H: h}
		id := "lectern/step/" + strconv.Itoa(i)
		spoken := text
		if i == v.at {
			spoken += ", " + w.T("lectern.chosen")
		}
		look := widget.Quiet
		u.Button(id, r, "", spoken, look, false)
		if i == v.at {
			u.Fill(r.Inset(u.S(2)), u.S(4), u.T.Tint)
			u.List.FillRect(draw.Rect{X: x, Y: y + u.S(4), W: u.S(4), H: h - u.S(8)}, u.T.Accent)
		}
		u.Para(x+u.S(10), y+(h-u.Height(text, theme.Body, i == v.at, width-u.S(20)))/2, width-u.S(20), text, theme.Body, i == v.at, u.T.Ink)
		y += h + u.S(4)
	}
	return y + u.S(8)
}

func (v *View) titleOf(s Step) string {
	if s.Title == "" {
		return v.name(s.State.Open)
	}
	return s.Title
}

// step is what belongs to the step chosen.
func (v *View) step(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	if len(v.order.Steps) == 0 {
		return y + v.reading("empty", x, y, width, w.T("lectern.empty"), false, u.T.Ink)
	}
	s := v.order.Steps[v.at]
	y += v.reading("now", x, y, width, w.F("lectern.count", "at", v.at+1, "n", len(v.order.Steps))+": "+v.name(s.State.Open), true, u.T.Ink) + u.S(8)
	y = v.flow(x, y, width, "earlier", "later", "remove", "replace")
	for _, t := range []struct{ id, text string }{{"title", s.Title}, {"ask", s.Ask}, {"note", s.Note}} {
		y += u.Note("lectern/text/"+t.id, x, y, width, w.T("lectern.text."+t.id), t.text) + u.S(8)
	}
	y += u.Para(x, y, width, w.T("lectern.number"), theme.Small, false, u.T.Soft) + u.S(2)
	var names []string
	at := 0
	for i, path := range numbers() {
		name := w.T("lectern.number.none")
		if q, ok := valve.FindQuantity(path); ok {
			name = tell.Label(w, q)
		}
		names = append(names, name)
		if path == s.Number {
			at = i
		}
	}
	y += u.Options("lectern/number", x, y, width, w.T("lectern.number"), names, at) + u.S(16)
	return y + u.Para(x, y, width, w.T("lectern.second"), theme.Small, false, u.T.Soft) + u.S(8)
}

// edit does what an action on the list asks for and tells whether it was one.
func (v *View) edit(a widget.Action) bool {
	steps := v.order.Steps
	if id, ok := strings.CutPrefix(a.ID, "lectern/step/"); ok {
		if i, err := strconv.Atoi(id); err == nil && i < len(steps) {
			v.at = i
		}
		return true
	}
	switch a.ID {
	case "lectern/add":
		if len(steps) >= mostSteps {
			v.d.Say(v.d.W().F("lectern.full.list", "n", mostSteps), true)
			return true
		}
		doc := v.document()
		if doc.Scene == "lectern" {
			doc.Scene = "valve"
		}
		v.order.Steps = append(steps[:len(steps):len(steps)], Step{Title: v.name(doc.Open), Number: "regurgitation.effective_orifice_cm2", State: doc})
		v.at = len(v.order.Steps) - 1
	case "lectern/replace":
		doc := v.document()
		doc.Scene = steps[v.at].State.Scene
		steps[v.at].State = doc
		v.d.Say(v.d.W().T("lectern.replaced"), false)
	case "lectern/remove":
		v.order.Steps = append(steps[:v.at:v.at], steps[v.at+1:]...)
		v.at = max(0, min(v.at, len(v.order.Steps)-1))
	case "lectern/earlier":
		steps[v.at], steps[v.at-1] = steps[v.at-1], steps[v.at]
		v.at--
	case "lectern/later":
		steps[v.at], steps[v.at+1] = steps[v.at+1], steps[v.at]
		v.at++
	case "lectern/text/title":
		steps[v.at].Title = a.Text
	case "lectern/text/ask":
		steps[v.at].Ask = a.Text
	case "lectern/text/note":
		steps[v.at].Note = a.Text
	case "lectern/number":
		steps[v.at].Number = numbers()[a.Index]
	case "lectern/light":
		v.light = a.Value > 0
	case "lectern/demo":
		v.Use(Demonstration(v.d.W(), v.cases))
	case "lectern/save":
		v.keep("annuloscope-order.json", v.order.Encode())
	case "lectern/sheet":
		v.keep("annuloscope-notes.txt", []byte(v.Sheet()))
	case "lectern/open":
		v.d.Wish(present.Wish{Kind: present.OpenFile, Done: func(_ string, err error) {
			if err != nil {
				v.d.Say(v.d.W().T("share.drop"), false)
			}
		}})
	case "lectern/full":
		v.d.Wish(present.Wish{Kind: present.FullScreen})
	default:
		return false
	}
	return true
}

// keep saves a file and says where it is.
func (v *View) keep(name string, data []byte) {
	v.d.Wish(present.Wish{Kind: present.SaveFile, Name: name, Data: data, Done: func(where string, err error) {
		if err != nil {
			v.d.Refuse(err)
			return
		}
		v.d.Say(v.d.W().F("share.saved", "where", where), false)
	}})
}

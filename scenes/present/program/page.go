package program

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
)

// open shows a page over the scene; close goes back to it.
func (p *Program) open(page string) {
	if p.page == "" {
		p.from = p.d.U.Focus
	}
	p.page, p.dirty = page, true
	p.d.U.SetFocus("close") // hides an explanation that is in view
}

func (p *Program) close() {
	p.page, p.dirty = "", true
	p.d.U.Focus = p.from
}

// sheet begins a page: title, button to close, and a scrolling panel of readable width.
func (p *Program) sheet(title string) (x, y, width float64) {
	u, w := p.d.U, p.d.W()
	u.Modal()
	foot := p.foot(u.Width, u.Tall)
	pad := u.S(16)
	inner := math.Min(u.Width-2*pad, u.S(760))
	left := math.Round((u.Width - inner) / 2)
	label := w.T("button.close")
	bw, bh := u.ButtonSize(label)
	bh = math.Max(bh, u.S(theme.Primary))
	tw := inner - bw - u.S(16)
	th := math.Max(u.Height(title, theme.Title, true, tw), bh)
	u.Para(left, pad+(th-u.Height(title, theme.Title, true, tw))/2, tw, title, theme.Title, true, u.T.Ink)
	u.Button("close", draw.Rect{X: left + inner - bw, Y: pad, W: bw, H: bh}, label, "", widget.Loud, false)
	top := pad + th + u.S(12)
	u.Rule(left, top-u.S(6), inner)
	px, py, pw := u.BeginPanel(p.page, draw.Rect{X: left - u.S(6), Y: top, W: inner + u.S(6), H: foot - top - u.S(8)})
	return px + u.S(6), py + u.S(6), pw - u.S(6)
}

func (p *Program) help() {
	u, w := p.d.U, p.d.W()
	x, y, width := p.sheet(w.T("help.title"))
	for _, key := range []string{"help.first", "help.intro", "help.reader"} {
		y += p.reading(key, x, y, width, w.T(key), theme.Body, key == "help.first") + u.S(6)
	}
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	p.buttons(&f, []string{"knows", "share"})
	y += f.Height() + u.S(12)
	keys := 0.0
	for _, s := range Shortcuts() {
		keys = math.Max(keys, u.Wide(w.Keys(s.Keys), theme.Body, true))
	}
	keys = math.Min(keys+u.S(16), width*0.4)
	for _, s := range Shortcuts() {
		text, name := w.T(s.Help), w.Keys(s.Keys)
		h := math.Max(u.Height(name, theme.Body, true, keys-u.S(12)), u.Height(text, theme.Body, false, width-keys)) + u.S(8)
		u.Info("key/"+s.Help, draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(4), H: h}, name, text)
		u.Para(x, y+u.S(4), keys-u.S(12), name, theme.Body, true, u.T.Ink)
		u.Para(x+keys, y+u.S(4), width-keys, text, theme.Body, false, u.T.Ink)
		y += h
		u.Rule(x, y, width)
	}
	y += u.S(16)
	y += u.Para(x, y, width, w.T("share.address"), theme.Body, true, u.T.Ink) + u.S(4)
	y = p.parameters(x, y, width)
	u.EndPanel(y + u.S(8))
}

// languages are those of the words; the test language is offered only when it is in use.
func (p *Program) languages() []words.Language {
	all := words.Languages()
	if p.d.W().Lang == words.Double {
		all = append(all, words.Double)
	}
	return all
}

func (p *Program) settings() {
	u, w, s := p.d.U, p.d.W(), &p.d.P
	x, y, width := p.sheet(w.T("settings.title"))
	head := func(key string) {
		y += u.Para(x, y, width, w.T(key), theme.Body, true, u.T.Ink) + u.S(4)
	}
	head("settings.theme")
	var names []string
	at := 0
	for i, n := range theme.Names() {
		names = append(names, w.T("theme."+n))
		if n == s.Theme {
			at = i
		}
	}
	y += u.Options("set/theme", x, y, width, w.T("settings.theme"), names, at) + u.S(16)
	head("settings.language")
	names, at = nil, 0
	for i, l := range p.languages() {
		names = append(names, w.T("language."+string(l)))
		if string(l) == s.Language {
			at = i
		}
	}
	y += u.Options("set/language", x, y, width, w.T("settings.language"), names, at) + u.S(16)
	y += u.Slider(x, y, math.Min(width, u.S(360)), widget.SliderSpec{ID: "set/scale", Name: w.T("settings.scale"), Value: math.Round(s.Scale * 100), Min: 100, Max: 200, Step: 10, Mark: 100, Unit: "%"}) + u.S(12)
	y += u.Slider(x, y, math.Min(width, u.S(360)), widget.SliderSpec{ID: "set/speed", Name: w.T("settings.speed"), Value: math.Round(p.d.V.Speed * 100), Min: 5, Max: 200, Step: 5, Mark: 100, Unit: "%"}) + u.S(12)
	y += u.Switch("set/still", x, y, width, w.T("settings.still"), s.Still, false) + u.S(8)
	y += u.Switch("set/onekey", x, y, width, w.T("settings.onekey"), s.OneKey, false) + u.S(8)
	u.EndPanel(y)
}

func (p *Program) applySetting(a widget.Action) {
	s := &p.d.P
	switch a.ID {
	case "set/theme":
		s.Theme = theme.Names()[a.Index]
	case "set/language":
		s.Language = string(p.languages()[a.Index])
	case "set/scale":
		s.Scale = a.Value / 100
	case "set/speed":
		p.d.V.Speed = a.Value / 100
	case "set/still":
		s.Still = a.Value > 0
	case "set/onekey":
		s.OneKey = a.Value > 0
	}
	p.Settings()
}

func (p *Program) chooseCase() {
	u, w := p.d.U, p.d.W()
	x, y, width := p.sheet(w.T("cases.title"))
	y += p.reading("cases.intro", x, y, width, w.T("cases.intro"), theme.Body, false) + u.S(12)
	label := w.T("cases.open")
	bw, _ := u.ButtonSize(label)
	bw = math.Min(math.Max(bw, u.S(88)), width*0.4)
	bh := u.S(theme.Primary)
	for i, c := range p.cases {
		title, note := tell.Title(w, c), w.Table("casenote."+c.Name, c.Note)
		if c.Name == p.d.S.Case.Name {
			title += " (" + w.T("cases.now") + ")"
		}
		tw := width - bw - u.S(32)
		h := u.Height(title, theme.Body, true, tw) + u.Height(note, theme.Body, false, tw)
		h = math.Max(h, bh) + u.S(16)
		r := draw.Rect{X: x, Y: y, W: width, H: h}
		u.Card(r)
		ty := y + u.S(8)
		ty += u.Para(x+u.S(12), ty, tw, title, theme.Body, true, u.T.Ink)
		u.Para(x+u.S(12), ty, tw, note, theme.Body, false, u.T.Ink)
		u.Button("case/"+c.Name, draw.Rect{X: x + width - bw - u.S(12), Y: y + (h-bh)/2, W: bw, H: bh}, label, label+": "+title+". "+note, widget.Quiet, false)
		y += h + u.S(8)
		_ = i
	}
	u.EndPanel(y)
}

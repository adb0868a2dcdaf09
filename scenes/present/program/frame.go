package program

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// frame draws head, sentence, scene and foot.
func (p *Program) frame(w, h float64) {
	u := p.d.U
	pad := u.S(theme.Grid)
	top := p.head(pad, u.S(6), w-2*pad)
	foot := p.foot(w, h)
	top = p.sentence(pad, top, w-2*pad, foot-top)
	if p.page != "" {
		return
	}
	p.scenes[p.at].Build(draw.Rect{X: pad, Y: top, W: w - 2*pad, H: foot - top - pad})
	u.Last("knows") // the foot comes after the scene
}

// head is the row of scenes and common buttons; it returns the y below. What does not fit goes into the menu: first the
// name of the program, then the less used buttons, at last the scenes themselves.
func (p *Program) head(x, y, width float64) float64 {
	u, w := p.d.U, p.d.W()
	names := p.sceneNames()
	tabs := -u.S(4)
	for _, n := range names {
		bw, _ := u.ButtonSize(n)
		tabs += bw + u.S(4)
	}
	brand := u.Wide(w.T("app.name"), theme.Lead, true) + u.S(20)
	all, few := p.common(), []string{"undo", "redo", "menu"}
	if p.minimal {
		all, few = []string{"undo", "help"}, []string{"undo", "help", "menu"}
	}
	gap, rowH := u.S(16), u.S(32)
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	ids := all
	switch {
	case brand+tabs+gap+p.wide(all) <= width:
		u.Text(draw.Rect{X: x + u.S(4), Y: y, W: brand, H: rowH}, w.T("app.name"), theme.Lead, true, draw.Start, u.T.Ink)
		u.Options("scene", x+brand, y, width-brand, w.T("scene.all"), names, p.at)
	case tabs+gap+p.wide(all) <= width:
		u.Options("scene", x, y, width, w.T("scene.all"), names, p.at)
	case tabs+gap+p.wide(few) <= width:
		ids = few
		u.Options("scene", x, y, width, w.T("scene.all"), names, p.at)
	case tabs <= width && u.Scale < 1.45 && p.wide(all) <= width:
		f.Y += u.Options("scene", x, y, width, w.T("scene.all"), names, p.at) + u.S(6)
	default:
		ids = append([]string{"scene"}, few...)
		f.W = width
		p.buttons(&f, ids)
		return f.Y + f.Height() + u.S(6)
	}
	f.W = math.Min(p.wide(ids), width)
	f.X = x + width - f.W
	p.buttons(&f, ids)
	return f.Y + math.Max(f.Height(), rowH) + u.S(6)
}

// common lists the buttons of every scene.
func (p *Program) common() []string {
	return []string{"undo", "redo", "reset", "cases", "share", "export", "settings", "help"}
}

func (p *Program) sceneNames() []string {
	var names []string
	for _, n := range p.names {
		names = append(names, p.d.W().T("scene."+n))
	}
	return names
}

// face is the label of a common button; the one named scene tells which is shown and opens the menu.
func (p *Program) face(id string) string {
	w := p.d.W()
	if id == "scene" {
		return w.F("button.scene", "name", w.T("scene."+p.names[p.at]))
	}
	return w.T("button." + id)
}

// wide is the width of a row of common buttons.
func (p *Program) wide(ids []string) float64 {
	u := p.d.U
	total := -u.S(6)
	for _, id := range ids {
		bw, _ := u.ButtonSize(p.face(id))
		total += bw + u.S(6)
	}
	return total
}

func (p *Program) buttons(f *widget.Flow, ids []string) {
	for _, id := range ids {
		label := p.face(id)
		off := id == "undo" && !p.d.S.CanUndo() || id == "redo" && !p.d.S.CanRedo()
		if id == "scene" {
			id = "scenes"
		}
		f.U.Button(id, f.Next(label), label, "", widget.Quiet, off)
	}
}

// sentence is the line on top that says what just changed and why; on a very small screen it scrolls.
func (p *Program) sentence(x, y, width, room float64) float64 {
	u := p.d.U
	text := p.says()
	size := theme.Lead
	inner := width - u.S(28)
	h := u.Height(text, size, false, inner)
	if h > room*0.16 {
		size = theme.Body
		h = u.Height(text, size, false, inner)
	}
	msg, msgH := p.d.Message, 0.0
	if msg != "" {
		msgH = u.Height(msg, theme.Body, false, inner) + u.S(4)
	}
	total := h + msgH
	switch { // the causes come last: their lines keep their room, so that nothing moves up and down while a slider is dragged
	case !p.d.S.Updating():
		p.told, p.toldIn = total, width
	case p.toldIn == width:
		total = math.Max(total, p.told)
	}
	lines := math.Max(math.Floor(room*0.24/u.LineHeight(size)), 2)
	most := lines * u.LineHeight(size)
	r := draw.Rect{X: x, Y: y, W: width, H: math.Min(total, most) + u.S(12)}
	u.Fill(r, u.S(6), u.T.Tint)
	bar := u.T.Accent
	if p.d.S.Stale() {
		bar = u.T.Edge
	}
	u.List.FillRect(draw.Rect{X: x, Y: y + u.S(4), W: u.S(4), H: r.H - u.S(8)}, bar)
	in := draw.Rect{X: x + u.S(12), Y: y + u.S(6), W: width - u.S(14), H: r.H - u.S(12)}
	px, py, _ := u.BeginPanel("sentence", in)
	if total > most { // something to hold on to, so that the keyboard can scroll it
		u.Info("sentence", draw.Rect{X: px, Y: py, W: inner, H: total}, text, "")
	}
	py += u.Para(px, py, inner, text, size, false, u.T.Ink)
	if msg != "" {
		ink, mark := u.T.Ink, "● "
		if p.d.Bad {
			ink, mark = u.T.Worse, "■ "
		}
		py += u.Para(px, py+u.S(4), inner, mark+msg, theme.Body, false, ink) + u.S(4)
	}
	u.EndPanel(py)
	return y + r.H + u.S(theme.Grid)
}

// foot is the caution, always in view, and the state of the computation; it returns the y above.
func (p *Program) foot(w, h float64) float64 {
	u, t := p.d.U, p.d.W()
	pad := u.S(theme.Grid)
	status := t.T("state.ready")
	switch {
	case p.d.S.Failure != nil:
		status = t.T("state.failed")
	case p.d.S.Stale():
		status = t.T("state.updating")
	case p.d.S.Explaining():
		status = t.T("state.explaining")
	case p.d.S.Settling():
		status = t.T("shell.settling.short")
	}
	sw := u.Wide(status, theme.Small, false) + u.S(8)
	cw := w - 2*pad - sw
	caution := "⚠ " + p.caution()
	if cw < u.S(240) {
		cw, sw = w-2*pad, 0
	}
	ch := u.Height(caution, theme.Small, true, cw)
	y := h - ch - u.S(5)
	u.Rule(0, y-u.S(3), w)
	if p.page == "" && !p.lecturing() {
		p.limits(pad, y, cw, ch, caution)
	}
	u.Para(pad, y, cw, caution, theme.Small, true, u.T.Ink)
	if sw > 0 {
		u.Text(draw.Rect{X: w - pad - sw, Y: y, W: sw, H: u.LineHeight(theme.Small)}, status, theme.Small, false, draw.End, u.T.Soft)
	}
	return y - u.S(4)
}

// limits is the way from the foot to what the model does not know: a link beside the caution, or the caution itself
// where there is no room.
func (p *Program) limits(x, y, width, height float64, caution string) {
	u, text := p.d.U, p.d.W().T("foot.knows")
	lw, lh := u.Wide(text, theme.Small, false)+u.S(8), u.LineHeight(theme.Small)
	r := draw.Rect{X: x - u.S(4), Y: y - u.S(3), W: width, H: math.Max(height+u.S(6), u.S(theme.Target))}
	if used := u.Wide(caution, theme.Small, true) + u.S(24); used+lw <= width {
		r.X, r.W = x+width-lw-u.S(8), lw
		u.Button("knows", r, "", p.d.W().T("button.knows"), widget.Bare, false)
		u.Text(draw.Rect{X: r.X + u.S(4), Y: y, W: lw - u.S(8), H: lh}, text, theme.Small, false, draw.Start, u.T.Accent)
		u.List.FillRect(draw.Rect{X: r.X + u.S(4), Y: y + lh - u.S(1), W: lw - u.S(8), H: 1}, u.T.Accent)
		return
	}
	u.Button("knows", r, "", caution+": "+p.d.W().T("button.knows"), widget.Bare, false)
}

package program

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// page draws the page of that name, which lies over the scene and covers it; nil if there is none.
func page(name string) func(*Program) {
	switch name {
	case "help":
		return (*Program).help
	case "settings":
		return (*Program).settings
	case "cases":
		return (*Program).chooseCase
	case "share":
		return (*Program).share
	case "export":
		return (*Program).exportSheet
	case "knows":
		return (*Program).knows
	case "menu":
		return (*Program).menu
	}
	return nil
}

// Pages lists the pages.
func Pages() []string {
	return []string{"help", "settings", "cases", "share", "export", "knows", "menu"}
}

func (p *Program) drawPage() {
	if draw := page(p.page); draw != nil {
		draw(p)
	}
}

// reading writes a paragraph that can also be read on the page's HTML side and held on to by the keyboard to scroll; it
// returns its height.
func (p *Program) reading(id string, x, y, width float64, text string, size float64, bold bool) float64 {
	u := p.d.U
	u.Info("read/"+id, draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(4), H: u.Height(text, size, bold, width)}, text, "")
	return u.Para(x, y, width, text, size, bold, u.T.Ink)
}

// menu holds all scenes and all common buttons, for screens on which the row on top has no room for them.
func (p *Program) menu() {
	u, w := p.d.U, p.d.W()
	x, y, width := p.sheet(w.T("button.menu"))
	y += u.Para(x, y, width, w.T("scene.all"), theme.Body, true, u.T.Ink) + u.S(4)
	y += u.Options("scene", x, y, width, w.T("scene.all"), p.sceneNames(), p.at) + u.S(20)
	f := widget.Flow{U: u, X: x, Y: y, W: width}
	p.buttons(&f, append(p.common(), "knows"))
	u.EndPanel(y + f.Height() + u.S(8))
}

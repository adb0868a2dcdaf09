package program

import (
	"math"
	"strings"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/link"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// PageAddress stands in a copied link for the address of the page itself, which only the browser knows.
const PageAddress = "{page}"

// servedAt is where `annuloscope serve` answers unless told otherwise; a window's links lead there.
const servedAt = "http://127.0.0.1:8080/"

// Link is the whole state as an address.
func (p *Program) Link() string {
	return p.base() + "#" + link.Encode(p.Document().Encode())
}

func (p *Program) base() string {
	if p.address == "" {
		return servedAt
	}
	return p.address
}

// Embed is HTML that shows the state in a frame of another page.
func (p *Program) Embed() string {
	return `<iframe src="` + p.base() + `?minimal=1#` + link.Encode(p.Document().Encode()) + `" title="Annuloscope, educational only" width="1024" height="768" allow="clipboard-write; fullscreen"></iframe>`
}

// share is the page for sharing the state.
func (p *Program) share() {
	u, w := p.d.U, p.d.W()
	x, y, width := p.sheet(w.T("share.title"))
	para := func(id, text string, bold bool) { y += p.reading(id, x, y, width, text, theme.Body, bold) + u.S(8) }
	para("share.intro", w.T("share.intro"), false)
	text := p.Link()
	size := len(text) - len(PageAddress)
	para("share.size", w.F("share.size", "n", w.Num(float64(size), 0), "file", w.Num(float64(len(p.Document().Encode())), 0)), false)
	buttons := func(ids ...string) {
		f := widget.Flow{U: u, X: x, Y: y, W: width}
		for _, id := range ids {
			label := w.T("share." + id)
			r := f.Next(label)
			u.Button("share/"+id, r, label, "", widget.Quiet, false)
		}
		y += f.Height() + u.S(12)
	}
	buttons("copy", "embed")
	buttons("save", "open")
	if msg := p.d.Message; msg != "" {
		ink, mark := u.T.Ink, "● "
		if p.d.Bad {
			ink, mark = u.T.Worse, "■ "
		}
		y += u.Para(x, y, width, mark+msg, theme.Body, true, ink) + u.S(8)
	}
	if p.address == "" {
		para("share.local", w.F("share.local", "address", servedAt), false)
	}
	para("share.frame", w.T("share.frame"), false)
	para("share.address", w.T("share.address"), true)
	y = p.parameters(x, y, width)
	u.EndPanel(y + u.S(8))
}

// parameters lists what an address may ask for.
func (p *Program) parameters(x, y, width float64) float64 {
	w := p.d.W()
	for _, q := range Parameters() {
		y = p.pair(x, y, width, "address/"+q.Name, q.Example, w.T(q.Help))
	}
	return y
}

// pair draws a bold term with its meaning beside it, or below it where there is little room.
func (p *Program) pair(x, y, width float64, id, term, text string) float64 {
	u := p.d.U
	col := math.Min(u.S(280), width*0.45)
	h := math.Max(u.Height(term, theme.Body, true, col-u.S(12)), u.Height(text, theme.Body, false, width-col)) + u.S(8)
	u.Info(id, draw.Rect{X: x - u.S(4), Y: y, W: width + u.S(4), H: h}, term, text)
	u.Para(x, y+u.S(4), col-u.S(12), term, theme.Body, true, u.T.Ink)
	u.Para(x+col, y+u.S(4), width-col, text, theme.Body, false, u.T.Ink)
	y += h
	u.Rule(x, y, width)
	return y
}

// applyShare does what a button of the page says and tells whether it was one.
func (p *Program) applyShare(id string) bool {
	w := p.d.W()
	switch id {
	case "share/copy":
		p.d.Wish(present.Wish{Kind: present.SetAddress, Text: link.Encode(p.Document().Encode())})
		p.copy(p.Link(), w.T("share.copied"), "annuloscope-link.txt")
	case "share/embed":
		p.copy(p.Embed(), w.T("share.embedded"), "annuloscope-embed.html")
	case "share/save":
		p.keepFile("annuloscope-"+fileName(p.d.S.Case.Name)+".json", p.Document().Encode())
	case "share/open":
		p.d.Wish(present.Wish{Kind: present.OpenFile, Done: func(_ string, err error) {
			if err != nil {
				p.d.Say(p.d.W().T("share.drop"), false)
				p.dirty = true
			}
		}})
	default:
		return false
	}
	return true
}

// copy puts a text on the clipboard, or into a file where there is none, and says which.
func (p *Program) copy(text, done, name string) {
	p.d.Wish(present.Wish{Kind: present.CopyText, Text: text, Done: func(_ string, err error) {
		p.dirty = true
		if err == nil {
			p.d.Say(done, false)
			return
		}
		p.keepFile(name, []byte(text+"\n"))
	}})
}

// keepFile saves a file and says where it is.
func (p *Program) keepFile(name string, data []byte) {
	p.d.Wish(present.Wish{Kind: present.SaveFile, Name: name, Data: data, Done: func(where string, err error) {
		p.dirty = true
		if err != nil {
			p.d.Refuse(err)
			return
		}
		p.d.Say(p.d.W().F("share.saved", "where", where), false)
	}})
}

// fileName leaves only what every file system takes.
func fileName(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_' {
			return r
		}
		return '-'
	}, s)
}

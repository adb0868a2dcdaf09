package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
)

type panel struct {
	id      string
	rect    draw.Rect
	content float64 // height of what it holds
	thumb   draw.Rect
}

// gutter is the room kept for the scroll bar.
func (u *UI) gutter() float64 { return u.S(14) }

// BeginPanel opens a panel that scrolls when its content is taller than r. Content is laid out from the returned x, y
// in the returned width; EndPanel takes the y at which it ended.
func (u *UI) BeginPanel(id string, r draw.Rect) (x, y, width float64) {
	u.panels = append(u.panels, panel{id: id, rect: r})
	u.open = append(u.open, len(u.panels)-1)
	u.List.PushClip(r)
	return r.X, r.Y - u.scroll[id], r.W - u.gutter()
}

// EndPanel closes the panel opened last; bottom is the y below its content.
func (u *UI) EndPanel(bottom float64) {
	i := u.open[len(u.open)-1]
	u.open = u.open[:len(u.open)-1]
	u.List.PopClip()
	p := &u.panels[i]
	p.content = bottom - (p.rect.Y - u.scroll[p.id])
	most := math.Max(0, p.content-p.rect.H)
	if u.scroll[p.id] > most {
		u.scroll[p.id] = most
		u.changed = true
	}
	if most <= 0 {
		return
	}
	w := u.S(6)
	bar := draw.Rect{X: p.rect.X + p.rect.W - w - 1, Y: p.rect.Y, W: w, H: p.rect.H}
	u.Fill(bar, w/2, u.T.Tint)
	th := math.Max(u.S(24), bar.H*p.rect.H/p.content)
	p.thumb = draw.Rect{X: bar.X, Y: bar.Y + (bar.H-th)*u.scroll[p.id]/most, W: w, H: th}
	u.Fill(p.thumb, w/2, u.T.Edge)
}

// Top scrolls a panel back to its beginning.
func (u *UI) Top(id string) {
	if u.scroll[id] != 0 {
		u.scroll[id], u.changed = 0, true
	}
}

func (u *UI) scrollBy(p *panel, d float64) {
	most := math.Max(0, p.content-p.rect.H)
	u.scroll[p.id] = math.Min(math.Max(u.scroll[p.id]+d, 0), most)
	u.changed = true
}

// reveal scrolls the panel of a control so that it shows.
func (u *UI) reveal(id string) {
	c := u.find(id)
	if c == nil || c.panel == "" {
		return
	}
	for i := range u.panels {
		p := &u.panels[i]
		if p.id != c.panel {
			continue
		}
		margin := u.S(12)
		if top := c.Rect.Y - margin; top < p.rect.Y {
			u.scrollBy(p, top-p.rect.Y)
		} else if bottom := math.Min(c.Rect.Y+c.Rect.H+margin, c.Rect.Y+p.rect.H-margin); bottom > p.rect.Y+p.rect.H {
			u.scrollBy(p, bottom-p.rect.Y-p.rect.H)
		}
	}
}

func (u *UI) panelAt(x, y float64) *panel {
	for i := len(u.panels) - 1; i >= 0; i-- {
		if u.panels[i].rect.Contains(draw.Point{X: x, Y: y}) {
			return &u.panels[i]
		}
	}
	return nil
}

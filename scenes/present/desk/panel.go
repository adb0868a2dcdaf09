package desk

import "annuloscope/scenes/present/draw"

// Panel is a card whose content scrolls; fill draws it and returns the y below.
func (d *Desk) Panel(id string, r draw.Rect, pad float64, fill func(x, y, width float64) float64) {
	u := d.U
	u.Card(r)
	in := r.Inset(u.S(pad))
	x, y, w := u.BeginPanel(id, draw.Rect{X: in.X - u.S(4), Y: in.Y, W: in.W + u.S(8), H: in.H})
	u.EndPanel(fill(x+u.S(4), y+u.S(4), w-u.S(8)))
}

// Tabs is a panel that shows one part of a scene at a time, where there is no room for all; its choice has the id SCENE/tab
// and a name. part draws the part chosen in the height left, or taller, and returns the y below.
func (d *Desk) Tabs(scene, name string, r draw.Rect, tabs []string, at int, part func(x, y, width, room float64) float64) {
	u := d.U
	bottom := r.Y + r.H - u.S(8)
	d.Panel(scene+tabs[at], r, 8, func(x, y, width float64) float64 {
		y += u.Options(scene+"/tab", x, y, width, name, tabs, at) + u.S(8)
		return part(x, y, width, bottom-y-u.S(8))
	})
}

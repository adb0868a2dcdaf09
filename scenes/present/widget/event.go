package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
)

const scrollPrefix = "scroll "

// Handle takes one event and returns what the person did, and whether the event was used. The slice is valid until the
// next call.
func (u *UI) Handle(e input.Event) (actions []Action, used bool) {
	u.out = u.out[:0]
	switch e.Kind {
	case input.Move:
		used = u.move(e)
	case input.Press:
		used = u.press(e)
	case input.Release:
		used = u.release(e)
	case input.Wheel:
		used = u.wheel(e)
	case input.Leave:
		u.setHover("")
	case input.KeyDown:
		used = u.key(e)
	case input.Text:
		used = u.typed(e.Rune)
	}
	if used {
		u.changed = true
	}
	return u.out, used
}

func (u *UI) do(a Action) { u.out = append(u.out, a) }

// Hit returns the id of the control at a point, or nothing.
func (u *UI) Hit(x, y float64) string {
	p := draw.Point{X: x, Y: y}
	for i := len(u.Controls) - 1; i >= 0; i-- {
		c := &u.Controls[i]
		if c.Rect.Contains(p) && c.Clip.Contains(p) {
			return c.ID
		}
	}
	return ""
}

func (u *UI) setHover(id string) bool {
	if id == u.Hover {
		return false
	}
	u.Hover = id
	u.tipID = ""
	u.hoverAt = math.Inf(1)
	if id != "" {
		u.hoverAt = u.now
	}
	u.changed = true
	return true
}

func (u *UI) move(e input.Event) bool {
	dx, dy := e.X-u.lastX, e.Y-u.lastY
	u.lastX, u.lastY = e.X, e.Y
	if u.drag == "" {
		return u.setHover(u.Hit(e.X, e.Y))
	}
	if len(u.drag) > len(scrollPrefix) && u.drag[:len(scrollPrefix)] == scrollPrefix {
		for i := range u.panels {
			if p := &u.panels[i]; p.id == u.drag[len(scrollPrefix):] && p.rect.H > p.thumb.H {
				u.scrollBy(p, dy*(p.content-p.rect.H)/(p.rect.H-p.thumb.H))
			}
		}
		return true
	}
	c := u.find(u.drag)
	if c == nil {
		u.drag = ""
		return false
	}
	switch c.Kind {
	case Picture:
		u.do(Action{ID: c.ID, Verb: Dragged, DX: dx, DY: dy, Mods: e.Mods, Continue: u.dragMoved})
		u.dragMoved = true
	case Slider, Handle:
		if c.Disabled {
			return true
		}
		step := c.Step
		if e.Mods&input.Shift != 0 {
			step /= 10
			u.fine += dx / c.track.W * (c.Max - c.Min) / 10
		} else {
			u.fine = u.fromX(c, e.X)
		}
		if v := snap(u.fine, step, c.Min, c.Max); v != c.Value {
			u.do(Action{ID: c.ID, Verb: Changed, Value: v, Continue: u.dragMoved})
			u.dragMoved = true
		}
	}
	return true
}

func (u *UI) press(e input.Event) bool {
	u.lastX, u.lastY = e.X, e.Y
	u.ShowRing, u.tipID, u.hoverAt = false, "", math.Inf(1)
	if e.Button != 0 {
		return false
	}
	if p := u.panelAt(e.X, e.Y); p != nil && p.thumb.W > 0 && e.X >= p.thumb.X-u.S(8) {
		if t := p.thumb; e.Y < t.Y {
			u.scrollBy(p, -p.rect.H*0.9)
		} else if e.Y >= t.Y+t.H {
			u.scrollBy(p, p.rect.H*0.9)
		} else {
			u.drag = scrollPrefix + p.id
		}
		return true
	}
	id := u.Hit(e.X, e.Y)
	if u.edit.id != "" && u.edit.id != id {
		u.commit()
	}
	c := u.find(id)
	if c == nil {
		return len(u.out) > 0
	}
	u.Focus, u.drag, u.dragMoved = id, id, false
	switch c.Kind {
	case Slider:
		if c.Disabled {
			return true
		}
		if e.Y < c.track.Y { // the name or the value: ready to type
			if e.X > c.Rect.X+c.Rect.W*2/3 {
				u.beginEdit(c)
			}
			u.drag = ""
			return true
		}
		u.fine = u.fromX(c, e.X)
		if v := snap(u.fine, c.Step, c.Min, c.Max); v != c.Value {
			u.do(Action{ID: id, Verb: Changed, Value: v})
			u.dragMoved = true
		}
	case Handle:
		u.fine = c.Value
	case Choice:
		for i, r := range c.optionRects {
			if r.Contains(draw.Point{X: e.X, Y: e.Y}) && i != c.Selected {
				u.do(Action{ID: id, Verb: Selected, Index: i})
			}
		}
	}
	return true
}

func (u *UI) release(e input.Event) bool {
	id := u.drag
	u.drag = ""
	c := u.find(id)
	if c == nil || c.Disabled || u.Hit(e.X, e.Y) != id {
		return id != ""
	}
	u.activate(c)
	return true
}

// activate presses a button, turns a switch or picks a place in a picture.
func (u *UI) activate(c *Control) {
	switch c.Kind {
	case Button:
		u.do(Action{ID: c.ID, Verb: Pressed, Value: 1})
	case Picture:
		if !u.dragMoved {
			u.do(Action{ID: c.ID, Verb: Picked, DX: u.lastX - c.Rect.X, DY: u.lastY - c.Rect.Y})
		}
	case Line:
		if u.edit.id != c.ID {
			u.beginEdit(c)
		}
	case Toggle:
		v := 1.0
		if c.On {
			v = 0
		}
		u.do(Action{ID: c.ID, Verb: Pressed, Value: v})
	}
}

func (u *UI) wheel(e input.Event) bool {
	if c := u.find(u.Hit(e.X, e.Y)); c != nil && c.Kind == Picture {
		u.do(Action{ID: c.ID, Verb: Zoomed, DY: e.DY, Mods: e.Mods})
		return true
	}
	if p := u.panelAt(e.X, e.Y); p != nil {
		u.scrollBy(p, -e.DY*u.S(48))
		u.setHover("")
		return true
	}
	return false
}

package widget

import (
	"math"

	"annuloscope/scenes/present/input"
)

func (u *UI) key(e input.Event) bool {
	if u.edit.id != "" {
		return u.editKey(e)
	}
	if e.Key == input.Tab {
		if e.Mods&(input.Control|input.Alt) != 0 {
			return false
		}
		d := 1
		if e.Mods&input.Shift != 0 {
			d = -1
		}
		u.walk(d)
		return true
	}
	if e.Mods&(input.Control|input.Alt) != 0 {
		return false
	}
	if e.Key == input.Escape && u.tipID != "" {
		u.tipID = ""
		return true
	}
	c := u.find(u.Focus)
	if c == nil || c.Disabled {
		return false
	}
	used := false
	switch c.Kind {
	case Button, Toggle:
		if (e.Key == input.Enter || e.Key == input.Space) && !e.Repeat {
			u.activate(c)
			used = true
		}
	case Line:
		if e.Key == input.Enter && !e.Repeat {
			u.activate(c)
			used = true
		}
	case Choice:
		used = u.chooseKey(c, e)
	case Slider, Handle:
		used = u.slideKey(c, e)
	case Picture:
		switch e.Key {
		case input.Left, input.Right, input.Up, input.Down, input.Home, input.Plus, input.Minus, input.PageUp, input.PageDown:
			u.do(Action{ID: c.ID, Verb: Keyed, Key: e.Key, Mods: e.Mods, Continue: e.Repeat})
			used = true
		}
	case Info:
		used = u.scrollKey(c, e)
	}
	if used {
		u.ShowRing = true
	}
	return used
}

// walk moves the focus in the order in which controls were described, round the end.
func (u *UI) walk(d int) {
	n := len(u.Controls)
	if n == 0 {
		return
	}
	at := -1
	for i := range u.Controls {
		if u.Controls[i].ID == u.Focus {
			at = i
		}
	}
	if at < 0 && d < 0 {
		at = 0
	}
	for range n {
		at = (at + d + n) % n
		if !u.Controls[at].Disabled {
			break
		}
	}
	u.SetFocus(u.Controls[at].ID)
	u.tipID = u.Focus
}

func (u *UI) chooseKey(c *Control, e input.Event) bool {
	i := c.Selected
	switch e.Key {
	case input.Left, input.Up:
		i--
	case input.Right, input.Down:
		i++
	case input.Home:
		i = 0
	case input.End:
		i = len(c.Options) - 1
	default:
		return false
	}
	if n := len(c.Options); n > 0 {
		i = (i + n) % n
		if i != c.Selected {
			u.do(Action{ID: c.ID, Verb: Selected, Index: i})
		}
	}
	return true
}

func (u *UI) slideKey(c *Control, e input.Event) bool {
	step := c.Step
	if e.Mods&input.Shift != 0 {
		step /= 10
	}
	v, k := c.Value, e.Key
	if c.track.W < 0 { // a handle on an axis that runs to the left
		switch k {
		case input.Left:
			k = input.Right
		case input.Right:
			k = input.Left
		}
	}
	switch k {
	case input.Left, input.Down:
		v -= step
	case input.Right, input.Up:
		v += step
	case input.PageUp:
		v += 10 * step
	case input.PageDown:
		v -= 10 * step
	case input.Home:
		v = c.Min
	case input.End:
		v = c.Max
	case input.Enter:
		u.beginEdit(c)
		return true
	default:
		return false
	}
	u.tipID = ""
	v = math.Round(v*1e9) / 1e9
	if v = math.Min(math.Max(v, c.Min), c.Max); v != c.Value {
		u.do(Action{ID: c.ID, Verb: Changed, Value: v, Continue: e.Repeat})
	}
	return true
}

// scrollKey lets PageUp and PageDown move the panel in which a text lies.
func (u *UI) scrollKey(c *Control, e input.Event) bool {
	for i := range u.panels {
		p := &u.panels[i]
		if p.id != c.panel {
			continue
		}
		switch e.Key {
		case input.PageDown:
			u.scrollBy(p, p.rect.H*0.8)
			return true
		case input.PageUp:
			u.scrollBy(p, -p.rect.H*0.8)
			return true
		}
	}
	return false
}

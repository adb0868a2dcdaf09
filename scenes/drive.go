package scenes

import (
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"
)

// Drive moves one control of the screen by itself, one step at a time, each when the answer to the last one is in the
// picture: the bench command's hand on the slider, in a window as in the page.
type Drive struct {
	ID    string // of a slider
	Moves int
	Ended func() // called once, when the last answer is in the picture or the control is not there; may be nil

	made  int
	ended bool
}

// events returns what happens at this tick.
func (d *Drive) events(g *game) []input.Event {
	if d.ended || g.pictures == 0 || g.dirty || g.pending() || !g.asked.IsZero() {
		return nil
	}
	sp, ok := g.screen.(present.Spoken)
	if ok && d.made < d.Moves {
		for _, c := range sp.Controls() {
			if c.ID == d.ID {
				d.made++
				return d.move(c)
			}
		}
	}
	d.ended = true
	if d.Ended != nil {
		d.Ended()
	}
	return nil
}

// move is a click first, which takes the focus, and then arrow keys, twenty to the right, twenty to the left.
func (d *Drive) move(c present.Control) []input.Event {
	switch {
	case d.made == 1:
		x, y := c.Rect.X+c.Rect.W*0.3, c.Rect.Y+c.Rect.H/2
		return []input.Event{{Kind: input.Press, X: x, Y: y}, {Kind: input.Release, X: x, Y: y}}
	case d.made/20%2 == 0:
		return []input.Event{{Kind: input.KeyDown, Key: input.Right}}
	}
	return []input.Event{{Kind: input.KeyDown, Key: input.Left}}
}

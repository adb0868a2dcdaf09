package scenes

import (
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"

	"github.com/hajimehoshi/ebiten/v2"
)

// resizeTicks is how long a window may take to get another size before it is measured at the one it has: two seconds. Chosen.
const resizeTicks = 120

// Drive moves one control of the screen by itself, one step at a time, each when the answer to the last one is in the
// picture: the bench command's hand on the slider, in a window as in the page.
type Drive struct {
	ID    string // of a slider
	Moves int
	Sizes [][2]int // of the window after the first, one after the other, in logical pixels
	// Ended is called with the picture's size when the last answer at that size is in the picture, or the control is not
	// there; may be nil.
	Ended func(w, h float64, last bool)

	made   int
	ended  bool
	wanted [2]int // of a window that is being resized
	waited int
}

// events returns what happens at this tick.
func (d *Drive) events(g *game) []input.Event {
	if d.ended || g.pictures == 0 || g.dirty || g.pending() || !g.asked.IsZero() {
		return nil
	}
	w, h := g.size()
	if d.wanted != [2]int{} && (w != float64(d.wanted[0]) || h != float64(d.wanted[1])) && d.waited < resizeTicks {
		d.waited++
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
	d.ended = len(d.Sizes) == 0
	if d.Ended != nil {
		d.Ended(w, h, d.ended)
	}
	if !d.ended {
		d.wanted, d.Sizes, d.made, d.waited = d.Sizes[0], d.Sizes[1:], 0, 0
		ebiten.SetWindowSize(d.wanted[0], d.wanted[1])
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

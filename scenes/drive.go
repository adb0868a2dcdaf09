package scenes

import (
	"errors"
	"fmt"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"

	"github.com/hajimehoshi/ebiten/v2"
)

// resizeTicks is how long a window may take to get another size before it is measured at the one it has: two seconds. Chosen.
const resizeTicks = 120

// Drive moves one control of the screen by itself, one step at a time, each when the answer to the last one is in the
// picture: the bench command's hand on the slider, in a window as in the page.
type Drive struct {
	ID     string // of a slider
	Moves  int
	Choose []Choice // what is chosen before the first move
	Sizes  [][2]int // of the window after the first, one after the other, in logical pixels
	// Ended is called with the picture's size when the last answer at that size is in the picture, or a control is not
	// there (see Err); may be nil. Options.Times holds the moves at that size alone.
	Ended func(w, h float64, last bool)
	Err   error // why nothing more is moved

	made   int
	ended  bool
	wanted [2]int // of a window that is being resized
	waited int
}

// Choice is a control that is worked by its name, as the page's HTML side does (present.Spoken, Act).
type Choice struct{ ID, Value string }

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
	if sp, ok := g.screen.(present.Spoken); !ok {
		d.Err = errors.New("the screen has no controls")
	} else if len(d.Choose) > 0 {
		c := d.Choose[0]
		d.Choose = d.Choose[1:]
		g.injectedCalls = append(g.injectedCalls, func() {
			if err := sp.Act(c.ID, c.Value); err != nil {
				d.Err, d.Choose, d.Moves = err, nil, 0
			}
		})
		return nil
	} else if d.made < d.Moves {
		for _, c := range sp.Controls() {
			if c.ID != d.ID {
				continue
			}
			if t := g.options.Times; t != nil && d.made == 0 {
				*t = pace.Times{}
			}
			d.made++
			return d.move(c)
		}
		d.Err = fmt.Errorf("no control %q on this screen", d.ID)
	}
	d.ended = len(d.Sizes) == 0 || d.Err != nil
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

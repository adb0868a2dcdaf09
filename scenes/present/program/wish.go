package program

import "annuloscope/scenes/present"

// Wishes hands over what the scenes have asked of the shell since the last call.
func (p *Program) Wishes() []present.Wish {
	w := p.d.Wishes
	p.d.Wishes = nil
	return w
}

package program

import "annuloscope/scenes/present/tell"

// Sayer is a Scene with a sentence of its own for the line on top.
type Sayer interface{ Sentence() string }

// says is the sentence on top: the scene's own, or what just changed and why.
func (p *Program) says() string {
	if s, ok := p.scenes[p.at].(Sayer); ok {
		return s.Sentence()
	}
	return tell.Sentence(p.d.W(), p.d.S)
}

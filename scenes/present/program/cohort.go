package program

import "annuloscope/scenes/present/cohortview"

// Cohort gives tests the scene of virtual patients.
func (p *Program) Cohort() *cohortview.View {
	for _, s := range p.scenes {
		if c, ok := s.(*cohortview.View); ok {
			return c
		}
	}
	panic("program: no cohort scene")
}

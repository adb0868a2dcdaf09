package study

import (
	"fmt"

	"annuloscope/sim/repair"
)

// Add puts a repair with its own numbers at the end of the list, as one change.
func (s *Study) Add(step repair.Step) error {
	c := s.Case.Clone()
	ref, same := string(step.Kind), 1
	for _, r := range c.Repairs {
		if r.Kind == step.Kind {
			same++
		}
	}
	if same > 1 {
		ref = fmt.Sprintf("%s#%d", ref, same)
	}
	c.Repairs = append(c.Repairs, step.Clone())
	return s.apply(c, Change{Deed: Placed, ID: ref}, false)
}
